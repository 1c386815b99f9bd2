import { type Outline, type PlanPoint, tidyOutline } from "@gantline/engine";
import { soundOutline } from "../place-geometry.ts";

/** Corners sharper than this would throw the outer edge far off: the mitre is held to this many widths. */
const LONGEST_MITRE = 3;

/** The outline with a strip of one width added all round, mitred; `null` where that crosses itself. */
export function grownOutline(outline: Outline, widthM: number): [number, number][] | null {
  const plan = tidyOutline(outline);
  const grown = plan.map((corner, i) =>
    outer(plan.at(i - 1) ?? corner, corner, plan[(i + 1) % plan.length] ?? corner, widthM),
  );
  return soundOutline(grown) ? grown : null;
}

/** A width outside both sides that meet at a corner of a counterclockwise outline. */
function outer(before: PlanPoint, corner: PlanPoint, after: PlanPoint, widthM: number): [number, number] {
  const [ax, ay] = rightOf(before, corner);
  const [bx, by] = rightOf(corner, after);
  const [mx, my] = [ax + bx, ay + by];
  const squared = mx * mx + my * my;
  const stretch = squared > 0 ? Math.min(2 / squared, LONGEST_MITRE / Math.sqrt(squared)) : 0;
  return [corner[0] + widthM * stretch * mx, corner[1] + widthM * stretch * my];
}

/** Unit vector to the right of the way from a to b. */
function rightOf(a: PlanPoint, b: PlanPoint): PlanPoint {
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
  return [(b[1] - a[1]) / length, (a[0] - b[0]) / length];
}
