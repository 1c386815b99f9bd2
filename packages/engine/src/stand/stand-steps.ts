import type { StandTarget } from "./stand-question.ts";

/** Headings evenly round, from north, rad. */
export const evenHeadings = (count: number): Float64Array =>
  Float64Array.from({ length: count }, (_, i) => (2 * Math.PI * i) / count);

/** Turn between neighbours that spreads points most evenly over a disc: the golden angle, rad. */
const GOLDEN_RAD = Math.PI * (3 - Math.sqrt(5));

/** Places in a disc, from its middle, m: the middle first, then outward with the same area to each, the last on the rim. */
export function tipPlaces(count: number, toleranceM: number): { readonly x: Float64Array; readonly y: Float64Array } {
  const radius = (i: number): number => (count === 1 ? 0 : toleranceM * Math.sqrt(i / (count - 1)));
  return {
    x: Float64Array.from({ length: count }, (_, i) => radius(i) * Math.sin(i * GOLDEN_RAD)),
    y: Float64Array.from({ length: count }, (_, i) => radius(i) * Math.cos(i * GOLDEN_RAD)),
  };
}

/** Heights from the highest down to the lowest, evenly, m; one alone is the highest. */
export function tipHeights(count: number, { minZM, maxZM }: Pick<StandTarget, "minZM" | "maxZM">): Float64Array {
  const step = count > 1 ? (maxZM - minZM) / (count - 1) : 0;
  return Float64Array.from({ length: count }, (_, i) => maxZM - step * i);
}
