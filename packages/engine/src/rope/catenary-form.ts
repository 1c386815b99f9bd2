import { tanhLag } from "../numerics/tanh-lag.ts";
import { dipOfLength } from "./catenary-dip.ts";

/** A rope of known length between two points, as its own weight and stretch see it. */
export interface HangingRope {
  /** Unstretched length, m, above 0. */
  readonly lengthM: number;
  /** Weight of each unstretched metre, N/m, above 0. */
  readonly weightNM: number;
  /** 1/EA, 1/N; 0 for a rope that does not stretch. */
  readonly compliancePerN: number;
}

/**
 * A hanging rope in the upright plane through its ends: the pull in its middle, and what its slopes and energy come from.
 *
 * The pull toward B at unstretched distance s from A is (levelN, middleN + weightNM·(s − L/2)), level and up.
 */
export interface CatenaryForm {
  readonly levelN: number;
  /** Upward part of the tension at half the rope's length; negative where B is the lower end. */
  readonly middleN: number;
  /** Dip λ; see `dipOfLength`. */
  readonly dip: number;
  /** Rise from A to B without what stretch adds, over the rope's length, and √(1 − up²): tanh µ and sech µ of the theory. */
  readonly up: number;
  readonly across: number;
}

/** Stretch of a rope that hangs plumb by itself, over its length: wL/2EA. */
export const ownStrain = (rope: HangingRope): number => 0.5 * rope.weightNM * rope.lengthM * rope.compliancePerN;

/** At this dip the two halves of a rope hang side by side, and sinh is near the largest number. */
const FOLDED = 700;

/** The form a rope takes whose ends are a level and a plumb way apart, m. */
export function formOfSpan(rope: HangingRope, levelM: number, riseM: number): CatenaryForm {
  const { lengthM, weightNM } = rope;
  const e = ownStrain(rope);
  const dip = dipOfLength(levelM, riseM, lengthM, e);
  const t = Math.tanh(dip);
  const up = (riseM * t) / (lengthM * (t + e));
  return {
    levelN: (weightNM * levelM) / (2 * (dip + e)),
    middleN: (weightNM * riseM) / (2 * (t + e)),
    dip,
    across: dip < FOLDED ? (levelM * Math.sinh(dip)) / (lengthM * (dip + e)) : Math.sqrt(Math.max(0, 1 - up * up)),
    up,
  };
}

/** The form of a rope whose middle pulls so. */
export function formOfPull(rope: HangingRope, levelN: number, middleN: number): CatenaryForm {
  const weightN = rope.weightNM * rope.lengthM;
  const low = middleN - weightN / 2;
  const high = middleN + weightN / 2;
  const both = Math.hypot(levelN, low) + Math.hypot(levelN, high);
  const up = both > 0 ? (2 * middleN) / both : 0;
  const dip = 0.5 * turnOfPull(levelN, low, high);
  const across = dip < FOLDED ? (2 * levelN * Math.sinh(dip)) / weightN : Math.sqrt(Math.max(0, 1 - up * up));
  return { levelN, middleN, dip, across, up };
}

/** asinh(high/level) − asinh(low/level) for high ≥ low, level ≥ 0, without loss of digits; Infinity for a rope folded plumb. */
export function turnOfPull(level: number, low: number, high: number): number {
  const atLow = Math.hypot(level, low);
  const atHigh = Math.hypot(level, high);
  if (low < 0 && high > 0) return Math.asinh((high * atLow - low * atHigh) / (level * level));
  const below = Math.abs(high * atLow + low * atHigh);
  if (below > 0) return Math.asinh(((high - low) * Math.abs(high + low)) / below);
  return high > low ? Number.POSITIVE_INFINITY : 0;
}

/** Slope of the pull in a rope's middle over the way from A to B, N/m, in its upright plane and square to it. */
export interface PlaneStiffness {
  /** ∂levelN/∂level. */
  readonly levelNM: number;
  /** ∂middleN/∂rise. */
  readonly riseNM: number;
  /** ∂levelN/∂rise. */
  readonly levelOverRiseNM: number;
  /** ∂middleN/∂level; the same as long as the rope's length stays. */
  readonly riseOverLevelNM: number;
  /** Square to the plane: levelN/level. */
  readonly sideNM: number;
}

/**
 * Stiffness of a rope of fixed length between its ends, exactly.
 *
 * The inverse of the flexibility L/EA + ∫(1 − t·tᵀ)/T ds with t the direction of the rope; written in λ and µ its
 * determinant is a sum of positive terms, so that nothing is lost on taut ropes. It is never negative in any direction.
 */
export function stiffnessOfForm(rope: HangingRope, { dip, across, up }: CatenaryForm): PlaneStiffness {
  const e = ownStrain(rope);
  const half = 0.5 * rope.weightNM;
  if (dip === Number.POSITIVE_INFINITY) {
    return { levelNM: 0, riseNM: half / (1 + e), levelOverRiseNM: 0, riseOverLevelNM: 0, sideNM: 0 };
  }
  const coth = 1 / Math.tanh(dip);
  const csch = 1 / Math.sinh(dip);
  const lag = tanhLag(dip);
  const a2 = across * across;
  const d = a2 + csch * csch;
  const q = (a2 * coth) / d;
  const p = (dip * up * up * csch * csch + a2 * coth * coth * lag) / d;
  const r = (across * up * csch) / d;
  const determinant = e * (e + dip) + q * lag;
  const crossNM = (half * r) / determinant;
  return {
    levelNM: (half * (e + q)) / determinant,
    riseNM: (half * (e + p)) / determinant,
    levelOverRiseNM: crossNM,
    riseOverLevelNM: crossNM,
    sideNM: half / (e + dip),
  };
}

/** Energy of stretch and of height below (negative) the mean height of the ends, J, as the weight of half the rope on each would have none. */
export function energyOfForm(rope: HangingRope, { levelN, middleN, dip, across }: CatenaryForm): number {
  const { lengthM, weightNM, compliancePerN } = rope;
  const csch = dip < Number.POSITIVE_INFINITY ? 1 / Math.sinh(dip) : 0;
  const hollow = csch > 0 ? 1 / Math.tanh(dip) - dip * csch * csch : 1;
  return (
    0.5 * (levelN * levelN + middleN * middleN) * lengthM * compliancePerN -
    0.25 * weightNM * lengthM * lengthM * across * across * hollow
  );
}

/** Level and plumb way from A to B of a rope whose middle pulls so, m. */
export function spanOfForm(
  rope: HangingRope,
  { levelN, middleN, dip, up }: CatenaryForm,
): { readonly levelM: number; readonly riseM: number } {
  const { lengthM, weightNM, compliancePerN } = rope;
  return {
    levelM: levelN > 0 ? levelN * lengthM * compliancePerN + (2 * levelN * dip) / weightNM : 0,
    riseM: middleN * lengthM * compliancePerN + lengthM * up,
  };
}
