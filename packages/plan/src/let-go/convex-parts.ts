import { type Outline, polygonArea, tidyOutline } from "@gantline/engine";

type PlanPoint = readonly [number, number];

/** A corner of a convex outline, and whether its side to the next corner is one of the whole, or where two parts meet. */
export interface PartCorner {
  readonly at: PlanPoint;
  readonly inner: boolean;
}

/**
 * An outline as convex outlines that cover it once, counterclockwise: itself where it is convex, else triangles.
 *
 * By cutting off ears: a simple polygon of four corners or more has two (Meisters, The American Mathematical Monthly 82,
 * 1975, from memory). The outline must be simple and enclose something.
 */
export function convexParts(outline: Outline): readonly (readonly PartCorner[])[] {
  const tidy = tidyOutline(outline);
  const corners: PartCorner[] = (isCounterclockwise(tidy) ? tidy : [...tidy].reverse()).map((at) => ({
    at,
    inner: false,
  }));
  if (corners.every((_, i) => turnAt(corners, i) >= 0)) return [corners];
  const parts: PartCorner[][] = [];
  while (corners.length > 3) {
    const ear = corners.findIndex((_, i) => isEar(corners, i));
    // Rounding may leave none: then the corner that turns most is as good.
    const i =
      ear >= 0 ? ear : corners.reduce((best, _, k) => (turnAt(corners, k) > turnAt(corners, best) ? k : best), 0);
    const [before, at, after] = aboutCorner(corners, i);
    parts.push([before, at, { ...after, inner: true }]);
    corners[(i - 1 + corners.length) % corners.length] = { ...before, inner: true };
    corners.splice(i, 1);
  }
  return [...parts, corners].filter((part) => polygonArea(part.map((c) => c.at)) > 0);
}

function aboutCorner(corners: readonly PartCorner[], i: number): readonly [PartCorner, PartCorner, PartCorner] {
  const n = corners.length;
  const [before, at, after] = [corners[(i - 1 + n) % n], corners[i], corners[(i + 1) % n]];
  if (!before || !at || !after) throw new RangeError("No such corner.");
  return [before, at, after];
}

/** Twice the area of the triangle, above 0 counterclockwise, m². */
const turn = ([ax, ay]: PlanPoint, [bx, by]: PlanPoint, [cx, cy]: PlanPoint): number =>
  (bx - ax) * (cy - ay) - (by - ay) * (cx - ax);

function turnAt(corners: readonly PartCorner[], i: number): number {
  const [before, at, after] = aboutCorner(corners, i);
  return turn(before.at, at.at, after.at);
}

/** Does the triangle at a corner lie within, with no other corner in it? */
function isEar(corners: readonly PartCorner[], i: number): boolean {
  const [before, at, after] = aboutCorner(corners, i);
  if (!(turn(before.at, at.at, after.at) > 0)) return false;
  return corners.every(
    (c) =>
      c === before ||
      c === at ||
      c === after ||
      turn(before.at, at.at, c.at) < 0 ||
      turn(at.at, after.at, c.at) < 0 ||
      turn(after.at, before.at, c.at) < 0,
  );
}

const isCounterclockwise = (outline: Outline): boolean =>
  outline.reduce((sum, [x, y], i) => {
    const [u, v] = outline[(i + 1) % outline.length] ?? [x, y];
    return sum + x * v - u * y;
  }, 0) > 0;
