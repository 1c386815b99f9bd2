import type { Check, Evaluation, Evolution, Plan } from "@gantline/plan";
import { CAUTION, exampleLine } from "./caution.ts";

/** Whether every check that counts is within or close. */
export function isReady({ ledger }: { readonly ledger: readonly Check[] }): boolean {
  const counting = ledger.filter((c) => c.counts);
  return counting.length > 0 && counting.every((c) => c.status === "within" || c.status === "close");
}

/** What `check --json` prints: all that was worked out but the solids for drawing. SI, as it stands. */
export function planReport(plan: Plan, evaluation: Evaluation, evolution: Evolution | null) {
  const { geometry: _drawn, ...worked } = evaluation;
  return {
    ok: true,
    plan: plan.name,
    exampleData: exampleLine(plan),
    caution: CAUTION,
    ready: isReady(evaluation) && (evolution === null || isReady(evolution)),
    ...worked,
    evolution:
      evolution === null
        ? null
        : {
            worst: evolution.worst,
            ledger: evolution.ledger.map(({ id, status, ratio, when }) => ({ id, status, ratio, when })),
          },
  };
}
