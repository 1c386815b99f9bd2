import type { NetworkState } from "./network-state.ts";

/** Index of the free node (as a node) that is farthest out of balance, or −1 where none is free. */
export function worstNode(state: NetworkState): number {
  let worst = -1;
  let largest = -1;
  for (const node of state.net.nodeOfFree) {
    const size = forceAt(state, node);
    if (!(size <= largest)) {
      largest = size;
      worst = node;
    }
  }
  return worst;
}

/** Largest force out of balance at a free node, N. */
export function unbalanced(state: NetworkState): number {
  const { nodeOfFree } = state.net;
  let largest = 0;
  for (let f = 0; f < nodeOfFree.length; f++) {
    const size = forceAt(state, nodeOfFree[f]!);
    if (!(size <= largest)) largest = size;
  }
  return largest;
}

const forceAt = (state: NetworkState, node: number): number => {
  const { force } = state;
  const x = force[3 * node]!;
  const y = force[3 * node + 1]!;
  const z = force[3 * node + 2]!;
  return Math.sqrt(x * x + y * y + z * z);
};

/** The largest force there is, N: a segment's tension or a node's load. What a residual is measured against. */
export function largestForce(state: NetworkState): number {
  const { net, tension, ratio } = state;
  let largest = 0;
  for (let line = 0; line < tension.length; line++) {
    if (!(tension[line]! > 0)) continue;
    const end = net.firstSlot[line + 1]! - 1;
    for (let q = net.firstSlot[line]!; q < end; q++) largest = Math.max(largest, tension[line]! * ratio[q]!);
    if (net.hasSag && net.sags[line] === 1) largest = Math.max(largest, state.endTension[line]!);
  }
  for (let f = 0; f < net.nodeOfFree.length; f++) {
    const i = 3 * net.nodeOfFree[f]!;
    const x = net.loadN[i]!;
    const y = net.loadN[i + 1]!;
    const z = net.loadN[i + 2]!;
    largest = Math.max(largest, Math.sqrt(x * x + y * y + z * z));
  }
  return largest;
}
