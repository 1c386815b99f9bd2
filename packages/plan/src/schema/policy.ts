import * as z from "zod/mini";
import { maybeNotNegative, text } from "./common.ts";

/** A limit and where it comes from. `null`: the department has set none, and what rests on it is unknown. */
const limit = z.strictObject({ value: maybeNotNegative, source: text });

/**
 * The limits this plan is judged by. Each names its source: maker's plate first, then the department's policy,
 * then a published standard, then a planning default marked so.
 */
export const policy = z.strictObject({
  name: text,
  /** Which of the three tip utilisations decide: resultant and bending (`resultant`), or compression as well (`all`). */
  tipBasis: z.enum(["resultant", "all"]),
  /** Breaking strength ÷ force, for gear and anchors given by breaking strength. */
  strengthFactor: limit,
  /** Rating ÷ force where a structural rating is given. */
  structuralFactor: limit,
  /** Status turns to `close` above this ratio. */
  closeRatio: limit,
  offPlaneMaxRad: limit,
  shareMax: limit,
  pairUnevenMax: limit,
  ladderClearanceM: limit,
  loadClearanceM: limit,
  loadToLadderClearanceM: limit,
  ropeClearanceM: limit,
  tipMarginM: limit,
  windMaxMS: limit,
  slingAngleMinRad: limit,
  basketFactor: limit,
  chokerFactor: limit,
  personsMax: limit,
  pullPerPersonN: limit,
  jackReachMin: limit,
  stabilityFactor: limit,
  slopeMaxRad: limit,
  /** Mass of an attendant when the ledger is asked what one would change, kg. */
  attendantMassKg: limit,
  /** When a line goes: the highest force on a person, N. */
  peakPersonN: limit,
  /** Breaking strength ÷ highest force, for ropes, gear and points given by breaking strength. */
  peakStrengthFactor: limit,
  /** Working rating ÷ highest force, for rigging points and the maker's tip table. */
  peakRatingFactor: limit,
  /** The highest force on a brake, N. */
  peakBrakeN: limit,
  /** Most rope that a brake may let through, m. */
  peakSlipM: limit,
  /** Slip force to reckon with for brakes whose own is not known, N. */
  brakeSlipN: limit,
});

export type Limit = z.infer<typeof limit>;
export type Policy = z.infer<typeof policy>;
export type LimitName = { [K in keyof Policy]: Policy[K] extends Limit ? K : never }[keyof Policy];
