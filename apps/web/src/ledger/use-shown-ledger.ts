import { type Check, type Evolution, type TimedCheck, worstFirst } from "@gantline/plan";
import { useMemo } from "react";
import { useDesk } from "../state/desk-context.tsx";
import { sweepWaits } from "../state/sweep-waits.ts";

export interface ShownLedger {
  /** Worst first; over the whole evolution each check with its moment. */
  readonly checks: readonly (Check | TimedCheck)[];
  readonly worst: Pick<Evolution["worst"], "status" | "ratio" | "checkId">;
  /** The first sweep of the plan is still under way: nothing is known yet. */
  readonly waiting: boolean;
  /** The sweep shown is older than the plan; a newer one is under way. */
  readonly older: boolean;
  /** What is judged of lines that go, among `checks`; null: not worked through yet, or not shown here. */
  readonly letGo: readonly TimedCheck[] | null;
}

const NOTHING: ShownLedger = {
  checks: [],
  worst: { status: "unknown", ratio: null, checkId: null },
  waiting: true,
  older: true,
  letGo: null,
};

/**
 * The ledger that is asked for: of the whole evolution where the plan has stages, or of the place or moment looked at. While
 * something in hand keeps the sweep waiting it is of what is drawn, which follows the hand.
 */
export function useShownLedger(): ShownLedger {
  const whole = useWholeEvolution();
  const inHand = useDesk(sweepWaits);
  const evaluation = useDesk((desk) => desk.evaluation);
  const swept = useDesk((desk) => desk.evolution?.swept ?? null);
  const older = useDesk(({ evolution, history }) => evolution?.of !== history.present);
  const letGo = useLetGoChecks();
  const now = !whole || inHand;
  return useMemo(() => {
    if (now)
      return withChecks({ checks: evaluation.ledger, worst: evaluation.worst, waiting: false, older: false }, letGo);
    return swept === null
      ? NOTHING
      : withChecks({ checks: swept.ledger, worst: swept.worst, waiting: false, older }, letGo);
  }, [now, evaluation, swept, older, letGo]);
}

/** Over the whole evolution, or of a plan that has none: what is judged of lines that go, of the plan as it was last worked through; nothing while something is in hand. */
function useLetGoChecks(): readonly TimedCheck[] | null {
  const whole = useWholeEvolution();
  const staged = useDesk(({ history }) => history.present.evolution.stages.length > 0);
  const checks = useDesk(({ letGo }) => letGo?.found?.ledger ?? null);
  const inHand = useDesk((desk) => desk.moveBase !== null);
  return (whole || !staged) && !inHand ? checks : null;
}

/** Both together, worst first. */
function withChecks(ledger: Omit<ShownLedger, "letGo">, letGo: readonly TimedCheck[] | null): ShownLedger {
  if (letGo === null || letGo.length === 0) return { ...ledger, letGo };
  const checks = [...ledger.checks, ...letGo].sort(worstFirst);
  const worst = checks.find(({ counts }) => counts) ?? null;
  return {
    ...ledger,
    checks,
    worst: worst === null ? ledger.worst : { status: worst.status, ratio: worst.ratio, checkId: worst.id },
    letGo,
  };
}

/** Is the ledger that of the whole evolution? Where the sweep failed, it is not. */
export const useWholeEvolution = (): boolean =>
  useDesk(
    ({ history, ledgerScope, evolution }) =>
      ledgerScope === "evolution" &&
      history.present.evolution.stages.length > 0 &&
      !(evolution?.fault != null && evolution.swept === null),
  );
