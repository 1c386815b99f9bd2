/**
 * A box in an upright frame: u along a bearing, v level to its right, z up. It may be turned up about an axis along v.
 *
 * Numbers that change in place, because searches set millions of them. A point's place along the box is
 * s = (u − u0) cos + (z − z0) sin, square to it n = (z − z0) cos − (u − u0) sin; lengths in m.
 */
export interface TiltedBox {
  u0: number;
  z0: number;
  cos: number;
  sin: number;
  sMin: number;
  sMax: number;
  vMin: number;
  vMax: number;
  nMin: number;
  nMax: number;
}

export const emptyBox = (): TiltedBox => ({
  u0: 0,
  z0: 0,
  cos: 1,
  sin: 0,
  sMin: 0,
  sMax: 0,
  vMin: 0,
  vMax: 0,
  nMin: 0,
  nMax: 0,
});

/**
 * How far is a box from the segment between two points, squared, m²? 0 where they meet; at most `beyond`.
 *
 * The squared distance is convex along the segment and a parabola between the places where it passes a side's plane. Its
 * slope there brackets the least, which is then found in closed form: exact to rounding.
 */
export function segmentToBoxSquared(
  box: TiltedBox,
  au: number,
  av: number,
  az: number,
  bu: number,
  bv: number,
  bz: number,
  beyond: number,
): number {
  const { u0, z0, cos, sin, sMin, sMax, vMin, vMax, nMin, nMax } = box;
  const s = (au - u0) * cos + (az - z0) * sin;
  const n = (az - z0) * cos - (au - u0) * sin;
  const ds = (bu - u0) * cos + (bz - z0) * sin - s;
  const dn = (bz - z0) * cos - (bu - u0) * sin - n;
  const dv = bv - av;
  const sGap = spanGap(s, s + ds, sMin, sMax);
  const vGap = spanGap(av, bv, vMin, vMax);
  const nGap = spanGap(n, n + dn, nMin, nMax);
  if (sGap * sGap + vGap * vGap + nGap * nGap >= beyond) return beyond;

  let from = 0;
  let slopeFrom = excess(s, sMin, sMax) * ds + excess(av, vMin, vMax) * dv + excess(n, nMin, nMax) * dn;
  let to = 1;
  let slopeTo = excess(s + ds, sMin, sMax) * ds + excess(bv, vMin, vMax) * dv + excess(n + dn, nMin, nMax) * dn;
  if (slopeFrom >= 0) to = 0;
  else if (slopeTo <= 0) from = 1;
  for (let side = 0; side < 6 && from < to; side++) {
    let t = 0;
    if (side === 0) t = (sMin - s) / ds;
    else if (side === 1) t = (sMax - s) / ds;
    else if (side === 2) t = (vMin - av) / dv;
    else if (side === 3) t = (vMax - av) / dv;
    else if (side === 4) t = (nMin - n) / dn;
    else t = (nMax - n) / dn;
    // Also false where the segment runs along the side.
    if (!(t > from && t < to)) continue;
    const slope =
      excess(s + t * ds, sMin, sMax) * ds + excess(av + t * dv, vMin, vMax) * dv + excess(n + t * dn, nMin, nMax) * dn;
    if (slope < 0) {
      from = t;
      slopeFrom = slope;
    } else {
      to = t;
      slopeTo = slope;
    }
  }
  const least = to > from && slopeTo > slopeFrom ? from - ((to - from) * slopeFrom) / (slopeTo - slopeFrom) : from;
  const es = excess(s + least * ds, sMin, sMax);
  const ev = excess(av + least * dv, vMin, vMax);
  const en = excess(n + least * dn, nMin, nMax);
  return Math.min(beyond, es * es + ev * ev + en * en);
}

/** How far a coordinate lies outside a span, signed. */
function excess(x: number, min: number, max: number): number {
  return x < min ? x - min : x > max ? x - max : 0;
}

/** How far apart two spans lie, the first either way round; 0 where they overlap. */
export function spanGap(a: number, b: number, min: number, max: number): number {
  const low = Math.min(a, b);
  const high = Math.max(a, b);
  return high < min ? min - high : low > max ? low - max : 0;
}
