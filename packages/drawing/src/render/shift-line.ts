import type { ScreenPoint } from "../viewport.ts";

/** A polyline moved to the left of its own direction by so many px, with mitred corners (at sharp turns at most twice as far). */
export function shiftLine(points: readonly ScreenPoint[], shiftPx: number): readonly ScreenPoint[] {
  if (shiftPx === 0 || points.length < 2) return points;
  const normal = (p: ScreenPoint, q: ScreenPoint): ScreenPoint => {
    const long = Math.hypot(q[0] - p[0], q[1] - p[1]);
    return long > 0 ? [(q[1] - p[1]) / long, -(q[0] - p[0]) / long] : [0, 0];
  };
  return points.map((p, i) => {
    const before = i > 0 ? normal(points[i - 1] as ScreenPoint, p) : null;
    const after = i + 1 < points.length ? normal(p, points[i + 1] as ScreenPoint) : null;
    const a = before ?? (after as ScreenPoint);
    const b = after ?? a;
    const sum: ScreenPoint = [a[0] + b[0], a[1] + b[1]];
    const square = sum[0] ** 2 + sum[1] ** 2;
    const k = (2 * shiftPx) / Math.max(square, 1);
    return [p[0] + sum[0] * k, p[1] + sum[1] * k];
  });
}
