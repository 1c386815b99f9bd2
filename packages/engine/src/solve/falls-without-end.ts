import type { NetworkState } from "./network-state.ts";

/**
 * Name of the node that goes farthest when the loads can go on falling for ever, in the direction the nodes have gone so far.
 *
 * Looks only once a node has gone `sizes` times the size of the network. Then the direction is checked by itself, whatever the distance:
 * along it no line held by length grows (all nodes of such a line move as one, and not at all if one is fixed), and the
 * loads do more work per metre than the lines held by a tension take up. Without sheave loss this is proof that
 * nothing holds; with it, the ratios at the sheaves are those far out.
 */
export function fallsWithoutEnd(state: NetworkState, sizes: number): string | undefined {
  const { net, place } = state;
  let farthest = 0;
  let runaway = -1;
  for (let f = 0; f < net.nodeOfFree.length; f++) {
    const node = net.nodeOfFree[f]!;
    for (let i = 3 * node; i < 3 * node + 3; i++) {
      const way = Math.abs(place[i]! - state.origin[i]!);
      if (way <= farthest) continue;
      farthest = way;
      runaway = node;
    }
  }
  if (farthest < sizes * net.sizeM) return undefined;
  const way = commonWays(state, farthest);
  let work = 0;
  for (let i = 0; i < way.length; i++) work += net.loadN[i]! * way[i]!;
  let taken = 0;
  for (let line = 0; line < net.lineNames.length; line++) {
    for (let q = net.firstSlot[line]!; q < net.firstSlot[line + 1]! - 1; q++) {
      const a = 3 * net.through[q]!;
      const b = 3 * net.through[q + 1]!;
      work -= 0.5 * net.weightNM[line]! * state.unstretched[q]! * (way[a + 2]! + way[b + 2]!);
      if (net.lengthM[line]! > 0) continue;
      const growth = Math.hypot(way[a]! - way[b]!, way[a + 1]! - way[b + 1]!, way[a + 2]! - way[b + 2]!);
      taken += net.tensionN[line]! * state.ratio[q]! * growth;
    }
  }
  return work > taken + 1e-9 * net.forceN ? net.nodeNames[runaway] : undefined;
}

/** Way of each node over `scaleM`, the same for all nodes that lines held by length tie together, none for those tied to ground. */
function commonWays(state: NetworkState, scaleM: number): Float64Array {
  const { net, place } = state;
  const group = tiedByLength(state);
  const sum = new Float64Array(place.length);
  const members = new Int32Array(group.length);
  const grounded = new Uint8Array(group.length);
  for (let node = 0; node < group.length; node++) {
    const g = group[node]!;
    members[g]!++;
    if (net.freeOfNode[node]! < 0) grounded[g] = 1;
    for (let i = 0; i < 3; i++) sum[3 * g + i]! += (place[3 * node + i]! - state.origin[3 * node + i]!) / scaleM;
  }
  const way = new Float64Array(place.length);
  for (let node = 0; node < group.length; node++) {
    const g = group[node]!;
    if (grounded[g]) continue;
    for (let i = 0; i < 3; i++) way[3 * node + i] = sum[3 * g + i]! / members[g]!;
  }
  return way;
}

/** Node → lowest node that it is tied to, directly or through others, by lines held by length. */
function tiedByLength(state: NetworkState): Int32Array {
  const { net } = state;
  const group = Int32Array.from(net.nodeNames, (_, node) => node);
  for (let changed = true; changed; ) {
    changed = false;
    for (let line = 0; line < net.lineNames.length; line++) {
      if (net.lengthM[line] === 0) continue;
      for (let q = net.firstSlot[line]!; q < net.firstSlot[line + 1]! - 1; q++) {
        const a = net.through[q]!;
        const b = net.through[q + 1]!;
        if (group[a] === group[b]) continue;
        changed = true;
        group[a] = Math.min(group[a]!, group[b]!);
        group[b] = group[a]!;
      }
    }
  }
  return group;
}
