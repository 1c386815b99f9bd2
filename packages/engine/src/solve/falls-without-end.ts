import type { NetworkState } from "./network-state.ts";

/**
 * Whether the loads can go on falling for ever, in the direction the nodes have gone so far.
 *
 * Looks only once a node has gone far outside the network. Then the direction is checked by itself, whatever the distance:
 * along it no line held by length grows (each moves as one with what it is tied to), and the loads do more work
 * per metre than the lines held by a tension take up. Without sheave loss that is proof that nothing holds.
 */
export function fallsWithoutEnd(state: NetworkState): boolean {
  const { net, place } = state;
  let farthest = 0;
  for (const node of net.nodeOfFree) {
    for (let i = 0; i < 3; i++) farthest = Math.max(farthest, Math.abs(place[3 * node + i]! - net.positionM[3 * node + i]!));
  }
  if (farthest < 1e3 * net.sizeM) return false;
  const direction = commonDirection(state, farthest);
  let work = 0;
  for (let i = 0; i < direction.length; i++) work += net.loadN[i]! * direction[i]!;
  let taken = 0;
  for (let line = 0; line < net.lineNames.length; line++) {
    if (net.lengthM[line]! > 0) continue;
    for (let q = net.firstSlot[line]!; q < net.firstSlot[line + 1]! - 1; q++) {
      const a = 3 * net.through[q]!;
      const b = 3 * net.through[q + 1]!;
      taken +=
        net.tensionN[line]! *
        Math.hypot(direction[a]! - direction[b]!, direction[a + 1]! - direction[b + 1]!, direction[a + 2]! - direction[b + 2]!);
    }
  }
  return work > taken + 1e-9 * net.forceN;
}

/** Way of each node over `scaleM`, the same for all nodes that lines held by length tie together, zero for those tied to ground. */
function commonDirection(state: NetworkState, scaleM: number): Float64Array {
  const { net, place } = state;
  const group = net.nodeNames.map((_, i) => i);
  for (let changed = true; changed; ) {
    changed = false;
    for (let line = 0; line < net.lineNames.length; line++) {
      if (net.lengthM[line] === 0) continue;
      for (let q = net.firstSlot[line]! + 1; q < net.firstSlot[line + 1]!; q++) {
        const low = Math.min(group[net.through[q]!]!, group[net.through[q - 1]!]!);
        if (group[net.through[q]!] !== low || group[net.through[q - 1]!] !== low) changed = true;
        group[net.through[q]!] = low;
        group[net.through[q - 1]!] = low;
      }
    }
  }
  const direction = new Float64Array(place.length);
  const members = new Float64Array(group.length);
  const fixed = new Uint8Array(group.length);
  for (let node = 0; node < group.length; node++) {
    const g = group[node]!;
    members[g]!++;
    if (net.freeOfNode[node]! < 0) fixed[g] = 1;
    for (let i = 0; i < 3; i++) direction[3 * g + i]! += (place[3 * node + i]! - net.positionM[3 * node + i]!) / scaleM;
  }
  const result = new Float64Array(place.length);
  for (let node = 0; node < group.length; node++) {
    const g = group[node]!;
    if (!fixed[g]) for (let i = 0; i < 3; i++) result[3 * node + i] = direction[3 * g + i]! / members[g]!;
  }
  return result;
}
