import { assess } from "../assess.ts";
import type { When } from "../evolve/evolution-types.ts";
import { momentPlan } from "../evolve/moment-plan.ts";
import type { Plan } from "../schema/plan.ts";
import type { Situation } from "../situation.ts";

const known = new WeakMap<Plan, Map<string, Situation>>();

/**
 * The solved situation at a moment, for the few that are looked at again and again after a sweep: kept by the plan's identity,
 * as a plan never changes in place. What stands still through a stage is worked out once.
 */
export function momentSituation(plan: Plan, when: When): Situation {
  const moments = known.get(plan) ?? new Map<string, Situation>();
  known.set(plan, moments);
  const key = `${when.stage}/${when.along}`;
  const found = moments.get(key);
  if (found) return found;
  const stage = `${when.stage}/`;
  const beside = [...moments].find(([other]) => other.startsWith(stage))?.[1];
  const situation = assess(momentPlan(plan, when), [], beside?.stand ?? null);
  moments.set(key, situation);
  return situation;
}
