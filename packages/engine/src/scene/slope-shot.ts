/** One shot with a rangefinder: slope distance and angle above horizontal, each with its standard error. */
export interface SlopeShot {
  readonly distanceM: number;
  readonly elevationRad: number;
  readonly distanceErrorM: number;
  readonly elevationErrorRad: number;
}

/** What a shot says, with standard errors. */
export interface ShotResult {
  /** Above the instrument, m; negative is below. */
  readonly heightM: number;
  readonly horizontalM: number;
  readonly heightErrorM: number;
  readonly horizontalErrorM: number;
}

/**
 * How high above the instrument, and how far off, is what was shot, and how well is it known?
 *
 * h = d sin θ, r = d cos θ; errors by first-order propagation of independent errors:
 * σh² = (σd sin θ)² + (d σθ cos θ)², σr² = (σd cos θ)² + (d σθ sin θ)².
 */
export function slopeShot({ distanceM: d, elevationRad, distanceErrorM, elevationErrorRad }: SlopeShot): ShotResult {
  const sin = Math.sin(elevationRad);
  const cos = Math.cos(elevationRad);
  return {
    heightM: d * sin,
    horizontalM: d * cos,
    heightErrorM: Math.hypot(sin * distanceErrorM, d * cos * elevationErrorRad),
    horizontalErrorM: Math.hypot(cos * distanceErrorM, d * sin * elevationErrorRad),
  };
}

/** The height from one shot's mark up to another's, shot from the same spot, with its standard error, m. */
export function heightBetweenShots(
  lower: SlopeShot,
  upper: SlopeShot,
): { readonly heightM: number; readonly heightErrorM: number } {
  const low = slopeShot(lower);
  const high = slopeShot(upper);
  return { heightM: high.heightM - low.heightM, heightErrorM: Math.hypot(low.heightErrorM, high.heightErrorM) };
}
