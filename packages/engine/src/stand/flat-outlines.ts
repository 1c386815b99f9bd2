import { type Outline, tidyOutline } from "../scene/outline.ts";

/** Many outlines in one run of numbers, counterclockwise; outline `i` is from `start[i]` up to `start[i + 1]`. */
export interface FlatOutlines {
  readonly start: Int32Array;
  readonly x: Float64Array;
  readonly y: Float64Array;
}

/** Packs outlines of three points or more; one of fewer throws. */
export function flatOutlines(outlines: readonly Outline[]): FlatOutlines {
  const tidy = outlines.map(tidyOutline);
  if (tidy.some((o) => o.length < 3)) throw new RangeError("An outline needs three points or more.");
  const start = new Int32Array(tidy.length + 1);
  tidy.forEach((o, i) => {
    start[i + 1] = (start[i] as number) + o.length;
  });
  const points = tidy.flat();
  return { start, x: Float64Array.from(points, (p) => p[0]), y: Float64Array.from(points, (p) => p[1]) };
}

/** An upright frame: u runs along a bearing from an origin in plan, v to its right. Changes in place. */
export interface UprightFrame {
  x: number;
  y: number;
  /** Of the bearing. */
  sin: number;
  cos: number;
}

/** Points `from` up to `to` of a run, seen in a frame. */
export function turnInto(
  frame: UprightFrame,
  x: Float64Array,
  y: Float64Array,
  from: number,
  to: number,
  u: Float64Array,
  v: Float64Array,
): void {
  for (let k = from; k < to; k++) {
    const east = (x[k] as number) - frame.x;
    const north = (y[k] as number) - frame.y;
    u[k] = east * frame.sin + north * frame.cos;
    v[k] = east * frame.cos - north * frame.sin;
  }
}

/** Is a point within the outline `from` up to `to`? Even-odd rule. */
export function withinFlat(
  u: Float64Array,
  v: Float64Array,
  from: number,
  to: number,
  pointU: number,
  pointV: number,
): boolean {
  let inside = false;
  let au = u[to - 1] as number;
  let av = v[to - 1] as number;
  for (let k = from; k < to; k++) {
    const bu = u[k] as number;
    const bv = v[k] as number;
    if (av > pointV !== bv > pointV && pointU < au + ((pointV - av) / (bv - av)) * (bu - au)) inside = !inside;
    au = bu;
    av = bv;
  }
  return inside;
}

/** How far is a point from the nearest side of the outline `from` up to `to`, squared, m²? */
export function toSidesSquared(
  u: Float64Array,
  v: Float64Array,
  from: number,
  to: number,
  pointU: number,
  pointV: number,
): number {
  let least = Number.MAX_VALUE;
  let au = (u[to - 1] as number) - pointU;
  let av = (v[to - 1] as number) - pointV;
  for (let k = from; k < to; k++) {
    const bu = (u[k] as number) - pointU;
    const bv = (v[k] as number) - pointV;
    const du = bu - au;
    const dv = bv - av;
    const squared = du * du + dv * dv;
    const along = -(au * du + av * dv);
    const t = along <= 0 ? 0 : along >= squared ? 1 : along / squared;
    const eu = au + t * du;
    const ev = av + t * dv;
    least = Math.min(least, eu * eu + ev * ev);
    au = bu;
    av = bv;
  }
  return least;
}

/** The rectangle round what of an outline, or of its sides, lies within a rectangle. Changes in place. */
export interface Extent {
  uMin: number;
  uMax: number;
  vMin: number;
  vMax: number;
}

export const emptyExtent = (): Extent => ({
  uMin: Number.MAX_VALUE,
  uMax: -Number.MAX_VALUE,
  vMin: Number.MAX_VALUE,
  vMax: -Number.MAX_VALUE,
});

