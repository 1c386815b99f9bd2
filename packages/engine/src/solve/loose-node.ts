import type { NetworkState } from "./network-state.ts";

/** Name of a free node that nothing places: no taut line ties it, directly or through other nodes, to a fixed one. */
export function looseNode(state: NetworkState): string | undefined {
  const { net, tension } = state;
  const held = Uint8Array.from(net.freeOfNode, (free) => (free < 0 ? 1 : 0));
  for (let changed = true; changed; ) {
    changed = false;
    for (let line = 0; line < tension.length; line++) {
      if (!(tension[line]! > 0)) continue;
      const nodes = net.through.subarray(net.firstSlot[line]!, net.firstSlot[line + 1]!);
      if (!nodes.some((node) => held[node]) || nodes.every((node) => held[node])) continue;
      for (const node of nodes) held[node] = 1;
      changed = true;
    }
  }
  return net.nodeNames[held.indexOf(0)];
}
