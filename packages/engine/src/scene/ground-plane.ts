/** Even ground: a plane through a known point. */
export interface GroundPlane {
  readonly xM: number;
  readonly yM: number;
  /** Level at that point, m. */
  readonly zM: number;
  /** Steepest fall, below horizontal, rad in [0, π/2). */
  readonly slopeRad: number;
  /** Bearing toward which the ground falls. */
  readonly downhillBearingRad: number;
}

/** How high is the ground at a point, m? */
export function groundZAt(plane: GroundPlane, xM: number, yM: number): number {
  const down =
    (xM - plane.xM) * Math.sin(plane.downhillBearingRad) + (yM - plane.yM) * Math.cos(plane.downhillBearingRad);
  return plane.zM - Math.tan(plane.slopeRad) * down;
}

/** How does the ground rise toward a bearing, rad? Positive uphill. */
export function slopeToward(plane: GroundPlane, bearingRad: number): number {
  return Math.atan(-Math.tan(plane.slopeRad) * Math.cos(bearingRad - plane.downhillBearingRad));
}

/** How does the ground rise under a vehicle: along it (positive, uphill to its front) and across it (positive, uphill to its right), rad? */
export function slopesUnderVehicle(
  plane: GroundPlane,
  headingRad: number,
): { readonly alongRad: number; readonly acrossRad: number } {
  return { alongRad: slopeToward(plane, headingRad), acrossRad: slopeToward(plane, headingRad + Math.PI / 2) };
}
