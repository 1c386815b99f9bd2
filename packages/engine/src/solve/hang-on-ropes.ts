import { dot, lengthOf, norm, type SiteVector, site } from "../base/vector.ts";
import { solveDense3 } from "../numerics/solve-dense-3.ts";
import { addRopeStiffness } from "./rope-stiffness.ts";

/** A line of a set length as the load feels it: from the load to one point, and on from there to where it is made fast. */
export interface HoldingRope {
  readonly toward: SiteVector;
  /** From that point to where it is made fast, m. */
  readonly beyondM: number;
  /** All of it with no tension in it, m. */
  readonly lengthM: number;
  /** EA, N. */
  readonly stiffnessN: number;
}

export type HangingOnRopes =
  | {
      readonly ok: true;
      readonly at: SiteVector;
      /** Tension of each rope, N; 0: slack. */
      readonly tensionsN: readonly number[];
      readonly residualN: number;
    }
  | { readonly ok: false; readonly code: "not-converged" };

/**
 * Where does the load hang on ropes of set lengths, with steady pulls by hand?
 *
 * Each rope is a straight spring in tension only, T = EA (l − l₀)/l₀ over its whole length, without friction; a pull by hand
 * keeps its size. The energy is convex: Newton's method on it, steps halved until it falls enough or the force left
 * over halves.
 *
 * @param start where the search begins, site frame, m
 * @param ropes at least one; all lengths and stiffnesses above zero
 * @param forceN everything else that acts on the load, N
 * @returns the place, the tensions and the force left over, N (below 1e-9 of the greatest force)
 */
export function hangOnRopes(
  start: SiteVector,
  ropes: readonly HoldingRope[],
  hands: readonly { readonly toward: SiteVector; readonly tensionN: number }[],
  forceN: SiteVector,
): HangingOnRopes {
  const lines: Lines = { ropes, hands, forceN };
  let now = nothingFelt(ropes.length);
  let next = nothingFelt(ropes.length);
  now.at.set(start);
  feel(now, lines);
  for (let iteration = 0; iteration < 200; iteration++) {
    if (now.leftN <= 1e-13 * now.sizeN) break;
    const down = stepDownhill(now);
    stepFrom(now, 1, next, lines);
    // Near the least the energy no longer tells places apart, but the force does.
    for (let part = 0.5; part > 1e-12 && !(next.leftN < now.leftN / 2); part /= 2) {
      if (next.energyJ <= now.energyJ - 2e-4 * part * down) break;
      stepFrom(now, part, next, lines);
    }
    if (!(next.energyJ < now.energyJ || next.leftN < now.leftN)) break;
    [now, next] = [next, now];
  }
  if (!(now.leftN <= 1e-9 * now.sizeN)) return { ok: false, code: "not-converged" };
  return {
    ok: true,
    at: site(now.at[0]!, now.at[1]!, now.at[2]!),
    tensionsN: Array.from(now.tensionsN),
    residualN: now.leftN,
  };
}

interface Lines {
  readonly ropes: readonly HoldingRope[];
  readonly hands: readonly { readonly toward: SiteVector; readonly tensionN: number }[];
  readonly forceN: SiteVector;
}

/** What the load feels at a place; filled anew for each. */
interface Felt {
  readonly at: Float64Array;
  energyJ: number;
  /** Force left over, N, and its size. */
  readonly force: Float64Array;
  leftN: number;
  /** How the force left over falls as the load is moved, row by row, N/m. */
  readonly stiffness: Float64Array;
  readonly tensionsN: Float64Array;
  /** The greatest force there is, N. */
  sizeN: number;
  /** The longest way to a point, m. */
  farM: number;
}

const nothingFelt = (ropes: number): Felt => ({
  at: new Float64Array(3),
  energyJ: 0,
  force: new Float64Array(3),
  leftN: 0,
  stiffness: new Float64Array(9),
  tensionsN: new Float64Array(ropes),
  sizeN: 0,
  farM: 0,
});

/** The step that is being taken, m. */
const step = new Float64Array(3);

function stepFrom(from: Felt, part: number, to: Felt, lines: Lines): void {
  for (let k = 0; k < 3; k++) to.at[k] = from.at[k]! + part * step[k]!;
  feel(to, lines);
}

/**
 * Fills in Newton's step; where nothing holds the load against some way of moving, it is held by as much as its ropes would at
 * rest. Gives the force along it, N·m.
 */
function stepDownhill({ stiffness, force, sizeN, farM }: Felt): number {
  const x = force[0]!;
  const y = force[1]!;
  const z = force[2]!;
  const along = (): number => step[0]! * x + step[1]! * y + step[2]! * z;
  const isSolved = solveDense3(stiffness, x, y, z, step);
  if (!isSolved) step.set(force);
  if (isSolved && along() > 0) return along();
  for (let k = 0; k < 9; k += 4) stiffness[k]! += sizeN / farM;
  if (!solveDense3(stiffness, x, y, z, step)) for (let k = 0; k < 3; k++) step[k] = (force[k]! * farM) / sizeN;
  return along();
}

function feel(felt: Felt, { ropes, hands, forceN }: Lines): void {
  const here = site(felt.at[0]!, felt.at[1]!, felt.at[2]!);
  felt.energyJ = -dot(forceN, here);
  felt.sizeN = Math.max(norm(forceN), 1e-9);
  felt.farM = 1e-9;
  felt.force.set(forceN);
  felt.stiffness.fill(0);
  for (let i = 0; i < ropes.length; i++) {
    const { toward, beyondM, lengthM, stiffnessN } = ropes[i]!;
    const stretchM = lengthOf(toward[0] - here[0], toward[1] - here[1], toward[2] - here[2]) + beyondM - lengthM;
    const alongNM = stiffnessN / lengthM;
    felt.tensionsN[i] = stretchM > 0 ? alongNM * stretchM : 0;
    if (!(stretchM > 0)) continue;
    felt.energyJ += (alongNM * stretchM * stretchM) / 2;
    pull(felt, toward, alongNM * stretchM, alongNM);
  }
  for (const { toward, tensionN } of hands) felt.energyJ += tensionN * pull(felt, toward, tensionN, 0);
  felt.leftN = lengthOf(felt.force[0]!, felt.force[1]!, felt.force[2]!);
}

/** Adds a pull toward a point; gives how far that is, m. */
function pull(felt: Felt, toward: SiteVector, tensionN: number, alongNM: number): number {
  const { at, force, stiffness } = felt;
  const x = toward[0] - at[0]!;
  const y = toward[1] - at[1]!;
  const z = toward[2] - at[2]!;
  const lengthM = lengthOf(x, y, z);
  const per = 1 / Math.max(lengthM, 1e-9);
  force[0]! += tensionN * x * per;
  force[1]! += tensionN * y * per;
  force[2]! += tensionN * z * per;
  felt.sizeN = Math.max(felt.sizeN, tensionN);
  felt.farM = Math.max(felt.farM, lengthM);
  addRopeStiffness(stiffness, x * per, y * per, z * per, alongNM, tensionN * per);
  return lengthM;
}
