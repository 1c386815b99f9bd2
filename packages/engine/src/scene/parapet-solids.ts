import { type Outline, type PlanPoint, tidyOutline } from "./outline.ts";
import { extrudedOutline, type Solid } from "./solids.ts";

/** Corners sharper than this would throw the inner edge far off: the mitre is held to this many thicknesses. */
const LONGEST_MITRE = 3;
const THINNEST_M = 1e-3;

/**
 * The walls of one thickness that stand along an outline, inside it: a parapet round a roof.
 *
 * One solid for each side, mitred at the corners. What is thinner than a millimetre is given a millimetre.
 */
export const parapetSolids = (
  outline: Outline,
  thicknessM: number,
  zBottomM: number,
  zTopM: number,
): readonly Solid[] => parapetOutlines(outline, thicknessM).map((side) => extrudedOutline(side, zBottomM, zTopM));

/** What each of those walls stands on, in plan. */
export function parapetOutlines(outline: Outline, thicknessM: number): readonly Outline[] {
  const plan = tidyOutline(outline);
  const n = plan.length;
  const thick = Math.max(thicknessM, THINNEST_M);
  const inner = plan.map((corner, i) =>
    mitre(plan.at(i - 1) as PlanPoint, corner, plan[(i + 1) % n] as PlanPoint, thick),
  );
  return plan.map((corner, i) => {
    const j = (i + 1) % n;
    return [corner, plan[j] as PlanPoint, inner[j] as PlanPoint, inner[i] as PlanPoint];
  });
}

/** The corner of the inner edge: a thickness inside both sides that meet at a corner of a counterclockwise outline. */
function mitre(before: PlanPoint, corner: PlanPoint, after: PlanPoint, thicknessM: number): PlanPoint {
  const [ax, ay] = leftOf(before, corner);
  const [bx, by] = leftOf(corner, after);
  const mx = ax + bx;
  const my = ay + by;
  const squared = mx * mx + my * my;
  const stretch = squared > 0 ? Math.min(2 / squared, LONGEST_MITRE / Math.sqrt(squared)) : 0;
  return [corner[0] + thicknessM * stretch * mx, corner[1] + thicknessM * stretch * my];
}

/** Unit vector to the left of the way from a to b. */
function leftOf(a: PlanPoint, b: PlanPoint): PlanPoint {
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
  return [(a[1] - b[1]) / length, (b[0] - a[0]) / length];
}
