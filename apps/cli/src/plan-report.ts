import {
  CAUTION,
  type Check,
  type CriticalPoint,
  type Evaluation,
  type Evolution,
  exampleLine,
  LET_GO_LIMITS,
  type LetGoEvolution,
  type Plan,
  type TechniqueRow,
  type When,
} from "@gantline/plan";

/** Whether every check that counts is within or close. */
export function isReady({ ledger }: { readonly ledger: readonly Check[] }): boolean {
  const counting = ledger.filter((c) => c.counts);
  return counting.length > 0 && counting.every((c) => c.status === "within" || c.status === "close");
}

/** What stands at the head of every report on a plan. */
export const reportHead = (plan: Plan) => ({
  ok: true,
  plan: plan.name,
  exampleData: exampleLine(plan),
  caution: CAUTION,
});

/** What `evolve --json` prints: the whole evolution. SI, as it stands. */
export const evolutionReport = (plan: Plan, evolution: Evolution) => ({
  ...reportHead(plan),
  ready: isReady(evolution),
  ...evolution,
});

/** What `let-go --json` prints: what is not in the figures stands before them. SI, as it stands. */
export const letGoReport = (
  plan: Plan,
  found: LetGoEvolution,
  when: When | null,
  criticalPoints: readonly CriticalPoint[],
  techniques: readonly TechniqueRow[],
) => ({
  ...reportHead(plan),
  ready: isReady(found),
  limits: LET_GO_LIMITS,
  ...found,
  moment: when,
  criticalPoints,
  techniques,
});

/** What `check --json` prints: all that was worked out but the solids for drawing. SI, as it stands. */
export function planReport(plan: Plan, evaluation: Evaluation, evolution: Evolution | null) {
  const { geometry: _drawn, ...worked } = evaluation;
  return {
    ...reportHead(plan),
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
