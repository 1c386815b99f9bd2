/**
 * Solution of three linear equations by Cramer's rule; null where they are singular to rounding.
 *
 * @param a nine coefficients, row by row
 * @param b right-hand side
 */
export function solveDense3(a: readonly number[], b: readonly number[]): readonly [number, number, number] | null {
  const [a00 = 0, a01 = 0, a02 = 0, a10 = 0, a11 = 0, a12 = 0, a20 = 0, a21 = 0, a22 = 0] = a;
  const [b0 = 0, b1 = 0, b2 = 0] = b;
  const c0 = a11 * a22 - a12 * a21;
  const c1 = a12 * a20 - a10 * a22;
  const c2 = a10 * a21 - a11 * a20;
  const determinant = a00 * c0 + a01 * c1 + a02 * c2;
  const size =
    Math.max(Math.abs(a00), Math.abs(a01), Math.abs(a02)) *
    Math.max(Math.abs(a10), Math.abs(a11), Math.abs(a12)) *
    Math.max(Math.abs(a20), Math.abs(a21), Math.abs(a22));
  if (!(Math.abs(determinant) > 1e-14 * size)) return null;
  return [
    (b0 * c0 + a01 * (a12 * b2 - b1 * a22) + a02 * (b1 * a21 - a11 * b2)) / determinant,
    (a00 * (b1 * a22 - a12 * b2) + b0 * c1 + a02 * (a10 * b2 - b1 * a20)) / determinant,
    (a00 * (a11 * b2 - b1 * a21) + a01 * (b1 * a20 - a10 * b2) + b0 * c2) / determinant,
  ];
}
