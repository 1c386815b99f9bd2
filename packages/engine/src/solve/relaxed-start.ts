import type { NetworkState } from "./network-state.ts";
import { newtonStep, takeStep } from "./newton-step.ts";

/** Stiffness that ties each free node to the middle of the fixed ones, over that of a segment: it places what no line ties to a fixed node. */
const TETHER = 1e-3;

/**
 * Puts the free nodes where they would hang if every segment were a spring of no length of its own, all alike, and takes this as
 * the origin of the search.
 *
 * Lines, fixed nodes and loads alone decide it, no guess has a part in it; it turns, mirrors and scales with the network. It is one
 * linear solve, since each coordinate of such springs is linear. The springs give way by the size of the network under all loads together.
 */
export function relaxedStart(state: NetworkState): void {
  const { net, place, force, tangent, size, origin } = state;
  const { nodeOfFree, freeOfNode, through, firstSlot } = net;
  const middle = middleOfFixed(state);
  const spring = Math.max(net.forceN, 1e-9) / net.sizeM;
  tangent.fill(0);
  for (const node of nodeOfFree) for (let i = 0; i < 3; i++) place[3 * node + i] = middle[i]!;
  force.set(net.loadN);
  for (let f = 0; f < size; f++) tangent[f * (size + 1)] = TETHER * spring;
  for (let line = 0; line < net.lineNames.length; line++) {
    for (let q = firstSlot[line]!; q < firstSlot[line + 1]! - 1; q++) {
      tie(through[q]!, through[q + 1]!);
      tie(through[q + 1]!, through[q]!);
    }
  }
  if (newtonStep(state, 0)) takeStep(state, place);
  origin.set(place);

  function tie(node: number, other: number): void {
    const at = 3 * freeOfNode[node]!;
    if (at < 0) return;
    const to = 3 * freeOfNode[other]!;
    for (let i = 0; i < 3; i++) {
      tangent[(at + i) * (size + 1)]! += spring;
      if (to >= 0) tangent[(at + i) * size + to + i]! -= spring;
      force[3 * node + i]! += spring * (place[3 * other + i]! - place[3 * node + i]!);
    }
  }
}

/** Mean place of the fixed nodes that a line runs through, m; the site's origin where none does. */
function middleOfFixed(state: NetworkState): readonly number[] {
  const { freeOfNode, positionM, nodeNames } = state.net;
  const sum = [0, 0, 0];
  let count = 0;
  for (let node = 0; node < nodeNames.length; node++) {
    if (freeOfNode[node]! >= 0) continue;
    count++;
    for (let i = 0; i < 3; i++) sum[i]! += positionM[3 * node + i]!;
  }
  return count > 0 ? sum.map((c) => c / count) : sum;
}
