import { applyRopes } from "./apply-ropes.ts";
import { largestForce, unbalanced } from "./balance.ts";
import { fallsWithoutEnd } from "./falls-without-end.ts";
import type { NetworkState } from "./network-state.ts";
import type { BalanceRun } from "./newton-balance.ts";
import { newtonStep, takeStep } from "./newton-step.ts";

/**
 * Lets the free nodes sink into balance as if in thick oil, sheave loss and rope weight and all.
 *
 * Each node moves at a speed in proportion to the force on it; the motion is followed by implicit steps
 * (one Newton step each). A step is kept if the forces at its end are what moved it, to one half; its length in pretended
 * time grows while that goes well. Forces with sheave loss have no energy to go down, which is why it is done this way.
 * Slow and steady: it is called where Newton steps alone went astray.
 */
export function relaxBalance(state: NetworkState, limit: number, tolerance: number): BalanceRun {
  const { net, place, tension, foreseen } = state;
  const before = new Float64Array(place.length);
  /** Force per move of a step, N/m: one over its length in pretended time. */
  let pace = Math.max(net.forceN, 1e-9) / net.sizeM;
  let converged = false;
  let iteration = 0;
  state.oneSided = true;
  applyRopes(state, false);
  for (; iteration < limit; iteration++) {
    for (let line = 0; line < tension.length; line++) foreseen[line] = net.lengthM[line]! > 0 ? tension[line]! : 0;
    applyRopes(state, true);
    const residual = unbalanced(state);
    converged = residual <= tolerance * largestForce(state);
    if (converged) break;
    before.set(place);
    let kept = false;
    for (let trial = 0; trial < 30 && !kept; trial++) {
      if (newtonStep(state, pace)) {
        takeStep(state, before);
        applyRopes(state, false);
        const missed = forceUnexplained(state, pace) / residual;
        kept = missed <= 0.5;
        if (kept) pace *= missed < 0.1 ? 0.2 : 0.6;
        else {
          place.set(before);
          applyRopes(state, false);
        }
      }
      if (!kept) pace *= 5;
    }
    if (!kept || fallsWithoutEnd(state, 100) !== undefined) break;
  }
  state.foreseenPull.set(state.pull);
  state.oneSided = false;
  return { converged, iterations: iteration };
}

/** Largest part of the force at a free node that the step just taken does not account for, N. */
function forceUnexplained(state: NetworkState, pace: number): number {
  const { net, force, step } = state;
  let largest = 0;
  for (let f = 0; f < net.nodeOfFree.length; f++) {
    const node = 3 * net.nodeOfFree[f]!;
    const x = force[node]! - pace * step[3 * f]!;
    const y = force[node + 1]! - pace * step[3 * f + 1]!;
    const z = force[node + 2]! - pace * step[3 * f + 2]!;
    largest = Math.max(largest, Math.sqrt(x * x + y * y + z * z));
  }
  return largest;
}
