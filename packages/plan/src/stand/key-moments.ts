import { hangsPlumb, withLoad } from "../edit/carrying-load.ts";
import type { When } from "../evolve/evolution-types.ts";
import { momentPlan, stageWay, wayLengthM } from "../evolve/moment-plan.ts";
import type { Plan } from "../schema/plan.ts";

/** Start, bends and end of every stage. */
export const keyMoments = (plan: Plan): readonly When[] =>
  plan.evolution.stages.flatMap((_, stage) => {
    const way = stageWay(plan, stage);
    const whole = wayLengthM(way);
    const places = whole > 0 ? way.map((_, k) => wayLengthM(way.slice(0, k + 1)) / whole) : [0, 1];
    return places.map((along) => ({ stage, along }));
  });

/**
 * The plan at every key moment with something on the ropes and the ladder still, each position once; without stages its one
 * position. To another place than now the ways go along; a single position does if the load hangs plumb in it.
 */
export function loadedMoments(plan: Plan, [east, north]: readonly [number, number] = [0, 0]): readonly Plan[] {
  const { stages } = plan.evolution;
  const moved = (moment: Plan): Plan => {
    const [x, y, z] = moment.rig.load.positionM;
    return east === 0 && north === 0 ? moment : withLoad(moment, [x + east, y + north, z]);
  };
  if (stages.length === 0) return [hangsPlumb(plan) ? moved(plan) : plan];
  const seen = new Set<string>();
  return keyMoments(plan).flatMap((when) => {
    const stage = stages[when.stage];
    if (!stage || stage.aboard.length === 0 || stage.action === "moveLadder") return [];
    const moment = momentPlan(plan, when);
    const key = JSON.stringify(moment.rig);
    if (seen.has(key)) return [];
    seen.add(key);
    return [moved(moment)];
  });
}
