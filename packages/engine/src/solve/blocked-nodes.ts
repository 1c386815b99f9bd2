import type { NetworkState } from "./network-state.ts";

/** Two nodes drawn onto each other; `moving` is free. */
export interface BlockedNodes {
  readonly moving: string;
  readonly other: string;
}

/**
 * The two ends of a taut segment shorter than `limitM`, one of them free.
 *
 * In a state that is in balance with its corners rounded, such a segment of length d carries only d/√(d² + smoothing²) of
 * its tension: the rest finds nothing to pull against. So the tension at the sharp corner is more than enough to hold the
 * nodes together (the force they need from each other lies inside the ball of radius T), and they meet.
 */
export function blockedNodes(state: NetworkState, limitM: number): BlockedNodes | undefined {
  const { net, tension, stretched } = state;
  for (let line = 0; line < tension.length; line++) {
    // A hanging rope of given length never draws its ends onto each other: its own weight keeps it off.
    if (!(tension[line]! > 0) || (net.sags[line] === 1 && net.lengthM[line]! > 0)) continue;
    for (let q = net.firstSlot[line]!; q < net.firstSlot[line + 1]! - 1; q++) {
      if (stretched[q]! > limitM) continue;
      const [a, b] = [net.through[q]!, net.through[q + 1]!];
      if (net.freeOfNode[a]! >= 0) return { moving: net.nodeNames[a]!, other: net.nodeNames[b]! };
      if (net.freeOfNode[b]! >= 0) return { moving: net.nodeNames[b]!, other: net.nodeNames[a]! };
    }
  }
  return undefined;
}
