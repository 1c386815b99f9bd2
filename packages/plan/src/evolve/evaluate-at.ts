import { evaluated } from "../evaluate.ts";
import type { Evaluation } from "../evaluation.ts";
import type { Plan } from "../schema/plan.ts";
import { appliesInStage } from "./applies-in-stage.ts";
import type { When } from "./evolution-types.ts";
import { momentPlan } from "./moment-plan.ts";

/**
 * What happens at one moment of the evolution: as `evaluate` of the plan as it is then, with the checks that apply in that
 * stage, as the sweep judges it: a load that moves can be stopped at any moment, so both ways of travel count. A plan without that stage is its one position.
 */
export function evaluateAt(plan: Plan, when: When): Evaluation {
  const stage = plan.evolution.stages[when.stage];
  return stage ? evaluated(momentPlan(plan, when), appliesInStage(stage), true) : evaluated(plan, () => true);
}