/** How far is a rectangle from the outline `from` up to `to`, squared, m²? 0 where they meet; at most `beyond`. */
export function rectangleToOutlineSquared(
  u: Float64Array,
  v: Float64Array,
  from: number,
  to: number,
  rectangle: Extent,
  beyond: number,
): number {
  const { uMin, uMax, vMin, vMax } = rectangle;
  if (sidesInRectangle(u, v, from, to, rectangle, null)) return 0;
  if (withinFlat(u, v, from, to, uMin, vMin)) return 0;
  let best = beyond;
  // The nearest pair is a corner of the one and a side of the other.
  for (let k = from; k < to; k++) {
    const du = outside(u[k] as number, uMin, uMax);
    const dv = outside(v[k] as number, vMin, vMax);
    best = Math.min(best, du * du + dv * dv);
  }
  best = Math.min(best, toSidesSquared(u, v, from, to, uMin, vMin), toSidesSquared(u, v, from, to, uMin, vMax));
  return Math.min(best, toSidesSquared(u, v, from, to, uMax, vMin), toSidesSquared(u, v, from, to, uMax, vMax));
}

/** How far a coordinate lies outside a span. */
export const outside = (x: number, min: number, max: number): number => (x < min ? min - x : x > max ? x - max : 0);

/** How far apart two rectangles lie, squared, m². */
export function gapSquared(a: Extent, b: Extent): number {
  const du = Math.max(0, b.uMin - a.uMax, a.uMin - b.uMax);
  const dv = Math.max(0, b.vMin - a.vMax, a.vMin - b.vMax);
  return du * du + dv * dv;
}

/** Sets `extent` to the rectangle round points `from` up to `to`. */
export function extentOf(u: Float64Array, v: Float64Array, from: number, to: number, extent: Extent): void {
  extent.uMin = Number.MAX_VALUE;
  extent.uMax = -Number.MAX_VALUE;
  extent.vMin = Number.MAX_VALUE;
  extent.vMax = -Number.MAX_VALUE;
  for (let k = from; k < to; k++) growExtent(extent, u[k] as number, v[k] as number);
}

/** Does any side of the outline `from` up to `to` meet a rectangle? `extent` then grows round what lies in it. */
export function sidesInRectangle(
  u: Float64Array,
  v: Float64Array,
  from: number,
  to: number,
  rectangle: Extent,
  extent: Extent | null,
): boolean {
  const { uMin, uMax, vMin, vMax } = rectangle;
  let met = false;
  let au = u[to - 1] as number;
  let av = v[to - 1] as number;
  for (let k = from; k < to; k++) {
    const bu = u[k] as number;
    const bv = v[k] as number;
    const startU = au;
    const startV = av;
    const du = bu - au;
    const dv = bv - av;
    au = bu;
    av = bv;
    if (Math.max(startU, bu) < uMin || Math.min(startU, bu) > uMax) continue;
    if (Math.max(startV, bv) < vMin || Math.min(startV, bv) > vMax) continue;
    let enter = 0;
    let leave = 1;
    if (du !== 0) {
      const a = (uMin - startU) / du;
      const b = (uMax - startU) / du;
      enter = Math.max(enter, Math.min(a, b));
      leave = Math.min(leave, Math.max(a, b));
    }
    if (dv !== 0) {
      const a = (vMin - startV) / dv;
      const b = (vMax - startV) / dv;
      enter = Math.max(enter, Math.min(a, b));
      leave = Math.min(leave, Math.max(a, b));
    }
    if (enter > leave) continue;
    met = true;
    if (!extent) return true;
    growExtent(extent, startU + enter * du, startV + enter * dv);
    growExtent(extent, startU + leave * du, startV + leave * dv);
  }
  return met;
}

export function growExtent(extent: Extent, u: number, v: number): void {
  extent.uMin = Math.min(extent.uMin, u);
  extent.uMax = Math.max(extent.uMax, u);
  extent.vMin = Math.min(extent.vMin, v);
  extent.vMax = Math.max(extent.vMax, v);
}
