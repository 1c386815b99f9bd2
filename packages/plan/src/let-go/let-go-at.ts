import type { When } from "../evolve/evolution-types.ts";
import { momentPlan } from "../evolve/moment-plan.ts";
import type { Plan } from "../schema/plan.ts";
import { solvePlan } from "../solve-plan.ts";
import { type CaseOptions, letGoCase } from "./let-go-case.ts";
import type { LetGoCase } from "./let-go-plan-types.ts";

/**
 * What happens at one moment if one line goes: what holds, at what peaks, where the load goes.
 *
 * Of the plan's one position where `when` is null. A line that the plan does not have, or that is off the load then, changes
 * nothing. Never throws on a plan that its schema accepts.
 */
export function letGoAt(plan: Plan, when: When | null, cutLineId: string, options: CaseOptions = {}): LetGoCase {
  return letGoCase(solvePlan(when === null ? plan : momentPlan(plan, when)), when, [cutLineId], options);
}
