import { extentOf, extentsApart, insideOutline, type Outline, type PlanPoint, sideIsNear } from "./outline.ts";
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
  if (!corner || other.some((b, i) => sideIsNear(other.at(i - 1) as PlanPoint, b, extent))) return null;
  return insideOutline(other, corner) ? "within" : "apart";
}
