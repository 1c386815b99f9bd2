/** A rope whose tension at A is given, hanging to B: how long it is, how it pulls, and how that changes with the place of B. */
export interface TensionForm {
  /** Unstretched length between the two, m. */
  readonly lengthM: number;
  readonly dip: number;
  /** Level part of the tension, N, and its upward part toward B at A and at B. */
  readonly levelN: number;
  readonly upAtAN: number;
  readonly upAtBN: number;
  /** Slopes of the three over the level way, and over the rise, N/m. */
  readonly overLevelNM: readonly [level: number, upAtA: number, upAtB: number];
  readonly overRiseNM: readonly [level: number, upAtA: number, upAtB: number];
  /** levelN over the level way, N/m. */
  readonly sideNM: number;
}

/**
 * How does a rope hang that is held at A with a given tension, as by a hand that pays out or takes in?
 *
 * T_A + T_B = y·w, where y = L coth λ is the positive root of k·y² + (1 − T_A/EA)·y = 2T_A/w + z with k = w/2EA; what
 * is left is one equation for the dip λ:
 *
 *   [x cosh λ / (λ + k·y·tanh λ)]² + [z / ((1 + k·y) tanh λ)]² = y²
 *
 * The logarithm of its left side is convex. Of its two roots the smaller is wanted, the taut rope: with the other,
 * a little more rope asks for a little more pull, and no steady hand can hold it. Newton's method from below cannot
 * pass the root; where it meets no root, it meets the place where the left side is least.
 *
 * @param levelM,riseM way from A to B, not both 0, m
 * @param weightNM above 0, N/m
 * @param compliancePerN 1/EA, 1/N; 0 for a rope that does not stretch
 * @returns null where so little tension cannot hold the rope up at all
 * Source: elastic catenary; derived in `docs/theory/catenary.md`.
 */
export function formOfTension(
  levelM: number,
  riseM: number,
  tensionN: number,
  weightNM: number,
  compliancePerN: number,
): TensionForm | null {
  const k = 0.5 * weightNM * compliancePerN;
  const b = 1 - tensionN * compliancePerN;
  const c = (2 * tensionN) / weightNM + riseM;
  if (!(c > 0)) return null;
  const y = (2 * c) / (b + Math.sqrt(b * b + 4 * k * c));
  const ky = k * y;
  const dip = dipOfTension(levelM / y, Math.abs(riseM) / (y * (1 + ky)), ky);
  if (dip === null) return null;

  const t = Math.tanh(dip);
  const t2 = (1 - t) * (1 + t);
  const q = dip + ky * t;
  const qOverDip = 1 + ky * t2;
  const rise = riseM / (1 + ky);
  const yOverRise = 1 / (b + 2 * ky);
  const kyOverRise = k * yOverRise;
  const riseOverRise = 1 / (1 + ky) - (riseM * kyOverRise) / (1 + ky) ** 2;
  const cosh = Math.cosh(dip);
  const a2 = ((levelM * cosh) / q) ** 2;
  // Half the slopes of the equation.
  const overDip = a2 * (t - qOverDip / q) - (rise * rise * t2) / (t * t * t);
  const dipOverLevel = (-levelM * (cosh / q) ** 2) / overDip;
  const dipOverRise = ((a2 * kyOverRise * t) / q - (rise * riseOverRise) / (t * t) + y * yOverRise) / overDip;

  const half = 0.5 * weightNM;
  const levelN = (half * levelM) / q;
  const middleN = (half * rise) / t;
  const lengthM = y * t;
  const middleOverDip = (-middleN * t2) / t;
  const middleOverLevel = middleOverDip * dipOverLevel;
  const middleOverRise = (half * riseOverRise) / t + middleOverDip * dipOverRise;
  const halfWeightOverLevel = half * y * t2 * dipOverLevel;
  const halfWeightOverRise = half * (yOverRise * t + y * t2 * dipOverRise);
  return {
    lengthM,
    dip,
    levelN,
    upAtAN: middleN - half * lengthM,
    upAtBN: middleN + half * lengthM,
    overLevelNM: [
      half / q - (levelN * qOverDip * dipOverLevel) / q,
      middleOverLevel - halfWeightOverLevel,
      middleOverLevel + halfWeightOverLevel,
    ],
    overRiseNM: [
      (-levelN * (qOverDip * dipOverRise + kyOverRise * t)) / q,
      middleOverRise - halfWeightOverRise,
      middleOverRise + halfWeightOverRise,
    ],
    sideNM: half / q,
  };
}

/** Smaller root λ of [x cosh λ/(λ + κ tanh λ)]² + [z/tanh λ]² = 1; null where there is none. */
function dipOfTension(x: number, z: number, strain: number): number | null {
  // Here the left side is 1 or more, since cosh λ ≥ 1 and tanh λ ≤ λ.
  let dip = Math.hypot(x / (1 + strain), z);
  for (let iteration = 0; iteration < 200; iteration++) {
    const t = Math.tanh(dip);
    const t2 = (1 - t) * (1 + t);
    const q = dip + strain * t;
    const a = ((x * Math.cosh(dip)) / q) ** 2;
    const b = (z / t) ** 2;
    const miss = 0.5 * Math.log(a + b);
    const slope = (a * (t - (1 + strain * t2) / q) - (b * t2) / t) / (a + b);
    if (!(slope < 0)) return null;
    const step = -miss / slope;
    dip += step;
    if (Math.abs(step) <= 1e-15 * dip || Math.abs(miss) < 1e-15) return dip;
  }
  return null;
}
