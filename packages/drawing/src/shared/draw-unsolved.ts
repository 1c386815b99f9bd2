import { asSite, type SiteVector } from "@gantline/engine";
import { type Anchorage, type Evaluation, type Plan, type UnitSystem, writePhrase } from "@gantline/plan";
import type { Primitive, WorldPoint } from "../primitives.ts";
import { ropeLooks } from "./rope-look.ts";
import { shortened } from "./write.ts";

/** Where the statics could not be solved: the ropes as they are meant to run, thin and dotted, and why there are no forces, unless there is nothing on the ropes. */
export function drawUnsolved(
  plan: Plan,
  evaluation: Evaluation,
  project: (p: SiteVector) => WorldPoint,
  system: UnitSystem,
  bare: boolean,
): readonly Primitive[] {
  const { holding, load } = evaluation;
  if (holding.state !== "unsolved") return [];
  const routes = plannedRoutes(plan, evaluation);
  const looks = ropeLooks(routes);
  return [
    ...routes.map(
      (r): Primitive => ({
        kind: "path",
        points: r.through.map(project),
        closed: false,
        style: { stroke: looks.get(r.id)?.tone ?? "faint", widthPx: 1, dash: "dotted" },
        title: `${r.name}, as meant to run; no force known`,
      }),
    ),
    ...(bare ? [] : [whyUnknown(project(load.yoke), writePhrase(holding.says, system))]),
  ];
}

const whyUnknown = (at: WorldPoint, says: string): Primitive => ({
  kind: "text",
  at,
  text: `forces unknown: ${shortened(says, 72)}`,
  align: "start",
  offsetPx: [14, -10],
  sizePx: 12,
  weight: "strong",
  tone: "unknown",
  sign: "question",
  halo: true,
  label: { priority: 92, keep: true },
});

interface Route {
  readonly id: string;
  readonly name: string;
  readonly role: "main" | "tagline";
  readonly through: readonly SiteVector[];
}

/** Every rope from the wanted place of the yoke by the places the plan names; places that do not exist are left out. */
function plannedRoutes(plan: Plan, evaluation: Evaluation): readonly Route[] {
  const { geometry, load } = evaluation;
  const placeOf = (anchorage: Anchorage): readonly SiteVector[] => {
    if (anchorage.on === "ground") return [asSite(anchorage.position)];
    return geometry.anchors.filter((a) => a.id === anchorage.anchorId).map((a) => a.at);
  };
  return [
    ...plan.rig.mainLines.map((line): Route => {
      const point = geometry.riggingPoints.filter((p) => p.id === line.tip.pointId).map((p) => p.at);
      return {
        id: line.id,
        name: line.name,
        role: "main",
        through: [
          load.yoke,
          ...point,
          ...line.redirects.flatMap((r) => placeOf(r.anchorage)),
          ...placeOf(line.brake.anchorage),
        ],
      };
    }),
    ...plan.rig.taglines.map(
      (t): Route => ({ id: t.id, name: t.name, role: "tagline", through: [load.yoke, asSite(t.handler)] }),
    ),
  ];
}
