import { applyRopes } from "./apply-ropes.ts";
import { unbalanced } from "./balance.ts";
import type { NetworkState } from "./network-state.ts";
import { newtonStep, takeStep } from "./newton-step.ts";

/**
 * Lays idle nodes on the straight way between their neighbours on the lines through them (each in the middle of these), whatever
 * the guess was; where that would draw a line taut, they stay where they are, which is as good.
 *
 * @param idle nodes, each on a line that leads to a fixed node, in a state in balance
 */
export function layIdle(state: NetworkState, idle: readonly number[]): void {
  const { net, place, force, tangent, size, tension } = state;
  const { freeOfNode, through, firstSlot } = net;
  const found = Float64Array.from(place);
  const pulled = Float64Array.from(tension);
  const left = unbalanced(state);
  tangent.fill(0);
  force.fill(0);
  for (const node of net.nodeOfFree) if (!idle.includes(node)) weigh(node, node, 1);
  for (let line = 0; line < net.lineNames.length; line++) {
    for (let q = firstSlot[line]!; q < firstSlot[line + 1]! - 1; q++) {
      tie(through[q]!, through[q + 1]!);
      tie(through[q + 1]!, through[q]!);
    }
  }
  if (newtonStep(state, 0)) takeStep(state, found);
  applyRopes(state, false);
  if (tension.every((t, line) => t > 0 === pulled[line]! > 0) && unbalanced(state) <= left) return;
  place.set(found);
  applyRopes(state, false);

  /** A spring of no length, 1 N/m, on an idle node. */
  function tie(node: number, other: number): void {
    if (!idle.includes(node)) return;
    weigh(node, node, 1);
    weigh(node, other, -1);
    for (let i = 0; i < 3; i++) force[3 * node + i]! += place[3 * other + i]! - place[3 * node + i]!;
  }

  function weigh(node: number, other: number, stiffnessNM: number): void {
    const [at, to] = [3 * freeOfNode[node]!, 3 * freeOfNode[other]!];
    if (to < 0) return;
    for (let i = 0; i < 3; i++) tangent[(at + i) * size + to + i]! += stiffnessNM;
  }
}
