/** A point in plan: [east, north], m. */
export type PlanPoint = readonly [number, number];

/** A simple polygon in plan, not closed by repeating its first point; either way round. */
export type Outline = readonly PlanPoint[];

/** Points nearer than this are one point, m. */
export const SAME_POINT_M = 1e-9;

/** A rectangle in plan, its sides east and north, m. */
export interface Extent {
  readonly min: PlanPoint;
  readonly max: PlanPoint;
}

const extents = new WeakMap<Outline, Extent>();

/** The rectangle round an outline. Kept by the outline's identity, as one that is handed in never changes. */
export function extentOf(outline: Outline): Extent {
  const known = extents.get(outline);
  if (known) return known;
  const min: [number, number] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  const max: [number, number] = [Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const [x, y] of outline) {
    min[0] = Math.min(min[0], x);
    min[1] = Math.min(min[1], y);
    max[0] = Math.max(max[0], x);
    max[1] = Math.max(max[1], y);
  }
  const extent = { min, max };
  extents.set(outline, extent);
  return extent;
}

/** Are two rectangles nowhere nearer to each other than this, east-west or north-south? */
export const extentsApart = (a: Extent, b: Extent, byM = 0): boolean =>
  a.min[0] - b.max[0] > byM || b.min[0] - a.max[0] > byM || a.min[1] - b.max[1] > byM || b.min[1] - a.max[1] > byM;

/** Does the rectangle round a side meet this one? */
export const sideIsNear = (a: PlanPoint, b: PlanPoint, { min, max }: Extent): boolean =>
  Math.max(a[0], b[0]) >= min[0] &&
  Math.min(a[0], b[0]) <= max[0] &&
  Math.max(a[1], b[1]) >= min[1] &&
  Math.min(a[1], b[1]) <= max[1];

/** What area does an outline enclose, m²? Positive when it runs counterclockwise seen from above. */
export function signedAreaM2(outline: Outline): number {
  const first = outline[0];
  if (!first) return 0;
  let twice = 0;
  for (let i = 1; i + 1 < outline.length; i++) {
    const a = outline[i] as PlanPoint;
    const b = outline[i + 1] as PlanPoint;
    twice += (a[0] - first[0]) * (b[1] - first[1]) - (a[1] - first[1]) * (b[0] - first[0]);
  }
  return twice / 2;
}

/** What area does an outline enclose, m²? */
export const polygonArea = (outline: Outline): number => Math.abs(signedAreaM2(outline));

/** Is a point within an outline? Even-odd rule; a point within `toleranceM` of a side counts as within. */
export function pointInPolygon(outline: Outline, point: PlanPoint, toleranceM = SAME_POINT_M): boolean {
  if (extentsApart(extentOf(outline), { min: point, max: point }, toleranceM + SAME_POINT_M)) return false;
  return (
    insideOutline(outline, point) ||
    outline.some((b, i) => isOnSide(point, outline.at(i - 1) as PlanPoint, b, toleranceM))
  );
}

/** The same for a point that lies on no side. */
export function insideOutline(outline: Outline, [x, y]: PlanPoint): boolean {
  const { min, max } = extentOf(outline);
  if (x < min[0] || x > max[0] || y < min[1] || y > max[1]) return false;
  let inside = false;
  let a = outline.at(-1) as PlanPoint;
  for (const b of outline) {
    if (a[1] > y !== b[1] > y && x < a[0] + ((y - a[1]) / (b[1] - a[1])) * (b[0] - a[0])) inside = !inside;
    a = b;
  }
  return inside;
}

/** How far is a point from the nearest side of an outline, m? Positive inside and outside alike. */
export function distanceToOutlineM(outline: Outline, point: PlanPoint): number {
  return outline.reduce(
    (least, b, i) => Math.min(least, distanceToSide(point, outline.at(i - 1) as PlanPoint, b)),
    Number.MAX_VALUE,
  );
}

