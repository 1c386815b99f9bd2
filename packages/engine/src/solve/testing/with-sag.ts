import { seededRandom } from "../../numerics/seeded-random.ts";
import type { Network, NetworkLine } from "../../rope/network.ts";

/** The same network with most of its two-node lines of known stiffness hung as catenaries, of 0.2 to 1.5 N/m. */
export function withSag(network: Network, seed: number): Network {
  const random = seededRandom(seed + 77_777);
  const lines: Record<string, NetworkLine> = {};
  for (const [name, line] of Object.entries(network.lines)) {
    const drawn = random() < 0.8;
    const linearMassKgM = 0.02 + 0.13 * random();
    const sag = drawn && line.through.length === 2 && line.axialStiffnessN !== undefined;
    lines[name] = sag ? { ...line, sag, linearMassKgM } : line;
  }
  return { ...network, lines };
}
