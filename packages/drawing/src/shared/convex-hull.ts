import type { WorldPoint } from "../primitives.ts";

/** The convex outline round points, anticlockwise; Andrew's monotone chain. Fewer than three points come back as they are. */
export function convexHull(points: readonly WorldPoint[]): readonly WorldPoint[] {
  const sorted = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  if (sorted.length < 3) return sorted;
  const turn = (o: WorldPoint, a: WorldPoint, b: WorldPoint): number =>
    (a[0] - o[0]) * (b[1] - o[1]) - (a[1] - o[1]) * (b[0] - o[0]);
  const chain = (from: readonly WorldPoint[]): WorldPoint[] => {
    const out: WorldPoint[] = [];
    for (const p of from) {
      while (out.length >= 2 && turn(out[out.length - 2] as WorldPoint, out[out.length - 1] as WorldPoint, p) <= 0)
        out.pop();
      out.push(p);
    }
    return out.slice(0, -1);
  };
  const hull = [...chain(sorted), ...chain([...sorted].reverse())];
  return hull.length >= 2 ? hull : [sorted[0] as WorldPoint, sorted[sorted.length - 1] as WorldPoint];
}
