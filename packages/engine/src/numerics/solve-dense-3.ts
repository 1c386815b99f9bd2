/**
 * Solution of three linear equations by Cramer's rule, without making anything new: it stands in the innermost loops.
 *
 * @param a nine coefficients, row by row
 * @param out where the solution goes, three numbers; left as it is where there is none
 * @returns false where the equations are singular to rounding
 */
export function solveDense3(
  a: ArrayLike<number>,
  b0: number,
  b1: number,
  b2: number,
  out: { [at: number]: number },
): boolean {
  const a00 = a[0]!;
  const a01 = a[1]!;
  const a02 = a[2]!;
  const a10 = a[3]!;
  const a11 = a[4]!;
  const a12 = a[5]!;
  const a20 = a[6]!;
  const a21 = a[7]!;
  const a22 = a[8]!;
  const c0 = a11 * a22 - a12 * a21;
  const c1 = a12 * a20 - a10 * a22;
  const c2 = a10 * a21 - a11 * a20;
  const determinant = a00 * c0 + a01 * c1 + a02 * c2;
  const size =
    Math.max(Math.abs(a00), Math.abs(a01), Math.abs(a02)) *
    Math.max(Math.abs(a10), Math.abs(a11), Math.abs(a12)) *
    Math.max(Math.abs(a20), Math.abs(a21), Math.abs(a22));
  if (!(Math.abs(determinant) > 1e-14 * size)) return false;
  out[0] = (b0 * c0 + a01 * (a12 * b2 - b1 * a22) + a02 * (b1 * a21 - a11 * b2)) / determinant;
  out[1] = (a00 * (b1 * a22 - a12 * b2) + b0 * c1 + a02 * (a10 * b2 - b1 * a20)) / determinant;
  out[2] = (a00 * (a11 * b2 - b1 * a21) + a01 * (b1 * a20 - a10 * b2) + b0 * c2) / determinant;
  return true;
}
