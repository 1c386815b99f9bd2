import { extentOf, extentsApart, insideOutline, type Outline, type PlanPoint } from "./outline.ts";
import { cellSides } from "./outline-cells.ts";

/**
 * Where does an outline lie on none of these grounds? A place of it that lies within none; `null`: together they cover it.
 * Exact for simple outlines, convex or not, but for gaps narrower than `BESIDE_M`.
 */
export const uncoveredPoint = (outline: Outline, covers: readonly Outline[]): PlanPoint | null =>
  cellSides(outline, covers).find(
    ({ beside }) => insideOutline(outline, beside) && !covers.some((cover) => insideOutline(cover, beside)),
  )?.beside ?? null;

/** Where do two outlines lie over each other? A place within both; `null`: nowhere, though their sides may touch. */
export const overlapPoint = (a: Outline, b: Outline): PlanPoint | null =>
  extentsApart(extentOf(a), extentOf(b))
    ? null
    : (cellSides(a, [b]).find(({ beside }) => insideOutline(a, beside) && insideOutline(b, beside))?.beside ?? null);
