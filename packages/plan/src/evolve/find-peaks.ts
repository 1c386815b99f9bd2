/** One sample of a figure along a stage: where, and how much; null where it is not known. */
export interface Sample {
  readonly along: number;
  readonly value: number | null;
  /** Samples of one piece are one smooth or kinked course; from piece to piece the figure may jump. */
  readonly piece?: number;
}

/** Where a figure could be higher than it was found, and how high. */
export interface Look {
  readonly along: number;
  readonly value: number;
}

/** A peak is found when no line through its neighbours could carry it higher than this part of it. */
export const PEAK_WITHIN = 0.005;
/** Samples nearer together than this are one. */
const SAME_PLACE = 1e-4;

/**
 * Where must one look again to have the highest value of a figure to within 1 %?
 *
 * Between any two samples the figure may go higher: as far as the lines through the two samples on either side let it (a
 * kink), or as far as a parabola through three does (a round top). Every pair is asked, not only those beside the highest
 * sample: a lower top between two others may hide the highest. Where the figure could be more than `PEAK_WITHIN` above the
 * highest sample, the place where it could be highest is named. null: the peak is known well enough, or is not known at all.
 *
 * At an end of the stage or of a piece, where there is no further sample, the figure is taken to fall as steeply on that
 * side as it rises on the other. Between a sample and one where it is not known or does not apply, it may go on as it went.
 *
 * @param samples in order along the stage
 */
export function whereToLook(samples: readonly Sample[]): Look | null {
  let top = Number.NEGATIVE_INFINITY;
  for (const { value } of samples) if (value !== null && value > top) top = value;
  if (!(top > 0) || top === Number.POSITIVE_INFINITY) return null;
  let most = top * (1 + PEAK_WITHIN);
  let place = Number.NaN;
  const consider = (along: number, value: number, from: number, to: number): void => {
    if (!(value > most) || !(along - from >= SAME_PLACE) || !(to - along >= SAME_PLACE)) return;
    most = value;
    place = along;
  };
  for (let i = 1; i < samples.length; i++) {
    const [b, c] = [samples[i - 1], samples[i]];
    if (!b || !c) continue;
    const [a, d] = [neighbour(samples[i - 2], b), neighbour(samples[i + 1], c)];
    const width = c.along - b.along;
    // Known at one end only: it may go on as it went until just before the other.
    if (b.value === null || c.value === null) {
      const [end, inner] = c.value === null ? [b, a] : [c, d];
      if (end.value === null || inner === null || inner.value === null) continue;
      const slope = (end.value - inner.value) / Math.abs(end.along - inner.along);
      consider((b.along + c.along) / 2, end.value + slope * width, b.along, c.along);
      continue;
    }
    if (b.piece !== c.piece) continue;
    const middle = (c.value - b.value) / width;
    const before = a === null ? null : (b.value - (a.value ?? 0)) / (b.along - a.along);
    const after = d === null ? null : ((d.value ?? 0) - c.value) / (d.along - c.along);
    if (before === null && after === null) continue;
    // A kink: the line that comes in from the left meets the line that goes out to the right.
    const rise = before ?? -(after ?? 0);
    const fall = after ?? -rise;
    if (rise > fall) {
      const x = (c.value - b.value - fall * width) / (rise - fall);
      consider(b.along + x, b.value + rise * x, b.along, c.along);
    }
    // A round top: the parabola through this pair and the sample on one side.
    const bendLeft = before === null || a === null ? 0 : (middle - before) / (c.along - a.along);
    const bendRight = after === null || d === null ? 0 : (after - middle) / (d.along - b.along);
    for (const bend of [bendLeft, bendRight]) {
      if (!(bend < 0)) continue;
      const x = width / 2 - middle / (2 * bend);
      consider(b.along + x, b.value + middle * x + bend * x * (x - width), b.along, c.along);
    }
  }
  return Number.isNaN(place) ? null : { along: place, value: most };
}

/** The sample beyond one end of a pair, where it is known and of the same piece. */
const neighbour = (beyond: Sample | undefined, end: Sample): Sample | null =>
  beyond && beyond.value !== null && beyond.piece === end.piece ? beyond : null;
