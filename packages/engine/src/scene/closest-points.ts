import { addScaled, dot, type SiteVector, site, subtract } from "../base/vector.ts";
import type { Face } from "./faces.ts";

/** The nearest pair found so far; each function below improves it in place if it can. */
export interface Closest {
  squared: number;
  a: SiteVector;
  b: SiteVector;
}

/** Below this sine squared two segments count as parallel: the nearest pair then includes an end. */
const PARALLEL = 1e-14;

/** Nearest points of two segments (C. Ericson, Real-Time Collision Detection, 2005, §5.1.9), degenerate ones included. */
export function closestSegments(best: Closest, p: SiteVector, q: SiteVector, r: SiteVector, s: SiteVector): void {
  const ux = q[0] - p[0];
  const uy = q[1] - p[1];
  const uz = q[2] - p[2];
  const vx = s[0] - r[0];
  const vy = s[1] - r[1];
  const vz = s[2] - r[2];
  const wx = p[0] - r[0];
  const wy = p[1] - r[1];
  const wz = p[2] - r[2];
  const uu = ux * ux + uy * uy + uz * uz;
  const vv = vx * vx + vy * vy + vz * vz;
  const uv = ux * vx + uy * vy + uz * vz;
  const uw = ux * wx + uy * wy + uz * wz;
  const vw = vx * wx + vy * wy + vz * wz;
  const sine = uu * vv - uv * uv;
  if (sine <= PARALLEL * uu * vv) {
    closestToPoint(best, p, r, s, true);
    closestToPoint(best, q, r, s, true);
    closestToPoint(best, r, p, q, false);
    closestToPoint(best, s, p, q, false);
    return;
  }
  let along = clamp01((uv * vw - uw * vv) / sine);
  let across = (along * uv + vw) / vv;
  if (across < 0 || across > 1) {
    across = clamp01(across);
    along = clamp01((across * uv - uw) / uu);
  }
  const dx = wx + along * ux - across * vx;
  const dy = wy + along * uy - across * vy;
  const dz = wz + along * uz - across * vz;
  const squared = dx * dx + dy * dy + dz * dz;
  if (squared >= best.squared) return;
  best.squared = squared;
  best.a = site(p[0] + along * ux, p[1] + along * uy, p[2] + along * uz);
  best.b = site(r[0] + across * vx, r[1] + across * vy, r[2] + across * vz);
}

/** Nearest point of a segment to a point. */
export function closestToPoint(
  best: Closest,
  point: SiteVector,
  p: SiteVector,
  q: SiteVector,
  pointIsA: boolean,
): void {
  const along = subtract(q, p);
  const lengthSquared = dot(along, along);
  const t = lengthSquared > 0 ? clamp01(dot(along, subtract(point, p)) / lengthSquared) : 0;
  offer(best, point, addScaled(p, along, t), pointIsA);
}

/** The point of a face straight below or above a point, if it lies within the face; a point's nearest on the rim is left to the edges. */
export function closestOnFace(best: Closest, point: SiteVector, face: Face, pointIsA: boolean): void {
  const height = heightOver(face, point);
  if (height * height >= best.squared) return;
  const foot = addScaled(point, face.normal, -height);
  if (!withinFace(face, foot)) return;
  offer(best, point, foot, pointIsA);
}

/** Does a segment pass through a face from one side to the other? Then the distance is nothing. */
export function piercesFace(best: Closest, p: SiteVector, q: SiteVector, face: Face): void {
  const from = heightOver(face, p);
  const to = heightOver(face, q);
  if (!(from * to < 0)) return;
  const through = addScaled(p, subtract(q, p), from / (from - to));
  if (!withinFace(face, through)) return;
  best.squared = 0;
  best.a = through;
  best.b = through;
}

/** Height over the plane of a face, m; positive outside. */
const heightOver = ({ normal, loop }: Face, point: SiteVector): number =>
  dot(normal, point) - dot(normal, loop[0] as SiteVector);

/** Is a point of a face's plane within the face? Even-odd rule in the two axes that show the face best. */
function withinFace(face: Face, point: SiteVector): boolean {
  const i = face.drop === 0 ? 1 : 0;
  const j = face.drop === 2 ? 1 : 2;
  const x = point[i];
  const y = point[j];
  let inside = false;
  let a = face.loop.at(-1) as SiteVector;
  for (const b of face.loop) {
    if (a[j] > y !== b[j] > y && x < a[i] + ((y - a[j]) / (b[j] - a[j])) * (b[i] - a[i])) inside = !inside;
    a = b;
  }
  return inside;
}

function offer(best: Closest, point: SiteVector, other: SiteVector, pointIsA: boolean): void {
  const apart = subtract(point, other);
  const squared = dot(apart, apart);
  if (squared >= best.squared) return;
  best.squared = squared;
  best.a = pointIsA ? point : other;
  best.b = pointIsA ? other : point;
}

const clamp01 = (t: number): number => Math.min(1, Math.max(0, t));
