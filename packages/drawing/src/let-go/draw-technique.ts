import { evaluate, type Plan, type TechniqueRow, type UnitSystem } from "@gantline/plan";
import type { Drawing, Primitive } from "../primitives.ts";
import { sectionFrame } from "../section/section-frame.ts";
import { drawSection } from "../section.ts";
import { drawLetGo } from "./draw-let-go.ts";

export interface TechniqueDrawings {
  /** With what it does to the tip. */
  readonly rest: Drawing;
  /** When the line goes whose loss is worst; null: none was followed. */
  readonly gone: Drawing | null;
}

/** A longer text has no room in a small picture. */
const MOST_LETTERS = 22;

/** One technique on the scene, small: as it hangs, and when a line goes. @param plan the plan rigged that way, at its moment */
export function drawTechnique(
  plan: Plan,
  { worst, behindEdge }: Pick<TechniqueRow, "worst" | "behindEdge">,
  { system }: { readonly system: UnitSystem },
): TechniqueDrawings {
  const evaluation = evaluate(plan);
  const rest = drawSection(plan, { ...evaluation, clearances: [], ledger: [] }, { system, measures: false });
  const gone = worst === null ? null : drawLetGo(plan, evaluation, worst, { system, view: "section" });
  const { toSection } = sectionFrame(plan);
  const beyond = behindEdge.flatMap(([edge, brake]): Primitive[] => [
    {
      kind: "path",
      points: [toSection(edge), toSection(brake)],
      closed: false,
      style: { stroke: "tagline", widthPx: 1.6 },
      title: "Belay behind the edge",
    },
    { kind: "mark", at: toSection(brake), shape: "square", sizePx: 8, style: { stroke: "tagline", widthPx: 1.6 } },
  ]);
  const shown = (drawing: Drawing): Drawing =>
    withFewWords({ ...drawing, primitives: [...drawing.primitives, ...beyond], bounds: rest.bounds });
  return { rest: shown(rest), gone: gone && shown(gone) };
}

const withFewWords = (drawing: Drawing): Drawing => ({
  ...drawing,
  primitives: drawing.primitives.filter(
    (p: Primitive) => p.kind !== "text" || (p.text.length <= MOST_LETTERS && p.tone !== "hazard"),
  ),
});
