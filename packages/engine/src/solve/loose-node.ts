import type { NetworkState } from "./network-state.ts";

/** Name of a free node that nothing places: no taut line ties it, directly or through other nodes, to a fixed one. */
export function looseNode(state: NetworkState): string | undefined {
  const { net, tension } = state;
  const held = net.freeOfNode.map((free) => (free < 0 ? 1 : 0));
  let loose = net.nodeOfFree.length;
  for (let changed = true; changed && loose > 0; ) {
    changed = false;
    for (let line = 0; line < tension.length; line++) {
      const first = net.firstSlot[line]!;
      const end = net.firstSlot[line + 1]!;
      let count = 0;
      for (let slot = first; slot < end; slot++) count += held[net.through[slot]!]!;
      if (!(tension[line]! > 0 || net.sags[line] === 1) || count === 0 || count === end - first) continue;
      changed = true;
      for (let slot = first; slot < end; slot++) {
        const node = net.through[slot]!;
        if (held[node] === 0) loose--;
        held[node] = 1;
      }
    }
  }
  return net.nodeNames[held.indexOf(0)];
}
