import type { Extent } from "./flat-outlines.ts";

/** A stretch along u; from > to for none. Changes in place. */
export interface Span {
  from: number;
  to: number;
}

/** From where to where along u does an outline lie within `half` to either side of the plane's middle? From > to: nowhere. */
export function cutStrip(
  u: Float64Array,
  v: Float64Array,
  from: number,
  to: number,
  extent: Extent,
  half: number,
  span: Span,
): void {
  if (extent.vMin > half || extent.vMax < -half) {
    span.from = 1;
    span.to = 0;
    return;
  }
  if (extent.vMin >= -half && extent.vMax <= half) {
    span.from = extent.uMin;
    span.to = extent.uMax;
    return;
  }
  let low = Number.MAX_VALUE;
  let high = -Number.MAX_VALUE;
  let au = u[to - 1] as number;
  let av = v[to - 1] as number;
  for (let k = from; k < to; k++) {
    const bu = u[k] as number;
    const bv = v[k] as number;
    if (bv >= -half && bv <= half) {
      if (bu < low) low = bu;
      if (bu > high) high = bu;
    }
    for (let side = -half; ; side = half) {
      if (av < side !== bv < side) {
        const at = au + ((side - av) / (bv - av)) * (bu - au);
        if (at < low) low = at;
        if (at > high) high = at;
      }
      if (side === half) break;
    }
    au = bu;
    av = bv;
  }
  span.from = low;
  span.to = high;
}

/** The first stretch ahead of the pivot in which the plane's middle lies within an outline; from > to where there is none. */
export function cutMiddle(
  u: Float64Array,
  v: Float64Array,
  from: number,
  to: number,
  extent: Extent,
  crossings: Float64Array,
  span: Span,
): void {
  span.from = 1;
  span.to = 0;
  if (extent.vMin > 0 || extent.vMax < 0) return;
  let count = 0;
  let au = u[to - 1] as number;
  let av = v[to - 1] as number;
  for (let k = from; k < to; k++) {
    const bu = u[k] as number;
    const bv = v[k] as number;
    if (av > 0 !== bv > 0) {
      const at = au + ((0 - av) / (bv - av)) * (bu - au);
      let place = count++;
      for (; place > 0 && (crossings[place - 1] as number) > at; place--) {
        crossings[place] = crossings[place - 1] as number;
      }
      crossings[place] = at;
    }
    au = bu;
    av = bv;
  }
  // Inside and outside alternate along the line, so the crossings pair up in order.
  for (let pair = 0; pair + 1 < count; pair += 2) {
    if ((crossings[pair + 1] as number) <= 0) continue;
    span.from = crossings[pair] as number;
    span.to = crossings[pair + 1] as number;
    return;
  }
}
