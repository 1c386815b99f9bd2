/**
 * Which damping coefficient, N·s/m, gives a mass that hangs plumb on a rope this share of critical damping?
 *
 * c = 2ζ√(km), k = EA/L.
 * @param ratio ζ, 0 or more
 * @param lengthM unstretched rope in the line, m, above 0
 */
export const dampingOfRatio = (ratio: number, axialStiffnessN: number, lengthM: number, massKg: number): number =>
  2 * ratio * Math.sqrt((axialStiffnessN / lengthM) * massKg);
