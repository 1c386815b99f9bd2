import { evaluate, type Plan, type TechniqueRow, type UnitSystem } from "@gantline/plan";
import type { Drawing, Primitive } from "../primitives.ts";
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
  { worst }: Pick<TechniqueRow, "worst">,
  { system }: { readonly system: UnitSystem },
): TechniqueDrawings {
  const evaluation = evaluate(plan);
  const rest = drawSection(plan, { ...evaluation, clearances: [], ledger: [] }, { system, measures: false });
  const gone = worst === null ? null : drawLetGo(plan, evaluation, worst, { system, view: "section" });
  return { rest: withFewWords(rest), gone: gone && withFewWords({ ...gone, bounds: rest.bounds }) };
}

const withFewWords = (drawing: Drawing): Drawing => ({
  ...drawing,
  primitives: drawing.primitives.filter(
    (p: Primitive) => p.kind !== "text" || (p.text.length <= MOST_LETTERS && p.tone !== "hazard"),
  ),
});
