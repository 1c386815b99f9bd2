import type { Check } from "../check.ts";
import type { TimedCheck, When } from "../evolve/evolution-types.ts";
import { rankOf, worstFirst } from "../judge.ts";
import type { LetGoCase, PointsAt } from "../let-go/let-go-plan-types.ts";
import { isWorse as isWorseCase } from "../let-go/worse-case.ts";
import type { Plan } from "../schema/plan.ts";
import { holdsCheck, pointCheck } from "./let-go-holds.ts";
import { partsOf } from "./let-go-parts.ts";
import { peakChecks } from "./let-go-peaks.ts";
import { lineNames } from "./line-names.ts";

/**
 * Does what is left hold when one line goes, or a point that several hang on, or all hands, and does nothing get more than
 * the policy allows?
 *
 * Each check at the worst of the cases, by the high end of its band. Where a case rests on something that is not known, a
 * brake's slip force held fast among it, the check is unknown and never good. Apart from `evaluate`, since it takes
 * some seconds for a whole evolution: a caller puts these checks into the ledger.
 *
 * @param common what takes more than one line with it, as `commonPoints` finds it
 */
export function letGoChecks(
  plan: Plan,
  cases: readonly LetGoCase[],
  common: readonly PointsAt[] = [],
): readonly TimedCheck[] {
  const worst = new Map<string, TimedCheck>();
  const parts = partsOf(plan);
  const see = (when: When | null, checks: readonly Check[]): void => {
    for (const check of checks) {
      const known = worst.get(check.id);
      if (!known || isWorse(check, known)) worst.set(check.id, { ...check, when });
    }
  };
  // Checks without a figure stand at the worst of their cases.
  const hardestFirst = [...cases].sort((a, b) => Number(isWorseCase(b, a)) - Number(isWorseCase(a, b)));
  for (const one of hardestFirst)
    see(one.when, [holdsCheck(plan, one), ...peakChecks(plan, one, `${lineNames(plan, one.cut)} gone`, parts)]);
  for (const { when, points } of common)
    for (const point of points) {
      see(when, [pointCheck(point)]);
      const gone = point.kind === "everyone" ? point.subject : `${point.subject} gone`;
      if (point.result) see(when, peakChecks(plan, point.result, gone, parts));
    }
  return [...worst.values()].sort(worstFirst);
}

const isWorse = (a: Check, b: Check): boolean =>
  rankOf(a.status) < rankOf(b.status) ||
  (a.status === b.status && ((a.ratio ?? -1) > (b.ratio ?? -1) || (a.ratio === null && told(a) > told(b))));

/** The figure that stands in the working of a check that cannot be told. */
const told = (c: Check): number => c.working.terms[0]?.value ?? -1;
