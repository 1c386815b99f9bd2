import type { CriticalPoint, Evaluation, Plan, UnitSystem } from "@gantline/plan";
import type { Drawing } from "../primitives.ts";
import { sectionFrame } from "../section/section-frame.ts";
import { drawSection } from "../section.ts";
import { drawLetGo } from "./draw-let-go.ts";

/** A longer text has no room in a small picture; it is said under it. */
const MOST_LETTERS = 10;

/** What happens when one part, anchor or pair of hands is taken away: the section with its place ringed. */
export function drawCritical(
  plan: Plan,
  evaluation: Evaluation,
  { at, subject, result }: CriticalPoint,
  { system }: { readonly system: UnitSystem },
): Drawing {
  const base =
    result === null
      ? drawSection(plan, { ...evaluation, clearances: [], ledger: [] }, { system, measures: false })
      : drawLetGo(plan, evaluation, result, { system, view: "section" });
  const place = sectionFrame(plan).toSection(at);
  return {
    ...base,
    primitives: [
      ...base.primitives.filter((p) => p.kind !== "text" || p.text.length <= MOST_LETTERS),
      { kind: "circle", at: place, radiusPx: 11, style: { stroke: "over", widthPx: 2.6 }, title: subject },
      { kind: "mark", at: place, shape: "cross", sizePx: 10, style: { stroke: "over", widthPx: 2.4 } },
    ],
  };
}
