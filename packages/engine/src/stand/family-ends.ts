import type { PoseFamily } from "./pose-family.ts";

/** What all poses of a family lie between: elevations, the place of the tip, and everything along u, m. */
export interface FamilyEnds {
  sinLow: number;
  cosLow: number;
  sinHigh: number;
  cosHigh: number;
  tipUMin: number;
  tipUMax: number;
  tipZMin: number;
  tipZMax: number;
  uMin: number;
  uMax: number;
}

export const emptyEnds = (): FamilyEnds => ({
  sinLow: 0,
  cosLow: 1,
  sinHigh: 0,
  cosHigh: 1,
  tipUMin: 0,
  tipUMax: 0,
  tipZMin: 0,
  tipZMax: 0,
  uMin: 0,
  uMax: 0,
});

/**
 * Sets `ends` to what the poses that a family has now lie between.
 *
 * @param aroundM how far ladder and platform reach along u beyond the ladder's centre line
 */
export function endsOf(family: PoseFamily, aroundM: number, ends: FamilyEnds): void {
  let low = 0;
  let high = 0;
  let tipUMin = Number.MAX_VALUE;
  let tipUMax = -Number.MAX_VALUE;
  let tipZMin = Number.MAX_VALUE;
  let tipZMax = -Number.MAX_VALUE;
  for (let i = 0; i < family.count; i++) {
    if ((family.elevationRad[i] as number) < (family.elevationRad[low] as number)) low = i;
    if ((family.elevationRad[i] as number) > (family.elevationRad[high] as number)) high = i;
    const tipU = (family.lengthM[i] as number) * (family.cos[i] as number);
    const tipZ = family.pivotZM + (family.lengthM[i] as number) * (family.sin[i] as number);
    tipUMin = Math.min(tipUMin, tipU);
    tipUMax = Math.max(tipUMax, tipU);
    tipZMin = Math.min(tipZMin, tipZ);
    tipZMax = Math.max(tipZMax, tipZ);
  }
  ends.sinLow = family.sin[low] as number;
  ends.cosLow = family.cos[low] as number;
  ends.sinHigh = family.sin[high] as number;
  ends.cosHigh = family.cos[high] as number;
  ends.tipUMin = tipUMin;
  ends.tipUMax = tipUMax;
  ends.tipZMin = tipZMin;
  ends.tipZMax = tipZMax;
  ends.uMin = Math.min(0, tipUMin) - aroundM;
  ends.uMax = Math.max(0, tipUMax) + aroundM;
}
