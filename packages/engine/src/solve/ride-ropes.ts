import { addScaled, distance, lengthOf, NO_LENGTH, type SiteVector, site, unit, ZERO } from "../base/vector.ts";
import { solveDense3 } from "../numerics/solve-dense-3.ts";
import { addRopeStiffness } from "./rope-stiffness.ts";

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

/** Where something is, m, or a step or force, in one array that is used again: this is run through many times a moment. */
type Place = Float64Array;
const newPlace = (): Place => new Float64Array(3);

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
  let size = 1e-12;
  for (const p of pulls) size = Math.max(size, p.tensionN);
  at.set(start);
  let energy = energyAt(pulls, at);
  // A start with less energy than every point is on the way to a least that is none of them.
  if (!pulls.every((p) => p.tensionN <= 0 || energy < energyAt(pulls, p.toward))) {
    const against = pulls.findIndex((_, i) => stopsAt(pulls, i, size));
    const stop = pulls[against];
    if (stop) return { at: stop.toward, against, residualN: 0 };
    at.set(belowEveryPoint(pulls, start));
    energy = energyAt(pulls, at);
  }
  for (let iteration = 0; iteration < 80; iteration++) {
    if (feelAt(pulls, at) <= 1e-12 * size) break;
    if (!solveDense3(stiffness, force[0]!, force[1]!, force[2]!, step))
      for (let k = 0; k < 3; k++) step[k] = force[k]! / size;
    const down = force[0]! * step[0]! + force[1]! * step[1]! + force[2]! * step[2]!;
    let part = 1;
    let lower = energy;
    for (let halving = 0; halving < 40; halving++, part /= 2) {
      for (let k = 0; k < 3; k++) next[k] = at[k]! + part * step[k]!;
      lower = energyAt(pulls, next);
      if (lower <= energy - 1e-4 * part * down) break;
    }
    if (!(lower < energy)) break;
    at.set(next);
    energy = lower;
  }
  const residualN = settleNearer(pulls, size);
  return { at: site(at[0]!, at[1]!, at[2]!), against: null, residualN };
}

const at = newPlace();
const next = newPlace();
const step = newPlace();
/** Force on the pulley, N, and how it stiffens against being moved, row by row, N/m; as last felt. */
const force = newPlace();
const stiffness = new Float64Array(9);

/** Near the least the energy no longer tells places apart, but the force does: Newton's full steps while it falls. Gives the force left over, N. */
function settleNearer(pulls: readonly RidingPull[], size: number): number {
  let residualN = feelAt(pulls, at);
  for (let iteration = 0; iteration < 8 && residualN > 1e-14 * size; iteration++) {
    if (!solveDense3(stiffness, force[0]!, force[1]!, force[2]!, step)) break;
    for (let k = 0; k < 3; k++) next[k] = at[k]! + step[k]!;
    const left = feelAt(pulls, next);
    if (!(left < residualN)) break;
    at.set(next);
    residualN = left;
  }
  return residualN;
}

/** Is the pulley held in the i-th point: does that point's own pull outweigh all others there? */
function stopsAt(pulls: readonly RidingPull[], i: number, size: number): boolean {
  const here = pulls[i]?.toward ?? ZERO;
  const own = pulls.reduce((sum, p) => (distance(p.toward, here) < 1e-12 ? sum + p.tensionN : sum), 0);
  return own > 0 && feelAt(pulls, here) <= own + 1e-12 * size;
}

/**
 * A place with less energy than any of the points (none of which is the least): from there a descent cannot end in one,
 * where the energy has a kink.
 */
function belowEveryPoint(pulls: readonly RidingPull[], start: SiteVector): SiteVector {
  const points = pulls.filter((p) => p.tensionN > 0).map((p) => p.toward);
  const lowest = points.reduce((a, b) => (energyAt(pulls, b) < energyAt(pulls, a) ? b : a), points[0] ?? start);
  const least = energyAt(pulls, lowest);
  feelAt(pulls, lowest);
  const away = unit(site(force[0]!, force[1]!, force[2]!));
  for (let step = Math.max(...points.map((p) => distance(p, lowest))); step > 1e-12; step /= 2) {
    const place = addScaled(lowest, away, step);
    if (energyAt(pulls, place) < least) return place;
  }
  return lowest;
}

function energyAt(pulls: readonly RidingPull[], here: ArrayLike<number>): number {
  let sum = 0;
  for (const { toward, tensionN } of pulls)
    sum += tensionN * lengthOf(toward[0] - here[0]!, toward[1] - here[1]!, toward[2] - here[2]!);
  return sum;
}

/** Fills `force` and `stiffness` for a place; gives the size of the force, N. A pull toward that very place has no direction. */
function feelAt(pulls: readonly RidingPull[], here: ArrayLike<number>): number {
  force.fill(0);
  stiffness.fill(0);
  for (const { toward, tensionN } of pulls) {
    const x = toward[0] - here[0]!;
    const y = toward[1] - here[1]!;
    const z = toward[2] - here[2]!;
    const length = lengthOf(x, y, z);
    const per = length > NO_LENGTH ? 1 / length : 0;
    addRopeStiffness(stiffness, x * per, y * per, z * per, 0, tensionN / Math.max(length, 1e-9));
    force[0]! += tensionN * x * per;
    force[1]! += tensionN * y * per;
    force[2]! += tensionN * z * per;
  }
  return lengthOf(force[0]!, force[1]!, force[2]!);
}
