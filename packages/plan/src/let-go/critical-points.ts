import { assess } from "../assess.ts";
import type { When } from "../evolve/evolution-types.ts";
import { momentPlan } from "../evolve/moment-plan.ts";
import type { Plan } from "../schema/plan.ts";
import type { Situation } from "../situation.ts";
import { letGoCase } from "./let-go-case.ts";
import type { CriticalPoint, LetGoCase } from "./let-go-plan-types.ts";
import { type PathPart, pathParts } from "./path-parts.ts";
import { isWorse, rankOfOutcome } from "./worse-case.ts";

/**
 * Every part, anchor and pair of hands taken away in turn: what holds then, and at what peak?
 *
 * Parts come from the load paths of the solved rig. What two lines share is found by its identity: one yoke, one vehicle
 * eye or one place of the ground, one rigging point, the ladder. Everyone lets go at once as the last. Worst first; empty
 * where nothing is solved or nothing hangs on the ropes.
 */
export function criticalPoints(plan: Plan, when: When | null): readonly CriticalPoint[] {
  const situation = assess(when === null ? plan : momentPlan(plan, when));
  const cases = new Map<string, LetGoCase>();
  const found = pathParts(situation).map((part): CriticalPoint => {
    const { id, subject, kind, at, lines } = part;
    const mains = lines.filter((l) => situation.plan.rig.mainLines.some((m) => m.id === l));
    const base = { id, subject, kind, at, lines, shared: mains.length > 1 };
    return { ...base, ...whatHolds(situation, when, part, cases) };
  });
  return [...found].sort(worstFirst);
}

function whatHolds(
  situation: Situation,
  when: When | null,
  { effect }: PathPart,
  cases: Map<string, LetGoCase>,
): Pick<CriticalPoint, "outcome" | "says" | "result"> {
  if (effect.kind === "none") return { outcome: "held", says: [effect.says], result: null };
  if (effect.kind === "unknown") return { outcome: "unknown", says: [effect.says], result: null };
  const { cut, lost } = effect;
  const key = JSON.stringify([cut, lost]);
  const result = cases.get(key) ?? letGoCase(situation, when, cut, { lost });
  cases.set(key, result);
  return { outcome: result.outcome, says: result.says, result };
}

const worstFirst = (a: CriticalPoint, b: CriticalPoint): number => {
  if (a.outcome !== b.outcome) return rankOfOutcome(a.outcome) - rankOfOutcome(b.outcome);
  if (a.shared !== b.shared) return a.shared ? -1 : 1;
  if (a.result && b.result) return isWorse(a.result, b.result) ? -1 : isWorse(b.result, a.result) ? 1 : 0;
  return Number(a.result === null) - Number(b.result === null);
};
