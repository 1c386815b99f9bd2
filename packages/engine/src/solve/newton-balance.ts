import { applyRopes } from "./apply-ropes.ts";
import { largestForce, unbalanced } from "./balance.ts";
import type { NetworkState } from "./network-state.ts";
import { foreseePulls, newtonStep, takeStep, tensionAfterStep } from "./newton-step.ts";

/** What a search for balance came to. */
export interface BalanceRun {
  readonly converged: boolean;
  readonly iterations: number;
}

/** Shares of the largest force that may stay out of balance in an answer. */
export interface BalanceTolerance {
  /** At once. */
  readonly aim: number;
  /** When rounding lets it go no further. */
  readonly stalled: number;
  /** When all steps are used up. */
  readonly atLast: number;
}

export const EXACT: BalanceTolerance = { aim: 1e-12, stalled: 1e-9, atLast: 0 };

/**
 * Brings the free nodes into balance by Newton steps from where they are, with the tension of each line foreseen.
 *
 * In the tangent, what turns with the rope is weighed with the tension that the last step foresaw, not with the tension
 * at the place reached: after a step along a curve a stiff rope shows a wildly wrong tension, and the foreseen one
 * is right. This is Newton's method on places and tensions together, the tensions eliminated; how stiff a rope is
 * does not matter to it. Converges quadratically near an answer; far from one it may wander: no harm, since what it
 * ends at is in balance or not taken.
 *
 * @param limit most steps
 */
export function newtonBalance(state: NetworkState, limit: number, tolerance: BalanceTolerance): BalanceRun {
  const { net, foreseen } = state;
  let best = Infinity;
  applyRopes(state, false);
  foresee(state);
  for (let iteration = 0; ; iteration++) {
    let pushing = applyRopes(state, true);
    const scale = largestForce(state);
    if (pushing > 0 && scale === 0) {
      // No load and no pull anywhere: what pushes is slack.
      foreseen.fill(0);
      pushing = applyRopes(state, true);
    }
    const residual = unbalanced(state);
    if (!(residual < Infinity)) return { converged: false, iterations: iteration };
    if (pushing === 0) {
      const { aim, stalled, atLast } = tolerance;
      const enough = Math.max(aim, residual > 0.1 * best ? stalled : 0, iteration === limit ? atLast : 0);
      if (residual <= enough * scale) return { converged: true, iterations: iteration };
      best = Math.min(best, residual);
    }
    // The shift gives a node that balances anywhere along its rope a place; it is too small to be felt elsewhere.
    if (iteration === limit || !newtonStep(state, (1e-9 * scale) / net.sizeM))
      return { converged: false, iterations: iteration };
    shortenStep(state, net.reachM);
    for (let line = 0; line < foreseen.length; line++) foreseen[line] = tensionAfterStep(state, line);
    foreseePulls(state);
    takeStep(state, state.place);
  }
}

/** First guess of the tensions: what the lines show where they are, but no more than the loads could ask for. */
function foresee(state: NetworkState): void {
  const { net, tension, foreseen, pull, foreseenPull } = state;
  const most = net.forceN > 0 ? net.forceN : Infinity;
  for (let line = 0; line < tension.length; line++) {
    if (foreseen[line]! > 0 || net.tensionN[line]! >= 0) continue;
    foreseen[line] = Math.min(Math.max(0, tension[line]!), most);
  }
  for (let i = 0; i < pull.length; i += 3) {
    if (foreseenPull[i] !== 0 || foreseenPull[i + 1] !== 0 || foreseenPull[i + 2] !== 0) continue;
    const size = Math.hypot(pull[i]!, pull[i + 1]!, pull[i + 2]!);
    const share = size > most ? most / size : 1;
    for (let j = i; j < i + 3; j++) foreseenPull[j] = share * pull[j]!;
  }
}

/** Shortens the step so that no coordinate changes by more than `limitM`. */
function shortenStep(state: NetworkState, limitM: number): void {
  const { step } = state;
  let farthest = 0;
  for (let i = 0; i < step.length; i++) farthest = Math.max(farthest, Math.abs(step[i]!));
  if (farthest <= limitM) return;
  for (let i = 0; i < step.length; i++) step[i]! *= limitM / farthest;
}
