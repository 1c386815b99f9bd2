import { type CatenaryForm, type HangingRope, turnOfPull } from "./catenary-form.ts";

/** Level and plumb way from A to the place on the rope at unstretched distance `alongM` from A, m. */
export function wayAlong(
  rope: HangingRope,
  form: CatenaryForm,
  alongM: number,
): { readonly levelM: number; readonly riseM: number } {
  const { weightNM, compliancePerN } = rope;
  const { levelN } = form;
  const low = upAt(rope, form, 0);
  const high = upAt(rope, form, alongM);
  const both = Math.hypot(levelN, low) + Math.hypot(levelN, high);
  const turned = levelN > 0 ? (levelN / weightNM) * turnOfPull(levelN, low, high) : 0;
  return {
    levelM: levelN * alongM * compliancePerN + turned,
    riseM: alongM * (low + high) * (0.5 * compliancePerN + (both > 0 ? 1 / both : 0)),
  };
}

/** Unstretched distance from A to the lowest place of the rope, m. */
export const lowestAlong = (rope: HangingRope, form: CatenaryForm): number =>
  within(rope, -upAt(rope, form, 0) / rope.weightNM);

/**
 * Greatest plumb distance from the straight line between the ends down to the rope, m: where the rope runs along with
 * that line. Of ends plumb above each other it is what it would be with next to nothing between them; folded, the fall from
 * the higher end.
 */
export function sagOfForm(rope: HangingRope, form: CatenaryForm, riseM: number): number {
  const { lengthM, weightNM, compliancePerN } = rope;
  const folded = form.dip === Number.POSITIVE_INFINITY;
  // Level tension over level way, which outlasts both.
  const sideNM = folded ? 0 : (0.5 * weightNM) / (form.dip + 0.5 * weightNM * lengthM * compliancePerN);
  const low = upAt(rope, form, 0);
  const along = within(rope, (sideNM * riseM - low) / weightNM);
  const turn = folded ? 0 : turnOfPull(form.levelN, low, upAt(rope, form, along));
  const share = folded ? (riseM > 0 ? 1 : 0) : sideNM * (along * compliancePerN + turn / weightNM);
  return Math.max(0, share * riseM - wayAlong(rope, form, along).riseM);
}

/** Length along the stretched rope, m. */
export function stretchedOfForm(rope: HangingRope, form: CatenaryForm): number {
  const { lengthM, weightNM, compliancePerN } = rope;
  const low = upAt(rope, form, 0);
  const high = upAt(rope, form, lengthM);
  const [atA, atB] = [Math.hypot(form.levelN, low), Math.hypot(form.levelN, high)];
  // ∫T ds = [V·T + H²·asinh(V/H)] / 2w; the first part, written without a difference of large numbers.
  const ends = 0.25 * lengthM * (atA + atB) * (1 + (low + high) ** 2 / (atA + atB) ** 2);
  const turned = form.levelN > 0 ? (form.levelN ** 2 * form.dip) / weightNM : 0;
  return lengthM + compliancePerN * (ends + turned);
}

/** Upward part of the tension at an unstretched distance from A, N. */
const upAt = (rope: HangingRope, form: CatenaryForm, alongM: number): number =>
  form.middleN + rope.weightNM * (alongM - 0.5 * rope.lengthM);

const within = (rope: HangingRope, alongM: number): number => Math.min(rope.lengthM, Math.max(0, alongM));
