import { type Amount, POUND_FORCE_N, type UnitSystem } from "@gantline/plan";

/** The largest arrow is about this share of the drawing's width or height, whichever is less. */
const LONGEST_SHARE = 0.28;

/** Smallest of 1, 2, 5 times a power of ten that is not below `value`; 1 for zero or less. */
export function roundUp125(value: number): number {
  if (!(value > 0) || !Number.isFinite(value)) return 1;
  const decade = 10 ** Math.floor(Math.log10(value));
  const step = [1, 2, 5, 10].find((s) => s * decade >= value * (1 - 1e-9)) ?? 10;
  return step * decade;
}

/** N per metre of arrow: a round figure in the reader's unit, such that the largest force is drawn at a fair length. */
export function forceScaleNPerM(largestN: number, extentM: number, system: UnitSystem): number {
  const unitN = system === "metric" ? 1000 : POUND_FORCE_N / 0.3048;
  return roundUp125(largestN / Math.max(0.1, LONGEST_SHARE * extentM) / unitN) * unitN;
}

/** What is drawn for the force, and how long: "1 m drawn = 2.00 kN", "1 ft drawn = 200 lbf". */
export function forceScaleAmounts(
  scaleNPerM: number,
  system: UnitSystem,
): { readonly drawn: string; readonly force: Amount } {
  return system === "metric"
    ? { drawn: "1\u202fm", force: { value: scaleNPerM, quantity: "force" } }
    : { drawn: "1\u202fft", force: { value: scaleNPerM * 0.3048, quantity: "force" } };
}
