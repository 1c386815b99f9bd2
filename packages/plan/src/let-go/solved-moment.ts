import type { When } from "../evolve/evolution-types.ts";
import { momentPlan } from "../evolve/moment-plan.ts";
import type { Plan } from "../schema/plan.ts";
import { type SolvedPlan, solvePlan } from "../solve-plan.ts";

const known = new WeakMap<Plan, Map<string, SolvedPlan>>();

/**
 * The solved situation at a moment, for the few that are looked at again and again after a sweep: kept by the plan's identity,
 * as a plan never changes in place. What stands still through a stage is worked out once.
 */
export function solvedMoment(plan: Plan, when: When): SolvedPlan {
  const moments = known.get(plan) ?? new Map<string, SolvedPlan>();
  known.set(plan, moments);
  const key = `${when.stage}/${when.along}`;
  const found = moments.get(key);
  if (found) return found;
  const stage = `${when.stage}/`;
  const beside = [...moments].find(([other]) => other.startsWith(stage))?.[1];
  const situation = solvePlan(momentPlan(plan, when), beside?.stand ?? null);
  moments.set(key, situation);
  return situation;
}
