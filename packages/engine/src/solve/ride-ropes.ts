import { addScaled, distance, norm, type SiteVector, site, subtract, unit, ZERO } from "../base/vector.ts";
import { solveDense3 } from "../numerics/solve-dense-3.ts";

/** Something that pulls a riding pulley toward a point with a steady tension. */
export interface RidingPull {
  readonly toward: SiteVector;
  /** N, 0 or more. */
  readonly tensionN: number;
}

export interface RidingPlace {
  readonly at: SiteVector;
  /** Index of the pull whose point the pulley has run up against; null while it rides free. */
  readonly against: number | null;
  /** Force left over at the pulley, N; zero while it rides free. */
  readonly residualN: number;
}

/**
 * Where does a pulley come to ride on ropes under tension when something pulls it aside?
 *
 * A pulley on a rope is pulled along both parts of it by the rope's tension, and aside by a tether. Frictionless and
 * weightless, it runs to where Σ T·|x − p| is least, which is convex: one place, found by Newton's method with halved
 * steps. Where the least lies in one of the points themselves the pulley has run up against it (a tip sheave or a
 * redirect), and that is said.
 *
 * @param pulls two for each rope ridden (the two parts of it, each toward its next fixed point) and one for the tether
 * @param start where the search begins, site frame, m
 */
export function rideRopes(pulls: readonly RidingPull[], start: SiteVector): RidingPlace {
  const size = Math.max(...pulls.map((p) => p.tensionN), 1e-12);
  let at = start;
  let energy = energyAt(pulls, at);
  // A start with less energy than every point is on the way to a least that is none of them.
  if (!pulls.every((p) => p.tensionN <= 0 || energy < energyAt(pulls, p.toward))) {
    const against = pulls.findIndex((_, i) => stopsAt(pulls, i, size));
    const stop = pulls[against];
    if (stop) return { at: stop.toward, against, residualN: 0 };
    at = belowEveryPoint(pulls, start);
    energy = energyAt(pulls, at);
  }
  for (let iteration = 0; iteration < 80; iteration++) {
    const { force, stiffness } = forceAt(pulls, at);
    if (norm(force) <= 1e-12 * size) break;
    const step = solveDense3(stiffness, force) ?? [force[0] / size, force[1] / size, force[2] / size];
    let part = 1;
    let next = at;
    let lower = energy;
    for (let halving = 0; halving < 40; halving++, part /= 2) {
      next = site(at[0] + part * step[0], at[1] + part * step[1], at[2] + part * step[2]);
      lower = energyAt(pulls, next);
      if (lower <= energy - 1e-4 * part * (force[0] * step[0] + force[1] * step[1] + force[2] * step[2])) break;
    }
    if (!(lower < energy)) break;
    at = next;
    energy = lower;
  }
  return { ...nearer(pulls, at, size), against: null };
}

/** Near the least the energy no longer tells places apart, but the force does: Newton's full steps while it falls. */
function nearer(pulls: readonly RidingPull[], from: SiteVector, size: number): Omit<RidingPlace, "against"> {
  let at = from;
  let residualN = norm(pullAt(pulls, at));
  for (let iteration = 0; iteration < 8 && residualN > 1e-14 * size; iteration++) {
    const { force, stiffness } = forceAt(pulls, at);
    const step = solveDense3(stiffness, force);
    if (step === null) break;
    const next = site(at[0] + step[0], at[1] + step[1], at[2] + step[2]);
    const left = norm(pullAt(pulls, next));
    if (!(left < residualN)) break;
    at = next;
    residualN = left;
  }
  return { at, residualN };
}

/** Is the pulley held in the i-th point: does that point's own pull outweigh all others there? */
function stopsAt(pulls: readonly RidingPull[], i: number, size: number): boolean {
  const here = pulls[i]?.toward ?? ZERO;
  const own = pulls.reduce((sum, p) => (distance(p.toward, here) < 1e-12 ? sum + p.tensionN : sum), 0);
  return own > 0 && norm(pullAt(pulls, here)) <= own + 1e-12 * size;
}

/**
 * A place with less energy than any of the points (none of which is the least): from there a descent cannot end in one,
 * where the energy has a kink.
 */
function belowEveryPoint(pulls: readonly RidingPull[], start: SiteVector): SiteVector {
  const points = pulls.filter((p) => p.tensionN > 0).map((p) => p.toward);
  const lowest = points.reduce((a, b) => (energyAt(pulls, b) < energyAt(pulls, a) ? b : a), points[0] ?? start);
  const least = energyAt(pulls, lowest);
  const away = unit(pullAt(pulls, lowest));
  for (let step = Math.max(...points.map((p) => distance(p, lowest))); step > 1e-12; step /= 2) {
    const place = addScaled(lowest, away, step);
    if (energyAt(pulls, place) < least) return place;
  }
  return lowest;
}

const energyAt = (pulls: readonly RidingPull[], at: SiteVector): number =>
  pulls.reduce((sum, p) => sum + p.tensionN * distance(p.toward, at), 0);

/** Force on the pulley, N. */
const pullAt = (pulls: readonly RidingPull[], at: SiteVector): SiteVector =>
  pulls.reduce((sum, p) => addScaled(sum, unit(subtract(p.toward, at)), p.tensionN), ZERO);

/** Force on the pulley and how it stiffens against being moved (row by row), N and N/m. */
function forceAt(pulls: readonly RidingPull[], at: SiteVector): { force: SiteVector; stiffness: number[] } {
  let force = ZERO;
  const k = [0, 0, 0, 0, 0, 0, 0, 0, 0];
  for (const { toward, tensionN } of pulls) {
    const u = unit(subtract(toward, at));
    const stiff = tensionN / Math.max(distance(toward, at), 1e-9);
    force = addScaled(force, u, tensionN);
    for (let row = 0; row < 3; row++) {
      for (let column = 0; column < 3; column++)
        k[row * 3 + column] =
          (k[row * 3 + column] ?? 0) + stiff * ((row === column ? 1 : 0) - (u[row] ?? 0) * (u[column] ?? 0));
    }
  }
  return { force, stiffness: k };
}
