import { solveDense } from "../numerics/solve-dense.ts";
import { applyRopes } from "./apply-ropes.ts";
import { unbalanced } from "./balance.ts";
import { fallsWithoutEnd } from "./falls-without-end.ts";
import type { NetworkState } from "./network-state.ts";
import { riseOfTension } from "./newton-balance.ts";

export type Settling = "settled" | "nothing-holds" | "spent";

/**
 * Lets a network without sheave loss come to rest from anywhere: goes down its energy, which is convex.
 *
 * The energy is Σ L0·T²/(2EA) over the taut lines held by length, plus Σ T·l over those held by tension, less the work of
 * the loads. It is met first with soft lines and rounded corners, then ever stiffer and sharper, each stage from
 * where the last one ended, so that neither stiff ropes nor a start far off cost many steps. The rope weight is
 * held as it was at the beginning of each stage. Ends close to rest with the stiffness and smoothing of the last
 * stage in the state: `newtonBalance` has the last word.
 */
export function settleFrictionless(state: NetworkState): Settling {
  const { net } = state;
  const force = Math.max(net.forceN, 1e-9);
  state.friction = 0;
  state.oneSided = true;
  let softest = Infinity;
  for (let line = 0; line < net.lineNames.length; line++) {
    if (net.lengthM[line]! > 0) softest = Math.min(softest, net.lengthM[line]! / net.stiffnessN[line]!);
  }
  let outcome: Settling = "settled";
  state.softening = (0.1 * net.sizeM) / force;
  state.smoothing = 0.01 * net.sizeM;
  for (let stage = 0; stage < 12 && outcome !== "nothing-holds"; stage++) {
    const final = state.softening === 0 && state.smoothing <= 1e-8 * net.sizeM;
    state.liveWeight = true;
    applyRopes(state, false);
    state.liveWeight = false;
    outcome = descend(state, 100, final ? 1e-7 : 1e-3);
    if (final) break;
    state.softening = state.softening < 0.3 * softest ? 0 : state.softening / 30;
    state.smoothing = Math.max(state.smoothing / 30, 1e-8 * net.sizeM);
  }
  state.liveWeight = true;
  state.oneSided = false;
  return outcome;
}

/** Levenberg's method on the energy of the state as it is set. */
function descend(state: NetworkState, limit: number, tolerance: number): Settling {
  const { net, size, place, tangent, matrix, step, foreseen, tension } = state;
  const before = new Float64Array(place.length);
  let damping = (1e-6 * net.forceN) / net.sizeM;
  for (let iteration = 0; iteration < limit; iteration++) {
    applyRopes(state, true);
    const energy = energyOf(state);
    if (unbalanced(state) <= tolerance * net.forceN) return "settled";
    before.set(place);
    for (let trial = 0; ; trial++) {
      if (trial > 60) return "spent";
      matrix.set(tangent);
      for (let f = 0; f < net.nodeOfFree.length; f++) {
        const node = 3 * net.nodeOfFree[f]!;
        for (let i = 0; i < 3; i++) {
          matrix[(3 * f + i) * (size + 1)]! += damping;
          step[3 * f + i] = state.force[node + i]!;
        }
      }
      let expected = -1;
      if (solveDense(matrix, step, size)) {
        expected = 0;
        for (let f = 0; f < net.nodeOfFree.length; f++) {
          const node = 3 * net.nodeOfFree[f]!;
          for (let i = 0; i < 3; i++) {
            const s = step[3 * f + i]!;
            expected += 0.5 * s * (state.force[node + i]! + damping * s);
            place[node + i] = before[node + i]! + s;
          }
        }
      }
      if (expected >= 0) {
        // Forces at the old place are overwritten by the look at the new one; a refused trial brings them back.
        for (let line = 0; line < tension.length; line++) {
          if (net.lengthM[line]! > 0) foreseen[line] = tension[line]! > 0 ? Math.max(0, tension[line]! + riseOfTension(state, line)) : 0;
        }
        applyRopes(state, false);
        const after = energyOf(state);
        const gain = (energy - after) / expected;
        const blurred = expected <= 1e-14 * (Math.abs(energy) + Math.abs(after));
        if (gain > 0.01 || blurred) {
          if (gain > 0.7) damping *= 0.1;
          else if (gain < 0.2) damping *= 4;
          break;
        }
        place.set(before);
        applyRopes(state, false);
      }
      damping = Math.max(8 * damping, (1e-9 * net.forceN) / net.sizeM);
    }
    if (fallsWithoutEnd(state)) return "nothing-holds";
  }
  return "spent";
}

/** Energy of ropes and loads at the places looked at last, J, with no sheave loss. */
function energyOf(state: NetworkState): number {
  const { net, place, tension, stretched, unstretched } = state;
  let energy = 0;
  for (let line = 0; line < net.lineNames.length; line++) {
    const first = net.firstSlot[line]!;
    const last = net.firstSlot[line + 1]! - 1;
    const t = tension[line]!;
    if (net.lengthM[line]! > 0) {
      energy += 0.5 * t * t * (net.lengthM[line]! / net.stiffnessN[line]! + state.softening);
    }
    for (let q = first; q < last; q++) {
      if (net.lengthM[line] === 0) energy += t * stretched[q]!;
      if (net.weightNM[line]! > 0) {
        const heights = place[3 * net.through[q]! + 2]! + place[3 * net.through[q + 1]! + 2]!;
        energy += 0.5 * net.weightNM[line]! * unstretched[q]! * heights;
      }
    }
  }
  for (let f = 0; f < net.nodeOfFree.length; f++) {
    const node = 3 * net.nodeOfFree[f]!;
    for (let i = 0; i < 3; i++) energy -= net.loadN[node + i]! * place[node + i]!;
  }
  return energy;
}
