import type { NetworkState } from "./network-state.ts";

/** Free nodes that nothing places: no taut line ties them, directly or through other nodes, to a fixed one. */
export const looseNodes = (state: NetworkState): readonly number[] =>
  unreached(state, (line) => state.tension[line]! > 0 || state.net.sags[line] === 1);

/**
 * Does a loose node lie idle, as at the split of a slack line: without mass and force, and on some line that leads, directly or
 * through other nodes, to a fixed one? Nothing hangs on where it is, so wherever no line comes taut will do.
 */
export function idleAmong(state: NetworkState, loose: readonly number[]): readonly number[] {
  const { network, nodeNames } = state.net;
  const adrift = unreached(state, () => true);
  return loose.filter((node) => {
    const { massKg = 0, forceN = [0, 0, 0] } = network.nodes[nodeNames[node]!]!;
    return massKg === 0 && forceN.every((f) => f === 0) && !adrift.includes(node);
  });
}

/** Free nodes that none of the lines that count leads to from a fixed node. */
function unreached({ net }: NetworkState, counts: (line: number) => boolean): readonly number[] {
  const held = net.freeOfNode.map((free) => (free < 0 ? 1 : 0));
  let left = net.nodeOfFree.length;
  for (let changed = true; changed && left > 0; ) {
    changed = false;
    for (let line = 0; line < net.lineNames.length; line++) {
      const first = net.firstSlot[line]!;
      const end = net.firstSlot[line + 1]!;
      let count = 0;
      for (let slot = first; slot < end; slot++) count += held[net.through[slot]!]!;
      if (count === 0 || count === end - first || !counts(line)) continue;
      changed = true;
      for (let slot = first; slot < end; slot++) {
        const node = net.through[slot]!;
        if (held[node] === 0) left--;
        held[node] = 1;
      }
    }
  }
  return left === 0 ? [] : [...net.nodeOfFree].filter((node) => held[node] === 0);
}
