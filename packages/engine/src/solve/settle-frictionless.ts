import { applyRopes } from "./apply-ropes.ts";
import { largestForce, unbalanced } from "./balance.ts";
import { fallsWithoutEnd } from "./falls-without-end.ts";
import type { NetworkState } from "./network-state.ts";
import { newtonStep, takeStep, tensionAfterStep } from "./newton-step.ts";

/**
 * Lets a network without sheave loss come to rest from anywhere, by going down its energy, which is convex.
 *
 * The energy is Σ L0·T²/(2EA) over the taut lines held by length, that of stretch and height of those that sag, plus Σ T·l over those
 * held by tension, less the work of the loads and of the rope weight, which stays as `state.unstretched` has it. Softening and smoothing are as
 * the state has them. Levenberg's method: Newton steps with a shift that grows when a step does not lower the energy as foreseen.
 *
 * @param tolerance share of the largest force that may stay out of balance
 * @returns false if the loads fall without end
 */
export function settleFrictionless(state: NetworkState, tolerance: number): boolean {
  state.friction = 0;
  state.oneSided = true;
  state.liveWeight = false;
  const holds = descend(state, 100, tolerance);
  state.foreseenPull.set(state.pull);
  state.friction = 1;
  state.oneSided = false;
  state.liveWeight = true;
  return holds;
}

function descend(state: NetworkState, limit: number, tolerance: number): boolean {
  const { net, place, foreseen } = state;
  const before = new Float64Array(place.length);
  const unit = Math.max(net.forceN, 1e-9) / net.sizeM;
  let shift = 1e-6 * unit;
  for (let iteration = 0; iteration < limit; iteration++) {
    applyRopes(state, true);
    if (unbalanced(state) <= tolerance * largestForce(state)) return true;
    const energy = energyOf(state);
    before.set(place);
    let kept = false;
    for (let trial = 0; trial < 60 && !kept; trial++) {
      if (newtonStep(state, shift)) {
        const expected = workOfStep(state, shift);
        for (let line = 0; line < foreseen.length; line++) {
          foreseen[line] = state.tension[line]! > 0 ? tensionAfterStep(state, line) : 0;
        }
        takeStep(state, before);
        applyRopes(state, false);
        const after = energyOf(state);
        const gain = (energy - after) / expected;
        kept = gain > 0.01 || expected <= 1e-14 * (Math.abs(energy) + Math.abs(after));
        if (kept && gain > 0.7) shift *= 0.1;
        else if (kept && gain < 0.2) shift *= 4;
        if (!kept) {
          place.set(before);
          applyRopes(state, false);
        }
      }
      if (!kept) shift = Math.max(8 * shift, 1e-9 * unit);
    }
    if (!kept) return true;
    if (fallsWithoutEnd(state, 10) !== undefined) return false;
  }
  return true;
}

/** By how much the step should lower the energy, to second order, J. */
function workOfStep(state: NetworkState, shift: number): number {
  const { net, force, step } = state;
  let work = 0;
  for (let f = 0; f < net.nodeOfFree.length; f++) {
    const node = 3 * net.nodeOfFree[f]!;
    for (let i = 0; i < 3; i++) work += 0.5 * step[3 * f + i]! * (force[node + i]! + shift * step[3 * f + i]!);
  }
  return work;
}

/** Energy of ropes and loads at the places looked at last, J, without sheave loss. */
function energyOf(state: NetworkState): number {
  const { net, place, tension, stretched, unstretched } = state;
  let energy = 0;
  for (let line = 0; line < net.lineNames.length; line++) {
    const last = net.firstSlot[line + 1]! - 1;
    const t = tension[line]!;
    const length = net.lengthM[line]!;
    if (net.hasSag && net.sags[line] === 1) energy += state.hangEnergy[line]!;
    else if (length > 0) energy += 0.5 * t * t * (length / net.stiffnessN[line]! + state.softening);
    for (let q = net.firstSlot[line]!; q < last; q++) {
      if (length === 0) energy += t * stretched[q]!;
      if (net.weightNM[line] === 0) continue;
      const heights = place[3 * net.through[q]! + 2]! + place[3 * net.through[q + 1]! + 2]!;
      energy += 0.5 * net.weightNM[line]! * unstretched[q]! * heights;
    }
  }
  for (let f = 0; f < net.nodeOfFree.length; f++) {
    const node = 3 * net.nodeOfFree[f]!;
    for (let i = 0; i < 3; i++) energy -= net.loadN[node + i]! * place[node + i]!;
  }
  return energy;
}
