import type { Network, NetworkAnswer } from "../../rope/network.ts";

/** A free node without mass and force that only slack lines touch; `undefined`: there is none. */
export const idleNode = (network: Network, answer: NetworkAnswer): string | undefined =>
  Object.entries(network.nodes).find(
    ([name, { free, massKg = 0, forceN = [0, 0, 0] }]) =>
      free &&
      massKg === 0 &&
      forceN.every((f) => f === 0) &&
      Object.entries(network.lines).every(
        ([line, { through }]) => !through.includes(name) || answer.lines[line]?.slack === true,
      ),
  )?.[0];
