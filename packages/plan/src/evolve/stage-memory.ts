import type { Plan } from "../schema/plan.ts";
import { poseBefore, stageStart } from "./moment-plan.ts";
import { type SweptStage, sweepStage } from "./sweep-stage.ts";

/** Keeps the stages of a plan as they were swept, for as long as nothing changes that they rest on. */
export interface StageMemory {
  /** Every stage, swept anew where need be. */
  readonly sweep: (plan: Plan, stepM: number) => readonly SweptStage[];
}

/**
 * A memory for one plan at a time: while a way point is dragged, only the stages that it belongs to are swept again.
 *
 * A stage rests on all of the plan but its evolution, and of that on itself, on where the load and how the ladder is before it,
 * and on which stage it is. Plans come from another thread as copies: they are compared by what is in them.
 */
export function stageMemory(): StageMemory {
  let besideThen = "";
  let kept = new Map<string, SweptStage>();
  return {
    sweep(plan, stepM) {
      const { evolution, ...beside } = plan;
      const besideNow = JSON.stringify([beside, stepM]);
      const known = besideNow === besideThen ? kept : new Map<string, SweptStage>();
      besideThen = besideNow;
      kept = new Map();
      return evolution.stages.map((stage, i) => {
        const key = JSON.stringify([i, stage, stageStart(plan, i), poseBefore(plan, i)]);
        const swept = known.get(key) ?? sweepStage(plan, i, stepM);
        kept.set(key, swept);
        return swept;
      });
    },
  };
}
