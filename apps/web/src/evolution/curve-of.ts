import { type Chart, seriesCurve, type WorstCurveOptions, worstCurve } from "@gantline/drawing";
import type { Evolution } from "@gantline/plan";

/** The curve of a figure; of the worst ratio of all checks where none is chosen, or the evolution has no such figure. */
export const curveOf = (evolution: Evolution, seriesId: string | null, options: WorstCurveOptions): Chart =>
  (seriesId === null ? null : seriesCurve(evolution, seriesId, options)) ?? worstCurve(evolution, options);
