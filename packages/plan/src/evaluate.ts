import { assess, judgeAll } from "./assess.ts";
import { attendantCheck, otherLoadSays, withOtherLoad } from "./attendant-check.ts";
import type { Check } from "./check.ts";
import type { Evaluation } from "./evaluation.ts";
import { feelAlong } from "./feel-aerial.ts";
import { findProblems } from "./find-problems.ts";
import { type Finding, tell, worstFirst } from "./judge.ts";
import type { Plan } from "./schema/plan.ts";

/**
 * What happens if this plan is carried out: where everything stands, what every rope and the ladder feel, and every
 * check, worst first.
 *
 * Pure: the same plan gives the same answer, in the browser and on the command line to the last digit shown. Never throws on
 * a plan that its schema accepts; what is missing or cannot be solved is said in the ledger and is never good.
 */
export const evaluate = (plan: Plan): Evaluation => evaluated(plan, () => true);

/** The same with only those checks that apply; where the load may be stopped, for both ways of travel. */
export function evaluated(plan: Plan, applies: (found: Finding) => boolean, mayStop = false): Evaluation {
  const situation = assess(plan, findProblems(plan), null, mayStop);
  const checks = judgeAll(situation);
  const others = judgeAll(assess(withOtherLoad(plan), situation.problems, situation.stand, mayStop));
  const ledger = [...checks, attendantCheck(plan, checks, others)].filter(applies).map(tell).sort(worstFirst);
  const { problems, stand, geometry, load, state, holding, lines, cases, rating, clearances, felt } = situation;
  return {
    problems,
    geometry,
    load,
    holding,
    tether: situation.tether,
    lines,
    cases,
    felt: Object.fromEntries(
      state ? cases.map((travel) => [travel, { ...felt[travel], ...feelAlong(plan, stand, state, travel) }]) : [],
    ),
    ratedTipLoadN: rating.ratedTipLoadN,
    ratingReason: [rating.reason],
    clearances,
    ledger,
    worst: worstOf(ledger),
    otherLoad: otherLoad(plan, others.filter(applies).sort(worstFirst)),
  };
}

/** Told only where it is asked for: a drag evaluates at every frame, and nobody looks at it meanwhile. */
function otherLoad(plan: Plan, found: readonly Finding[]): Evaluation["otherLoad"] {
  let told: readonly Check[] | null = null;
  return {
    says: otherLoadSays(plan),
    worst: worstOf(found),
    get ledger() {
      told ??= found.map(tell);
      return told;
    },
  };
}

/** What decides a sorted ledger. */
function worstOf(ledger: readonly Pick<Check, "counts" | "id" | "ratio" | "status">[]): Evaluation["worst"] {
  const deciding = ledger.find((c) => c.counts);
  return { status: deciding?.status ?? "unknown", ratio: deciding?.ratio ?? null, checkId: deciding?.id ?? null };
}