/** The outline without repeated neighbours (and without a repeated first point at its end), counterclockwise. */
export function tidyOutline(outline: Outline): Outline {
  const kept = outline.filter((p, i) => i === 0 || !same(p, outline[i - 1] as PlanPoint));
  while (kept.length > 1 && same(kept[0] as PlanPoint, kept.at(-1) as PlanPoint)) kept.pop();
  return signedAreaM2(kept) < 0 ? kept.reverse() : kept;
}

/**
 * Do any two sides of an outline cross, or touch other than at a shared corner?
 *
 * The sides are gone through from west to east, and each is held only to those whose boxes it meets.
 */
export function outlineCrossesItself(outline: Outline): boolean {
  const points = tidyOutline(outline);
  const n = points.length;
  const sides = points.map((a, i) => boxedSide(i, a, points[(i + 1) % n] as PlanPoint)).sort((s, t) => s.west - t.west);
  let reached: BoxedSide[] = [];
  for (const side of sides) {
    reached = reached.filter((s) => s.east >= side.west - NEAR_M);
    for (const s of reached) {
      if (s.south > side.north + NEAR_M || side.south > s.north + NEAR_M) continue;
      const apart = Math.abs(s.index - side.index);
      if (apart === 1 || apart === n - 1) continue;
      if (sidesMeet(s.ends, side.ends)) return true;
    }
    reached.push(side);
  }
  return false;
}

/** Sides whose boxes are farther apart than this neither cross nor touch, m. */
const NEAR_M = 2 * SAME_POINT_M;

interface BoxedSide {
  readonly index: number;
  readonly ends: readonly [PlanPoint, PlanPoint];
  readonly west: number;
  readonly east: number;
  readonly south: number;
  readonly north: number;
}

const boxedSide = (index: number, a: PlanPoint, b: PlanPoint): BoxedSide => ({
  index,
  ends: [a, b],
  west: Math.min(a[0], b[0]),
  east: Math.max(a[0], b[0]),
  south: Math.min(a[1], b[1]),
  north: Math.max(a[1], b[1]),
});

function sidesMeet([a, b]: readonly [PlanPoint, PlanPoint], [c, d]: readonly [PlanPoint, PlanPoint]): boolean {
  const crossing = turns(a, b, c) * turns(a, b, d) < 0 && turns(c, d, a) * turns(c, d, b) < 0;
  return (
    crossing ||
    isOnSide(a, c, d, SAME_POINT_M) ||
    isOnSide(b, c, d, SAME_POINT_M) ||
    isOnSide(c, a, b, SAME_POINT_M) ||
    isOnSide(d, a, b, SAME_POINT_M)
  );
}

const turns = (a: PlanPoint, b: PlanPoint, c: PlanPoint): number =>
  (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);

const same = ([ax, ay]: PlanPoint, [bx, by]: PlanPoint): boolean =>
  Math.abs(ax - bx) <= SAME_POINT_M &&
  Math.abs(ay - by) <= SAME_POINT_M &&
  Math.hypot(ax - bx, ay - by) <= SAME_POINT_M;

/** Is a point no farther from a side than the tolerance? Beyond the box round the side by more than that, it is farther from the side too. */
function isOnSide(point: PlanPoint, a: PlanPoint, b: PlanPoint, toleranceM: number): boolean {
  const [x, y] = point;
  const far = toleranceM + SAME_POINT_M;
  const isBeside =
    x < Math.min(a[0], b[0]) - far ||
    x > Math.max(a[0], b[0]) + far ||
    y < Math.min(a[1], b[1]) - far ||
    y > Math.max(a[1], b[1]) + far;
  return !isBeside && distanceToSide(point, a, b) <= toleranceM;
}

function distanceToSide([x, y]: PlanPoint, a: PlanPoint, b: PlanPoint): number {
  const ex = b[0] - a[0];
  const ey = b[1] - a[1];
  const squared = ex * ex + ey * ey;
  const t = squared > 0 ? Math.min(1, Math.max(0, ((x - a[0]) * ex + (y - a[1]) * ey) / squared)) : 0;
  return Math.hypot(x - a[0] - t * ex, y - a[1] - t * ey);
}
