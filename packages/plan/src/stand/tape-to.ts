import { distanceToOutlineM, type Outline, type PlanPoint, pointInPolygon } from "@gantline/engine";
import type { PaintMark, TapePoint } from "./stand-types.ts";

/** No tape is longer than this, m. */
const LONGEST_M = 50;
/** A mark this near to a tape point is not taped from it, m: there is no direction left. */
const SHORTEST_M = 0.3;
/** What a tape is off by: this, m, and this share of its length. Planning defaults, no source. */
const TAPE_OFF_M = 0.01;
const TAPE_OFF_SHARE = 0.002;
/** Tapes that cross flatter than this fix nothing, rad. */
const FLATTEST_RAD = (15 * Math.PI) / 180;

/**
 * Which two tapes fix a point best? The pair whose crossing is expected to be least off, near and well angled: the
 * errors of both tapes together, over the sine of the angle at which they cross. Straight lines only: none through a wall.
 */
export function tapeTo(
  mark: Pick<PaintMark, "id" | "name" | "at">,
  points: readonly TapePoint[],
  walls: readonly Outline[],
): PaintMark {
  const reachable = points
    .map((from) => ({ from, distanceM: between(from.at, mark.at) }))
    .filter(({ from, distanceM }) => {
      if (distanceM > LONGEST_M || distanceM < SHORTEST_M) return false;
      return !walls.some((wall) => runsThrough(wall, from.at, mark.at));
    })
    .sort((a, b) => a.distanceM - b.distanceM);
  let best: { readonly tapes: PaintMark["tapes"]; readonly crossingRad: number; readonly offM: number } | null = null;
  for (const [i, one] of reachable.entries()) {
    for (const other of reachable.slice(i + 1)) {
      const crossingRad = crossingOf(one.from.at, other.from.at, mark.at);
      if (crossingRad < FLATTEST_RAD) continue;
      const offM = Math.hypot(offOf(one.distanceM), offOf(other.distanceM)) / Math.sin(crossingRad);
      if (best === null || offM < best.offM) best = { tapes: [one, other], crossingRad, offM };
    }
  }
  if (best === null) return { ...mark, tapes: reachable.slice(0, 1), side: null, crossingRad: null };
  const [a, b] = best.tapes.map((t) => t.from.at);
  const turns = a && b ? (b[0] - a[0]) * (mark.at[1] - a[1]) - (b[1] - a[1]) * (mark.at[0] - a[0]) : 0;
  return { ...mark, tapes: best.tapes, side: turns >= 0 ? "left" : "right", crossingRad: best.crossingRad };
}

const between = (a: PlanPoint, b: PlanPoint): number => Math.hypot(a[0] - b[0], a[1] - b[1]);
const offOf = (distanceM: number): number => TAPE_OFF_M + TAPE_OFF_SHARE * distanceM;

/** Angle between the lines from two points to a third, at the third, in [0, π/2]. */
function crossingOf(a: PlanPoint, b: PlanPoint, at: PlanPoint): number {
  const [ax, ay] = [a[0] - at[0], a[1] - at[1]];
  const [bx, by] = [b[0] - at[0], b[1] - at[1]];
  return Math.atan2(Math.abs(ax * by - ay * bx), Math.abs(ax * bx + ay * by));
}

/** Does the straight way from a to b lead through the inside of an outline, beyond touching it? Looked at in a hundred places. */
function runsThrough(outline: Outline, a: PlanPoint, b: PlanPoint): boolean {
  for (let k = 1; k < PLACES; k++) {
    const t = k / PLACES;
    const p: PlanPoint = [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])];
    if (pointInPolygon(outline, p, 0) && distanceToOutlineM(outline, p) > TOUCHES_M) return true;
  }
  return false;
}

const PLACES = 100;
/** Along a wall is not through it, m. */
const TOUCHES_M = 0.02;
