import type { Check, Evolution, TimedCheck } from "@gantline/plan";
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
}

const NOTHING: ShownLedger = {
  checks: [],
  worst: { status: "unknown", ratio: null, checkId: null },
  waiting: true,
  older: true,
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
  if (!whole || inHand) return { checks: evaluation.ledger, worst: evaluation.worst, waiting: false, older: false };
  return swept === null ? NOTHING : { checks: swept.ledger, worst: swept.worst, waiting: false, older };
}

/** Is the ledger that of the whole evolution? Where the sweep failed, it is not. */
export const useWholeEvolution = (): boolean =>
  useDesk(
    ({ history, ledgerScope, evolution }) =>
      ledgerScope === "evolution" &&
      history.present.evolution.stages.length > 0 &&
      !(evolution?.fault != null && evolution.swept === null),
  );
