import { add, asSite, type SiteVector, subtract } from "@gantline/engine";
import { type Evaluation, type Evolution, evaluate, momentPlan, type Plan, stageWay } from "@gantline/plan";

/** The space a stage takes up, in site points: draw it in any view with `drawSwept`. */
export interface SweptStage {
  readonly stage: number;
  /** The corners of the load's box at places along its way, in order; between two of them it goes straight. */
  readonly load: readonly (readonly SiteVector[])[];
  /** The nodes of each rope at moments along the stage, in order. */
  readonly ropes: readonly {
    readonly id: string;
    readonly name: string;
    readonly role: Evaluation["lines"][number]["role"];
    readonly places: readonly (readonly { readonly id: string; readonly at: SiteVector }[])[];
  }[];
}

/** Moments of a stage at which the ropes are laid out. */
const ROPE_MOMENTS = 9;

/**
 * What space do the load and every rope take up over each stage? Stages with nothing on the ropes take up none.
 *
 * The load's box follows the stage's way where it is held all along, else the places it really hangs at. The ropes are
 * those of a few moments of the sweep. Worked once for an evolution (some ten evaluations a stage), drawn as often as liked.
 */
export function sweptStages(plan: Plan, evolution: Evolution): readonly SweptStage[] {
  return evolution.stages.flatMap(({ stage, moments: [first, last] }, index): SweptStage[] => {
    if (stage.aboard.length === 0) return [];
    const moments = evolution.moments.slice(first, last + 1);
    const steps = Math.min(ROPE_MOMENTS, moments.length) - 1;
    const chosen = Array.from(
      { length: steps + 1 },
      (_, k) => moments[Math.round((k / Math.max(1, steps)) * (moments.length - 1))],
    );
    const evaluations = chosen.flatMap((m) => (m ? [evaluate(momentPlan(plan, m.when))] : []));
    const some = evaluations[0];
    if (!some) return [];
    const held = moments.every((m) => m.holds === "held");
    const way = held ? stageWay(plan, index) : moments.map((m) => m.yoke);
    const load = way.map((yoke) => {
      const by = subtract(asSite(yoke), some.load.yoke);
      return some.load.box.vertices.map((v) => add(v, by));
    });
    return [{ stage: index, load, ropes: ropesOf(evaluations) }];
  });
}

function ropesOf(evaluations: readonly Evaluation[]): SweptStage["ropes"] {
  const found = new Map<
    string,
    { id: string; name: string; role: Evaluation["lines"][number]["role"]; places: { id: string; at: SiteVector }[][] }
  >();
  for (const { lines } of evaluations) {
    for (const { id, name, role, nodes } of lines) {
      const rope = found.get(id) ?? { id, name, role, places: [] };
      rope.places.push(nodes.map((n) => ({ id: n.id, at: n.at })));
      found.set(id, rope);
    }
  }
  return [...found.values()];
}
