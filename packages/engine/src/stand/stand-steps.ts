import type { StandTarget } from "./stand-question.ts";

/** Headings evenly round, from north, rad. */
export const evenHeadings = (count: number): Float64Array =>
  Float64Array.from({ length: count }, (_, i) => (2 * Math.PI * i) / count);

/** Turn between neighbours that spreads points most evenly over a disc: the golden angle, rad. */
const GOLDEN_RAD = Math.PI * (3 - Math.sqrt(5));

/** Places in a disc, from its middle, m. Changes in place. */
export interface TipPlaces {
  readonly x: Float64Array;
  readonly y: Float64Array;
}

/**
 * Places in a disc, from its middle, m: the middle, the point nearest to the turntable, the farthest from it, then outward
 * with the same area to each, the last on the rim. A little nearer is what reach wants, a little farther what a wall does.
 */
export function tipPlaces(count: number, toleranceM: number): TipPlaces {
  const radius = (i: number): number => toleranceM * Math.sqrt(i / (count - 1));
  const spread = (of: (rad: number) => number) =>
    Float64Array.from({ length: count }, (_, i) => (i < 3 ? 0 : radius(i) * of(i * GOLDEN_RAD)));
  return { x: spread(Math.sin), y: spread(Math.cos) };
}

/** Puts the nearest and the farthest place on the line to a turntable, which lies so far from the disc's middle, m. */
export function turnTipPlaces({ x, y }: TipPlaces, toleranceM: number, eastM: number, northM: number): void {
  const far = Math.hypot(eastM, northM);
  const [sin, cos] = far > 0 ? [eastM / far, northM / far] : [0, -1];
  for (let i = 1; i < Math.min(3, x.length); i++) {
    const by = i === 1 ? toleranceM : -toleranceM;
    x[i] = by * sin;
    y[i] = by * cos;
  }
}

/** Heights from the highest down to the lowest, evenly, m; one alone is the highest. */
export function tipHeights(count: number, { minZM, maxZM }: Pick<StandTarget, "minZM" | "maxZM">): Float64Array {
  const step = count > 1 ? (maxZM - minZM) / (count - 1) : 0;
  return Float64Array.from({ length: count }, (_, i) => maxZM - step * i);
}

/** Steps between two neighbouring heights that may be told apart: they are halved six times. */
export const HEIGHT_PARTS = 64;

/** How many heights may be told apart in all. */
export const heightsTold = (tipHeights: number): number => (tipHeights - 1) * HEIGHT_PARTS + 1;
