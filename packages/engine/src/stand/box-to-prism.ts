import {
  emptyExtent,
  extentOf,
  gapSquared,
  outside,
  sidesInRectangle,
  toSidesSquared,
  withinFlat,
} from "./flat-outlines.ts";
import { segmentToBoxSquared, spanGap, type TiltedBox } from "./tilted-box.ts";

/** The slice of the box between two heights, seen from above. */
const shadow = emptyExtent();
/** Round the outline. */
const round = emptyExtent();

/**
 * How far is a box from what stands over an outline between two heights, squared, m²? 0 where they meet; at most `beyond`.
 *
 * The outline is points `from` up to `to` in the box's frame, convex or not. The two meet if the outline meets the slice
 * of the box between the heights, seen from above: a rectangle, as the box is level along v. Otherwise the nearest pair
 * lies on an edge of the prism and the box, or on a corner of the box and a side of the prism: exact to rounding.
 */
export function boxToPrismSquared(
  box: TiltedBox,
  u: Float64Array,
  v: Float64Array,
  from: number,
  to: number,
  bottomZ: number,
  topZ: number,
  beyond: number,
): number {
  extentOf(u, v, from, to, round);
  if (castShadow(box, bottomZ, topZ) && gapSquared(round, shadow) === 0) {
    if (sidesInRectangle(u, v, from, to, shadow, null)) return 0;
    if (withinFlat(u, v, from, to, shadow.uMin, shadow.vMin)) return 0;
  }
  const { cos, sin, sMin, sMax, nMin, nMax, vMin, vMax } = box;
  const uLow = box.u0 + Math.min(sMin * cos, sMax * cos) - Math.max(nMin * sin, nMax * sin);
  const uHigh = box.u0 + Math.max(sMin * cos, sMax * cos) - Math.min(nMin * sin, nMax * sin);
  let best = beyond;
  let au = u[to - 1] as number;
  let av = v[to - 1] as number;
  for (let k = from; k < to; k++) {
    const bu = u[k] as number;
    const bv = v[k] as number;
    const uGap = spanGap(au, bu, uLow, uHigh);
    const vGap = spanGap(av, bv, vMin, vMax);
    if (uGap * uGap + vGap * vGap < best) {
      best = segmentToBoxSquared(box, au, av, topZ, bu, bv, topZ, best);
      best = segmentToBoxSquared(box, au, av, bottomZ, bu, bv, bottomZ, best);
      best = segmentToBoxSquared(box, bu, bv, bottomZ, bu, bv, topZ, best);
    }
    au = bu;
    av = bv;
  }
  for (let corner = 0; corner < 4; corner++) {
    const s = corner & 1 ? sMax : sMin;
    const n = corner & 2 ? nMax : nMin;
    const cornerU = box.u0 + s * cos - n * sin;
    const z = box.z0 + s * sin + n * cos;
    const over = Math.max(0, bottomZ - z, z - topZ);
    if (over * over >= best) continue;
    for (let side = 0; side < 2; side++) {
      const cornerV = side ? vMax : vMin;
      const du = outside(cornerU, round.uMin, round.uMax);
      const dv = outside(cornerV, round.vMin, round.vMax);
      if (du * du + dv * dv + over * over >= best) continue;
      if (over === 0) best = Math.min(best, toSidesSquared(u, v, from, to, cornerU, cornerV));
      else if (withinFlat(u, v, from, to, cornerU, cornerV)) best = Math.min(best, over * over);
    }
  }
  return best;
}

/** Sets `shadow`; false if no part of the box lies between the heights. */
function castShadow(box: TiltedBox, bottomZ: number, topZ: number): boolean {
  const { u0, z0, cos, sin, sMin, sMax, nMin, nMax } = box;
  shadow.uMin = Number.MAX_VALUE;
  shadow.uMax = -Number.MAX_VALUE;
  shadow.vMin = box.vMin;
  shadow.vMax = box.vMax;
  let au = u0 + sMin * cos - nMax * sin;
  let az = z0 + sMin * sin + nMax * cos;
  for (let corner = 0; corner < 4; corner++) {
    const s = corner === 1 || corner === 2 ? sMax : sMin;
    const n = corner >= 2 ? nMax : nMin;
    const bu = u0 + s * cos - n * sin;
    const bz = z0 + s * sin + n * cos;
    if (bz >= bottomZ && bz <= topZ) widen(bu);
    if (az < bottomZ !== bz < bottomZ) widen(au + ((bottomZ - az) / (bz - az)) * (bu - au));
    if (az > topZ !== bz > topZ) widen(au + ((topZ - az) / (bz - az)) * (bu - au));
    au = bu;
    az = bz;
  }
  return shadow.uMin <= shadow.uMax;
}

function widen(u: number): void {
  if (u < shadow.uMin) shadow.uMin = u;
  if (u > shadow.uMax) shadow.uMax = u;
}
