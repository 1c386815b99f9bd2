import type { AerialDevice } from "../aerial/device.ts";
import { POSE_TOLERANCE } from "../aerial/pose-limits.ts";
import { ratedTipLoad } from "../aerial/rated-tip-load.ts";

/** The maker's table laid out by elevation and length: between two neighbouring edges of its bands it has one value. */
export interface RatingSteps {
  /** Edges of bands, rising, rad and m. */
  readonly elevations: Float64Array;
  readonly lengths: Float64Array;
  /** N, lengths within elevations; −1 where the table does not say. */
  readonly ratedN: Float64Array;
}

/** Asks `ratedTipLoad` once between every two edges: what it answers cannot change but at an edge. */
export function ratingSteps(table: AerialDevice["tipRating"]): RatingSteps {
  const elevations = edges(table.rows.flatMap((r) => [r.elevationMinRad, r.elevationMaxRad]));
  const lengths = edges(table.rows.flatMap((r) => [r.lengthMinM, r.lengthMaxM]));
  const ratedN = new Float64Array((elevations.length + 1) * (lengths.length + 1));
  for (let e = 0; e <= elevations.length; e++) {
    for (let l = 0; l <= lengths.length; l++) {
      const answer = ratedTipLoad(table, between(elevations, e), between(lengths, l));
      ratedN[e * (lengths.length + 1) + l] = answer.ratedTipLoadN ?? -1;
    }
  }
  return { elevations, lengths, ratedN };
}

/** Rated vertical tip load, N; −1 where the table does not say. */
export function ratedAt(steps: RatingSteps, elevationRad: number, lengthM: number): number {
  const e = stepOf(steps.elevations, elevationRad);
  const l = stepOf(steps.lengths, lengthM);
  return steps.ratedN[e * (steps.lengths.length + 1) + l] as number;
}

/** How far does a pose lie from where the table allows a load? Shares of a right angle and of a length added up; the largest number where it nowhere does. */
export function poseGapToRated(
  { elevations, lengths, ratedN }: RatingSteps,
  pose: { readonly elevationRad: number; readonly lengthM: number },
  neededN: number,
  wholeM: number,
): number {
  let least = Number.MAX_VALUE;
  for (let e = 0; e <= elevations.length; e++) {
    const turn = gapTo(elevations, e, pose.elevationRad) / UPRIGHT_RAD;
    if (turn >= least) continue;
    for (let l = 0; l <= lengths.length; l++) {
      if ((ratedN[e * (lengths.length + 1) + l] as number) < neededN) continue;
      least = Math.min(least, turn + gapTo(lengths, l, pose.lengthM) / wholeM);
    }
  }
  return least;
}

const UPRIGHT_RAD = Math.PI / 2;

/** How far a number lies from what is between the edges of a step. */
const gapTo = (rising: Float64Array, step: number, x: number): number =>
  Math.max(0, (rising[step - 1] ?? -Number.MAX_VALUE) - x, x - (rising[step] ?? Number.MAX_VALUE));

/** How many of some rising numbers are at or below `x`? */
export function stepOf(rising: Float64Array, x: number): number {
  let low = 0;
  let high = rising.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((rising[middle] as number) <= x) low = middle + 1;
    else high = middle;
  }
  return low;
}

const edges = (bounds: readonly number[]): Float64Array =>
  Float64Array.from(
    [...new Set(bounds.flatMap((b) => [b - POSE_TOLERANCE, b + POSE_TOLERANCE]))].sort((a, b) => a - b),
  );

function between(rising: Float64Array, step: number): number {
  const below = rising[step - 1];
  const above = rising[step];
  if (below === undefined) return (above ?? 0) - 1;
  return above === undefined ? below + 1 : (below + above) / 2;
}
