import { STANDARD_GRAVITY_MS2 } from "../base/constants.ts";

/** A load that hangs by a bridle or short rope under a heavy yoke, block or platform, itself on the main lines. */
export interface DoublePendulum {
  /** Main lines, tip to yoke, m, above 0. */
  readonly upperM: number;
  /** Yoke to the middle of the load's mass, m, above 0. */
  readonly lowerM: number;
  /** Mass of the yoke and of the load, kg, above 0. */
  readonly upperMassKg: number;
  readonly lowerMassKg: number;
  /** m/s², above 0; left out: 9.80665. */
  readonly gravityMS2?: number;
}

/**
 * In which two times does a load swing that hangs under a yoke with mass of its own? Slow: both to the same side. Quick: against
 * each other. Small swings, no drag; null for numbers that are none, or not above 0.
 *
 * Source: Kibble and Berkshire, Classical Mechanics, p. 260: ω⁴ − (1 + m/M)(g/L + g/l)ω² + (1 + m/M)g²/(Ll) = 0.
 */
export function doublePendulumPeriods(of: DoublePendulum): { readonly slowS: number; readonly quickS: number } | null {
  const { upperM, lowerM, upperMassKg, lowerMassKg, gravityMS2: g = STANDARD_GRAVITY_MS2 } = of;
  if (![upperM, lowerM, upperMassKg, lowerMassKg, g].every((value) => value > 0 && Number.isFinite(value))) return null;
  const more = 1 + lowerMassKg / upperMassKg;
  const half = 0.5 * more * (g / upperM + g / lowerM);
  const product = (more * g * g) / (upperM * lowerM);
  const quick = half + Math.sqrt(Math.max(0, half * half - product));
  const periods = { slowS: 2 * Math.PI * Math.sqrt(quick / product), quickS: (2 * Math.PI) / Math.sqrt(quick) };
  return Number.isFinite(periods.slowS) && Number.isFinite(periods.quickS) ? periods : null;
}
