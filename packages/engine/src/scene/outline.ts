/** A point in plan: [east, north], m. */
export type PlanPoint = readonly [number, number];

/** A simple polygon in plan, not closed by repeating its first point; either way round. */
export type Outline = readonly PlanPoint[];

/** Points nearer than this are one point, m. */
export const SAME_POINT_M = 1e-9;

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
export const pointInPolygon = (outline: Outline, point: PlanPoint, toleranceM = SAME_POINT_M): boolean =>
  insideOutline(outline, point) || distanceToOutlineM(outline, point) <= toleranceM;

/** The same for a point that lies on no side. */
export function insideOutline(outline: Outline, [x, y]: PlanPoint): boolean {
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

/** Do any two sides of an outline cross, or touch other than at a shared corner? */
export function outlineCrossesItself(outline: Outline): boolean {
  const points = tidyOutline(outline);
  const n = points.length;
  const side = (i: number): readonly [PlanPoint, PlanPoint] => [
    points[i % n] as PlanPoint,
    points[(i + 1) % n] as PlanPoint,
  ];
  for (let i = 0; i < n; i++) {
    for (let j = i + 2; j < n; j++) {
      if (i === 0 && j === n - 1) continue;
      if (sidesMeet(side(i), side(j))) return true;
    }
  }
  return false;
}

function sidesMeet([a, b]: readonly [PlanPoint, PlanPoint], [c, d]: readonly [PlanPoint, PlanPoint]): boolean {
  const crossing = turns(a, b, c) * turns(a, b, d) < 0 && turns(c, d, a) * turns(c, d, b) < 0;
  return (
    crossing ||
    distanceToSide(a, c, d) <= SAME_POINT_M ||
    distanceToSide(b, c, d) <= SAME_POINT_M ||
    distanceToSide(c, a, b) <= SAME_POINT_M ||
    distanceToSide(d, a, b) <= SAME_POINT_M
  );
}

const turns = (a: PlanPoint, b: PlanPoint, c: PlanPoint): number =>
  (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);

const same = (a: PlanPoint, b: PlanPoint): boolean => Math.hypot(a[0] - b[0], a[1] - b[1]) <= SAME_POINT_M;

function distanceToSide([x, y]: PlanPoint, a: PlanPoint, b: PlanPoint): number {
  const ex = b[0] - a[0];
  const ey = b[1] - a[1];
  const squared = ex * ex + ey * ey;
  const t = squared > 0 ? Math.min(1, Math.max(0, ((x - a[0]) * ex + (y - a[1]) * ey) / squared)) : 0;
  return Math.hypot(x - a[0] - t * ex, y - a[1] - t * ey);
}
