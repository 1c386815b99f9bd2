import type { SiteVector } from "@gantline/engine";
import { type Evaluation, evaluate, type Plan, type TechniqueRow, type UnitSystem } from "@gantline/plan";
import { drawPlan } from "../plan-view.ts";
import type { Bounds, Drawing, Primitive, WorldPoint } from "../primitives.ts";
import { sectionFrame } from "../section/section-frame.ts";
import { drawSection } from "../section.ts";
import { boundsOf } from "../shared/bounds.ts";
import { drawLetGo } from "./draw-let-go.ts";

export interface TechniqueDrawings {
  /** With what it does to the tip. */
  readonly rest: Drawing;
  /** The same from above, as far as its ropes go: what is led off to a side is seen there alone. */
  readonly above: Drawing;
  /** When the line goes whose loss is worst; null: none was followed. */
  readonly gone: Drawing | null;
}

/** A longer text has no room in a small picture. */
const MOST_LETTERS = 22;
/** Room about the ropes from above, m. */
const ABOUT_M = 2;

type Project = (p: SiteVector) => WorldPoint;

/** One technique on the scene, small: as it hangs, from the side and from above, and when a line goes. @param plan the plan rigged that way, at its moment */
export function drawTechnique(
  plan: Plan,
  { worst, behindEdge }: Pick<TechniqueRow, "worst" | "behindEdge">,
  { system }: { readonly system: UnitSystem },
): TechniqueDrawings {
  const evaluation = evaluate(plan);
  const bare = { ...evaluation, clearances: [], ledger: [] };
  const rest = drawSection(plan, bare, { system, measures: false });
  const above = drawPlan(plan, bare, { system });
  const gone = worst === null ? null : drawLetGo(plan, evaluation, worst, { system, view: "section" });
  const { toSection } = sectionFrame(plan);
  const beyond = (project: Project): readonly Primitive[] =>
    behindEdge.flatMap(([edge, brake]): Primitive[] => [
      {
        kind: "path",
        points: [project(edge), project(brake)],
        closed: false,
        style: { stroke: "tagline", widthPx: 1.6 },
        title: "Belay behind the edge",
      },
      { kind: "mark", at: project(brake), shape: "square", sizePx: 8, style: { stroke: "tagline", widthPx: 1.6 } },
    ]);
  const shown = (drawing: Drawing, bounds: Bounds, project: Project): Drawing =>
    withFewWords({ ...drawing, primitives: [...drawing.primitives, ...beyond(project)], bounds, handles: [] });
  return {
    rest: shown(rest, rest.bounds, toSection),
    above: shown(above, ropesFromAbove(evaluation, behindEdge), flat),
    gone: gone && shown(gone, rest.bounds, toSection),
  };
}

const flat: Project = ([x, y]) => [x, y];

const ropesFromAbove = ({ lines, load, geometry }: Evaluation, behindEdge: TechniqueRow["behindEdge"]): Bounds =>
  boundsOf(
    [
      ...lines.flatMap(({ nodes }) => nodes.map(({ at }) => flat(at))),
      ...load.box.vertices.map(flat),
      ...behindEdge.flatMap((ends) => ends.map(flat)),
      flat(geometry.posed.pivot),
      flat(geometry.posed.tip),
    ],
    ABOUT_M,
  );

const withFewWords = (drawing: Drawing): Drawing => ({
  ...drawing,
  primitives: drawing.primitives.filter(
    (p: Primitive) => p.kind !== "text" || (p.text.length <= MOST_LETTERS && p.tone !== "hazard"),
  ),
});
