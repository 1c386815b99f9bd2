/** One sample of a figure along a stage: where, and how much; null where it is not known. */
export interface Sample {
  readonly along: number;
  readonly value: number | null;
}

/** A peak is found when no line through its neighbours could carry it higher than this part of it. */
export const PEAK_WITHIN = 0.005;
/** Samples nearer together than this are one. */
const SAME_PLACE = 1e-4;

/**
 * Where must one look again to have the peak of a figure to within 1 %?
 *
 * Between the highest sample and each neighbour the figure may go higher: as far as the lines through the two samples on
 * either side let it (a kink), or as far as the parabola through the three does (a round top). Where that could be more
 * than `PEAK_WITHIN` of the peak, the place where it would be is named. null: the peak is known well enough, or stands at
 * an end of the stage, or is not known at all.
 *
 * @param samples in order along the stage
 */
export function whereToLook(samples: readonly Sample[]): number | null {
  let peak = -1;
  for (const [i, s] of samples.entries())
    if (s.value !== null && (peak < 0 || s.value > (samples[peak]?.value ?? Number.NEGATIVE_INFINITY))) peak = i;
  const top = samples[peak];
  if (!top || top.value === null || top.value <= 0) return null;
  let place: number | null = null;
  let most = top.value * (1 + PEAK_WITHIN);
  const consider = (along: number, value: number, from: number, to: number): void => {
    if (!(value > most) || along - from < SAME_PLACE || to - along < SAME_PLACE) return;
    most = value;
    place = along;
  };
  for (const side of [-1, 1]) {
    const next = samples[peak + side];
    if (!next || next.value === null) continue;
    const [from, to] = side < 0 ? [next.along, top.along] : [top.along, next.along];
    const before = samples[peak - side];
    const beyond = samples[peak + 2 * side];
    const kink = meeting(before, top, next, beyond);
    if (kink && kink.along > from && kink.along < to) consider(kink.along, kink.value, from, to);
    const round = before ? parabolaTop(before, top, next) : null;
    if (round && round.along > from && round.along < to) consider(round.along, round.value, from, to);
  }
  return place;
}

type Known = { readonly along: number; readonly value: number };
const known = (s: Sample | undefined): Known | null =>
  s && s.value !== null ? { along: s.along, value: s.value } : null;

/**
 * Where the line through a and b meets the line through c and d. At an end of the stage, where there is no a or no d, the
 * figure is taken to fall as steeply on that side as it rises on the other.
 */
function meeting(a0: Sample | undefined, b0: Sample, c0: Sample, d0: Sample | undefined): Known | null {
  const [a, b, c, d] = [known(a0), known(b0), known(c0), known(d0)];
  if (!b || !c || (!a && !d)) return null;
  const rises = a && (b.value - a.value) / (b.along - a.along);
  const falls = d && (d.value - c.value) / (d.along - c.along);
  const first = rises ?? -(falls ?? 0);
  const second = falls ?? -first;
  if (!Number.isFinite(first) || !Number.isFinite(second) || first === second) return null;
  const along = (c.value - b.value + first * b.along - second * c.along) / (first - second);
  return { along, value: b.value + first * (along - b.along) };
}

/** Top of the parabola through three samples; null where it opens upward. */
function parabolaTop(a0: Sample, b0: Sample, c0: Sample): Known | null {
  const [a, b, c] = [known(a0), known(b0), known(c0)];
  if (!a || !b || !c) return null;
  const left = (b.value - a.value) / (b.along - a.along);
  const right = (c.value - b.value) / (c.along - b.along);
  const bend = (right - left) / (c.along - a.along);
  if (!(bend < 0)) return null;
  const slope = left + bend * (b.along - a.along);
  const along = b.along - slope / (2 * bend);
  return { along, value: b.value - (slope * slope) / (4 * bend) };
}
