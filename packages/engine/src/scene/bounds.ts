import { type SiteVector, site } from "../base/vector.ts";

/** The upright box round something, site frame, m. */
export interface Bounds {
  readonly min: SiteVector;
  readonly max: SiteVector;
}

export function boundsOf(points: readonly SiteVector[]): Bounds {
  let [west, south, low] = [Number.MAX_VALUE, Number.MAX_VALUE, Number.MAX_VALUE];
  let [east, north, high] = [-Number.MAX_VALUE, -Number.MAX_VALUE, -Number.MAX_VALUE];
  for (const p of points) {
    west = Math.min(west, p[0]);
    south = Math.min(south, p[1]);
    low = Math.min(low, p[2]);
    east = Math.max(east, p[0]);
    north = Math.max(north, p[1]);
    high = Math.max(high, p[2]);
  }
  return { min: site(west, south, low), max: site(east, north, high) };
}

/** Distance between two boxes, squared, m²; 0 if they meet. Never more than between what they hold. */
export function boxDistanceSquared(a: Bounds, b: Bounds): number {
  const x = Math.max(0, a.min[0] - b.max[0], b.min[0] - a.max[0]);
  const y = Math.max(0, a.min[1] - b.max[1], b.min[1] - a.max[1]);
  const z = Math.max(0, a.min[2] - b.max[2], b.min[2] - a.max[2]);
  return x * x + y * y + z * z;
}

/** Distance between the box round a segment and a box, squared, m². */
export function segmentBoxDistanceSquared(p: SiteVector, q: SiteVector, b: Bounds): number {
  const x = Math.max(0, Math.min(p[0], q[0]) - b.max[0], b.min[0] - Math.max(p[0], q[0]));
  const y = Math.max(0, Math.min(p[1], q[1]) - b.max[1], b.min[1] - Math.max(p[1], q[1]));
  const z = Math.max(0, Math.min(p[2], q[2]) - b.max[2], b.min[2] - Math.max(p[2], q[2]));
  return x * x + y * y + z * z;
}

/** Distance between the boxes round two segments, squared, m². */
export function segmentBoxesDistanceSquared(p: SiteVector, q: SiteVector, r: SiteVector, s: SiteVector): number {
  const x = Math.max(0, Math.min(p[0], q[0]) - Math.max(r[0], s[0]), Math.min(r[0], s[0]) - Math.max(p[0], q[0]));
  const y = Math.max(0, Math.min(p[1], q[1]) - Math.max(r[1], s[1]), Math.min(r[1], s[1]) - Math.max(p[1], q[1]));
  const z = Math.max(0, Math.min(p[2], q[2]) - Math.max(r[2], s[2]), Math.min(r[2], s[2]) - Math.max(p[2], q[2]));
  return x * x + y * y + z * z;
}
