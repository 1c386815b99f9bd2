import type { Outline, PlanPoint } from "@gantline/engine";

/** The place of an outline that is nearest to a point in plan, and how far away it is, m. */
export function nearestOnOutline(
  outline: Outline,
  [x, y]: PlanPoint,
): { readonly at: PlanPoint; readonly awayM: number } {
  const places = outline.map((from, i) => {
    const to = outline[(i + 1) % outline.length] ?? from;
    const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
    const squared = dx * dx + dy * dy;
    const t = squared > 0 ? Math.min(1, Math.max(0, ((x - from[0]) * dx + (y - from[1]) * dy) / squared)) : 0;
    const at: PlanPoint = [from[0] + t * dx, from[1] + t * dy];
    return { at, awayM: Math.hypot(x - at[0], y - at[1]) };
  });
  return places.reduce((a, b) => (b.awayM < a.awayM ? b : a));
}

/** A crossing nearer than this is the outline's own edge that the way starts on, m. */
const STARTS_ON_M = 1e-6;

/** How far a way from a point in a unit direction goes before it crosses the outline, m; 0: it never does. */
export function runWithin(outline: Outline, [x, y]: PlanPoint, [dx, dy]: PlanPoint): number {
  const crossings = outline.flatMap((from, i) => {
    const to = outline[(i + 1) % outline.length] ?? from;
    const [ex, ey] = [to[0] - from[0], to[1] - from[1]];
    const across = dx * ey - dy * ex;
    if (across === 0) return [];
    const along = ((from[0] - x) * ey - (from[1] - y) * ex) / across;
    const share = ((from[0] - x) * dy - (from[1] - y) * dx) / across;
    return share >= 0 && share <= 1 && along > STARTS_ON_M ? [along] : [];
  });
  return crossings.length === 0 ? 0 : Math.min(...crossings);
}
