import { cross, dot, norm, type SiteVector, subtract } from "../base/vector.ts";
import type { Solid } from "./solids.ts";

/**
 * Is a point within a solid? For points that do not lie on its surface.
 *
 * The sides seen from within fill the whole sphere, from without they cancel: their solid angles, signed, add to 4π or 0.
 * Each side is taken as a fan, which holds for non-convex sides as well (A. Van Oosterom and J. Strackee, The solid
 * angle of a plane triangle, IEEE Trans. Biomed. Eng. BME-30, 1983).
 */
export function pointInSolid(solid: Solid, point: SiteVector): boolean {
  const { min, max } = solid.bounds;
  for (const k of [0, 1, 2] as const) if (point[k] < min[k] || point[k] > max[k]) return false;
  let angle = 0;
  for (const { loop, normal } of solid.faces) {
    // Seen edge on, a side fills nothing.
    if (Math.abs(dot(normal, subtract(loop[0] as SiteVector, point))) < EDGE_ON_M) continue;
    const first = subtract(loop[0] as SiteVector, point);
    for (let i = 1; i + 1 < loop.length; i++) {
      angle += solidAngle(first, subtract(loop[i] as SiteVector, point), subtract(loop[i + 1] as SiteVector, point));
    }
  }
  return angle > 2 * Math.PI;
}

const EDGE_ON_M = 1e-9;

/** Signed solid angle of a triangle seen from the origin, sr; positive when it runs counterclockwise seen from beyond it. */
function solidAngle(a: SiteVector, b: SiteVector, c: SiteVector): number {
  const la = norm(a);
  const lb = norm(b);
  const lc = norm(c);
  return 2 * Math.atan2(dot(a, cross(b, c)), la * lb * lc + dot(a, b) * lc + dot(b, c) * la + dot(c, a) * lb);
}
