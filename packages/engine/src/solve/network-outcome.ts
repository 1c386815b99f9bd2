import type { NetworkState } from "./network-state.ts";

/** Name of a free node that nothing places: no taut line ties it, through others, to a fixed node. Undefined where there is none. */
export function looseNode(state: NetworkState): string | undefined {
  const { net, tension } = state;
  const held = new Uint8Array(net.nodeNames.length);
  for (let node = 0; node < held.length; node++) held[node] = net.freeOfNode[node]! < 0 ? 1 : 0;
  for (let changed = true; changed; ) {
    changed = false;
    for (let line = 0; line < tension.length; line++) {
      if (!(tension[line]! > 0)) continue;
      let any = false;
      let all = true;
      for (let q = net.firstSlot[line]!; q < net.firstSlot[line + 1]!; q++) {
        if (held[net.through[q]!]) any = true;
        else all = false;
      }
      if (!any || all) continue;
      for (let q = net.firstSlot[line]!; q < net.firstSlot[line + 1]!; q++) held[net.through[q]!] = 1;
      changed = true;
    }
  }
  const loose = held.indexOf(0);
  return loose < 0 ? undefined : net.nodeNames[loose];
}

/** "a and b", the two nodes of a taut segment that are closer than `limitM`; undefined where there are none. */
export function blockedSegment(state: NetworkState, limitM: number): string | undefined {
  const { net, tension, stretched } = state;
  for (let line = 0; line < tension.length; line++) {
    if (!(tension[line]! > 0)) continue;
    for (let q = net.firstSlot[line]!; q < net.firstSlot[line + 1]! - 1; q++) {
      const a = net.through[q]!;
      const b = net.through[q + 1]!;
      if (stretched[q]! > limitM || (net.freeOfNode[a]! < 0 && net.freeOfNode[b]! < 0)) continue;
      return `${net.nodeNames[a]} and ${net.nodeNames[b]}`;
    }
  }
  return undefined;
}
