import { addScaled, distance, dot, norm, type SiteVector, scale, site, subtract } from "../base/vector.ts";
import { solveDense3 } from "../numerics/solve-dense-3.ts";

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
  let at = start;
  let now = stretched(at, ropes, hands, forceN);
  for (let iteration = 0; iteration < 200; iteration++) {
    const left = norm(now.force);
    if (left <= 1e-13 * now.size) break;
    const step = downhill(now);
    let place = addScaled(at, step, 1);
    let next = stretched(place, ropes, hands, forceN);
    // Near the least the energy no longer tells places apart, but the force does.
    for (let part = 0.5; part > 1e-12 && !(norm(next.force) < left / 2); part /= 2) {
      if (next.energyJ <= now.energyJ - 2e-4 * part * dot(now.force, step)) break;
      place = addScaled(at, step, part);
      next = stretched(place, ropes, hands, forceN);
    }
    if (!(next.energyJ < now.energyJ || norm(next.force) < left)) break;
    at = place;
    now = next;
  }
  const residualN = norm(now.force);
  if (!(residualN <= 1e-9 * now.size)) return { ok: false, code: "not-converged" };
  return { ok: true, at, tensionsN: now.tensionsN, residualN };
}

interface Stretched {
  readonly energyJ: number;
  readonly force: SiteVector;
  /** How the force left over falls as the load is moved, row by row, N/m. */
  readonly stiffness: readonly number[];
  readonly tensionsN: readonly number[];
  /** The greatest force there is, N. */
  readonly size: number;
  /** The longest way to a point, m. */
  readonly farM: number;
}

/** Newton's step; where nothing holds the load against some way of moving, it is held by as much as its ropes would at rest. */
function downhill({ stiffness, force, size, farM }: Stretched): SiteVector {
  const step = solveDense3(stiffness, force);
  const newton = step === null ? force : site(...step);
  if (step !== null && dot(newton, force) > 0) return newton;
  const steadied = solveDense3(
    stiffness.map((k, i) => (i % 4 === 0 ? k + size / farM : k)),
    force,
  );
  return steadied === null ? scale(force, farM / size) : site(...steadied);
}

function stretched(
  at: SiteVector,
  ropes: readonly HoldingRope[],
  hands: readonly { readonly toward: SiteVector; readonly tensionN: number }[],
  forceN: SiteVector,
): Stretched {
  let energyJ = -dot(forceN, at);
  let force = forceN;
  let size = Math.max(norm(forceN), 1e-9);
  let farM = 1e-9;
  const k = [0, 0, 0, 0, 0, 0, 0, 0, 0];
  const pull = (toward: SiteVector, tensionN: number, alongNM: number): void => {
    const way = subtract(toward, at);
    const length = Math.max(norm(way), 1e-9);
    const u = scale(way, 1 / length);
    force = addScaled(force, u, tensionN);
    size = Math.max(size, tensionN);
    farM = Math.max(farM, length);
    const across = tensionN / length;
    for (let row = 0; row < 3; row++) {
      for (let column = 0; column < 3; column++) {
        const along = (u[row] ?? 0) * (u[column] ?? 0);
        k[row * 3 + column] =
          (k[row * 3 + column] ?? 0) + alongNM * along + across * ((row === column ? 1 : 0) - along);
      }
    }
  };
  const tensionsN = ropes.map(({ toward, beyondM, lengthM, stiffnessN }) => {
    const stretchM = distance(toward, at) + beyondM - lengthM;
    if (!(stretchM > 0)) return 0;
    const alongNM = stiffnessN / lengthM;
    energyJ += (alongNM * stretchM ** 2) / 2;
    pull(toward, alongNM * stretchM, alongNM);
    return alongNM * stretchM;
  });
  for (const { toward, tensionN } of hands) {
    energyJ += tensionN * distance(toward, at);
    pull(toward, tensionN, 0);
  }
  return { energyJ, force, stiffness: k, tensionsN, size, farM };
}
