/**
 * Arithmetic-geometric mean of two numbers above 0, to rounding; four or five rounds as a rule.
 *
 * Source: Gauss; the complete elliptic integral is K(k) = π / (2·agm(1, √(1 − k²))) (Abramowitz and Stegun 17.6, from memory).
 */
export function arithmeticGeometricMean(a: number, b: number): number {
  let [high, low] = [Math.max(a, b), Math.min(a, b)];
  for (let round = 0; round < 40 && high - low > 4e-16 * high; round++)
    [high, low] = [0.5 * (high + low), Math.sqrt(high * low)];
  return 0.5 * (high + low);
}
