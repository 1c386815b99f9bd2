import { solveDense } from "../numerics/solve-dense.ts";
import { applyRopes } from "./apply-ropes.ts";
import { largestForce, unbalanced } from "./balance.ts";
import type { NetworkState } from "./network-state.ts";

/** Share of the largest force that may stay out of balance in an answer. */
export const BALANCE_TOLERANCE = 1e-9;

export interface NewtonRun {
  readonly converged: boolean;
  readonly iterations: number;
}

/**
 * Brings the free nodes into balance by Newton steps from where they are, the tension of each line foreseen as an
 * unknown of its own.
 *
 * The step solves tangent × move = force. In the tangent, what turns with the rope is weighed with the tension that the
 * last step foresaw, not with the tension at the place reached: for a stiff rope the two differ wildly after a step along a
 * curve, and the foreseen one is right. This is Newton's method on places and tensions together, with the tensions
 * eliminated; how stiff a rope is does not matter to it. `pace` > 0 adds that much stiffness to ground, N/m, to
 * each free node, shrinking as balance is approached: an implicit step in pretended time, which follows the way an
 * overdamped network would take. Converges quadratically near an answer.
 */
export function newtonBalance(state: NetworkState, limit: number, pace = 0, tolerance = 1e-12): NewtonRun {
  const { net, size, tension, foreseen, tangent, matrix, step } = state;
  let best = Infinity;
  let last = Infinity;
  applyRopes(state, false);
  foresee(state);
  for (let iteration = 0; iteration <= limit; iteration++) {
    const pushing = applyRopes(state, true);
    const scale = largestForce(state);
    const residual = unbalanced(state);
    if (!(residual < Infinity)) return { converged: false, iterations: iteration };
    if (pushing === 0 && residual <= BALANCE_TOLERANCE * scale) {
      if (residual <= tolerance * scale || residual > 0.1 * best) return { converged: true, iterations: iteration };
    }
    if (pushing === 0) best = Math.min(best, residual);
    if (iteration === limit) break;

    if (pace > 0 && last < Infinity) pace *= Math.min(2, Math.max(0.05, residual / last));
    last = residual;
    matrix.set(tangent);
    const shift = pace + (1e-9 * scale) / net.sizeM;
    for (let f = 0; f < net.nodeOfFree.length; f++) {
      const node = 3 * net.nodeOfFree[f]!;
      for (let i = 0; i < 3; i++) {
        matrix[(3 * f + i) * (size + 1)]! += shift;
        step[3 * f + i] = state.force[node + i]!;
      }
    }
    if (!solveDense(matrix, step, size)) return { converged: false, iterations: iteration };
    move(state, net.sizeM);
    for (let line = 0; line < tension.length; line++) {
      foreseen[line] = net.tensionN[line]! >= 0 ? 0 : Math.max(0, tension[line]! + riseOfTension(state, line));
    }
  }
  return { converged: false, iterations: limit };
}

/** First guess of the tensions: what the lines show where they are, but no more than the loads could ask for. */
function foresee(state: NetworkState): void {
  const { net, tension, foreseen } = state;
  for (let line = 0; line < tension.length; line++) {
    if (foreseen[line]! > 0 || net.tensionN[line]! >= 0) continue;
    foreseen[line] = net.forceN > 0 ? Math.min(Math.max(0, tension[line]!), net.forceN) : Math.max(0, tension[line]!);
  }
}

/** Moves the free nodes by `step`, shortened so that none goes farther than `limitM`. */
export function move(state: NetworkState, limitM: number): void {
  const { net, place, step } = state;
  let farthest = 0;
  for (let i = 0; i < step.length; i++) farthest = Math.max(farthest, Math.abs(step[i]!));
  const share = farthest > limitM ? limitM / farthest : 1;
  for (let f = 0; f < net.nodeOfFree.length; f++) {
    const node = 3 * net.nodeOfFree[f]!;
    for (let i = 0; i < 3; i++) {
      step[3 * f + i]! *= share;
      place[node + i]! += step[3 * f + i]!;
    }
  }
}

/** By how much the first tension of a line rises over `step`, to first order, N. */
export function riseOfTension(state: NetworkState, line: number): number {
  const { net, step, tensionSlope } = state;
  let rise = 0;
  for (let slot = net.firstSlot[line]!; slot < net.firstSlot[line + 1]!; slot++) {
    const f = net.freeOfNode[net.through[slot]!]!;
    if (f < 0) continue;
    for (let i = 0; i < 3; i++) rise += tensionSlope[3 * slot + i]! * step[3 * f + i]!;
  }
  return rise;
}
