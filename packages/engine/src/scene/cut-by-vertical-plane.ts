import { bearingVector, dot, lerp, type SiteVector, subtract } from "../base/vector.ts";
import type { Outline, PlanPoint } from "./outline.ts";
import type { Solid } from "./solids.ts";

/** A stretch of a section line, from its origin along its bearing, m. */
export type Interval = readonly [number, number];

/** A point of a section drawing: along the section line and up, m. */
export type SectionPoint = readonly [number, number];

/** Cuts shorter than this are left out, m. */
const SHORTEST_M = 1e-9;

/**
 * Where does a vertical plane through a point, along a bearing, cut an outline?
 *
 * Returns the stretches inside the outline, along the section line from the origin (negative is behind it), in order.
 * A side that lies in the plane counts as lying to the left of it, so it is cut from one side only.
 */
export function cutOutlineByVerticalPlane(
  outline: Outline,
  origin: SiteVector | PlanPoint,
  bearingRad: number,
): readonly Interval[] {
  const sin = Math.sin(bearingRad);
  const cos = Math.cos(bearingRad);
  const seen = outline.map(([x, y]) => {
    const east = x - origin[0];
    const north = y - origin[1];
    return { along: east * sin + north * cos, right: east * cos - north * sin };
  });
  const crossings = seen.flatMap((b, i) => {
    const a = seen.at(i - 1);
    if (!a || a.right > 0 === b.right > 0) return [];
    return [a.along + ((0 - a.right) / (b.right - a.right)) * (b.along - a.along)];
  });
  crossings.sort((a, b) => a - b);
  const stretches: Interval[] = [];
  for (let i = 0; i + 1 < crossings.length; i += 2) {
    const from = crossings[i] as number;
    const to = crossings[i + 1] as number;
    if (to - from > SHORTEST_M) stretches.push([from, to]);
  }
  return stretches;
}

/** Where does the same plane cut the sides of a solid? Lines of the section drawing; together they run round each part cut. */
export function cutSolidByVerticalPlane(
  solid: Solid,
  origin: SiteVector,
  bearingRad: number,
): readonly (readonly [SectionPoint, SectionPoint])[] {
  const ahead = bearingVector(bearingRad);
  const right = bearingVector(bearingRad + Math.PI / 2);
  const section = (p: SiteVector): SectionPoint => [dot(ahead, subtract(p, origin)), p[2]];
  return solid.faces.flatMap(({ loop }) => {
    const side = loop.map((p) => dot(right, subtract(p, origin)));
    const crossings = loop.flatMap((b, i) => {
      const from = side.at(i - 1) as number;
      const to = side[i] as number;
      return from > 0 === to > 0 ? [] : [section(lerp(loop.at(i - 1) as SiteVector, b, from / (from - to)))];
    });
    crossings.sort((a, b) => a[0] - b[0] || a[1] - b[1]);
    const drawn: (readonly [SectionPoint, SectionPoint])[] = [];
    for (let i = 0; i + 1 < crossings.length; i += 2)
      drawn.push([crossings[i] as SectionPoint, crossings[i + 1] as SectionPoint]);
    return drawn;
  });
}
