import { type Extent, extentOf, extentsApart, insideOutline, type Outline, type PlanPoint } from "./outline.ts";
import { cellSides } from "./outline-cells.ts";

/**
 * Where does an outline lie on none of these grounds? A place of it that lies within none; `null`: together they cover it.
 * Exact for simple outlines, convex or not, but for gaps narrower than `BESIDE_M`.
 */
export const uncoveredPoint = (outline: Outline, covers: readonly Outline[]): PlanPoint | null =>
  covers.some((cover) => plainly(outline, cover) === "within")
    ? null
    : (cellSides(outline, covers).find(
        ({ beside }) => insideOutline(outline, beside) && !covers.some((cover) => insideOutline(cover, beside)),
      )?.beside ?? null);

/** Where do two outlines lie over each other? A place within both; `null`: nowhere, though their sides may touch. */
export const overlapPoint = (a: Outline, b: Outline): PlanPoint | null =>
  plainly(a, b) === "apart"
    ? null
    : (cellSides(a, [b]).find(({ beside }) => insideOutline(a, beside) && insideOutline(b, beside))?.beside ?? null);

/** Told without cutting anything: an outline that none of another's sides comes near lies within that one, or apart from it. */
function plainly(outline: Outline, other: Outline): "within" | "apart" | null {
  const extent = extentOf(outline);
  if (extentsApart(extent, extentOf(other))) return "apart";
  const [corner] = outline;
  if (!corner || isNear(other, extent)) return null;
  return insideOutline(other, corner) ? "within" : "apart";
}

/** Does the box round any side meet this one? */
function isNear(outline: Outline, { min, max }: Extent): boolean {
  let a = outline.at(-1);
  for (const b of outline) {
    if (
      a &&
      Math.max(a[0], b[0]) >= min[0] &&
      Math.min(a[0], b[0]) <= max[0] &&
      Math.max(a[1], b[1]) >= min[1] &&
      Math.min(a[1], b[1]) <= max[1]
    )
      return true;
    a = b;
  }
  return false;
}
