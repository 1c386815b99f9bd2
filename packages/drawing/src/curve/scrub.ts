import type { Evolution, Moment, When } from "@gantline/plan";
import type { Plot } from "./chart.ts";

/** How far through the evolution a moment is, as `Moment.at`: 0 to 1, every stage the same width. */
export function shareAt(evolution: Evolution, when: When): number {
  return Math.min(1, Math.max(0, (when.stage + when.along) / Math.max(1, evolution.stages.length)));
}

/** Where a moment is drawn on a curve, px from the left edge of its sheet. */
export const xAt = (evolution: Evolution, plot: Plot, when: When): number =>
  plot.leftPx + shareAt(evolution, when) * (plot.rightPx - plot.leftPx);

/**
 * Which moment is drawn at a place of a curve, px from the left edge of its sheet? Left and right of the curve: its first
 * and its last. The line between two stages belongs to the later one. null: there are no stages, or x is not finite.
 */
export const whenAt = (evolution: Evolution, plot: Plot, xPx: number): When | null =>
  whenThrough(evolution, (xPx - plot.leftPx) / (plot.rightPx - plot.leftPx));

/** Which moment is this far through the evolution, as `shareAt`? Before its start and after its end as `whenAt`. */
export function whenThrough(evolution: Evolution, share: number): When | null {
  const count = evolution.stages.length;
  if (count === 0 || !Number.isFinite(share)) return null;
  const through = Math.min(count, Math.max(0, share * count));
  const stage = Math.min(count - 1, Math.floor(through));
  return { stage, along: through - stage };
}

/** The solved moment nearest to one of the same stage; null where that stage has none. */
export function momentAt(evolution: Evolution, when: When): Moment | null {
  let nearest: Moment | null = null;
  for (const moment of evolution.moments) {
    if (moment.when.stage !== when.stage) continue;
    const nearer =
      nearest === null || Math.abs(moment.when.along - when.along) < Math.abs(nearest.when.along - when.along);
    if (nearer) nearest = moment;
  }
  return nearest;
}
