import type { Check, Evolution, TimedCheck } from "@gantline/plan";
import { useDesk } from "../state/desk-context.tsx";

export interface ShownLedger {
  /** Worst first; over the whole evolution each check with its moment. */
  readonly checks: readonly (Check | TimedCheck)[];
  readonly worst: Pick<Evolution["worst"], "status" | "ratio" | "checkId">;
  /** The first sweep of the plan is still under way: nothing is known yet. */
  readonly waiting: boolean;
}

const NOTHING: ShownLedger = { checks: [], worst: { status: "unknown", ratio: null, checkId: null }, waiting: true };

/** The ledger that is asked for: of the whole evolution where the plan has stages, or of the place or moment looked at. */
export function useShownLedger(): ShownLedger {
  const whole = useWholeEvolution();
  const evaluation = useDesk((desk) => desk.evaluation);
  const swept = useDesk((desk) => desk.evolution?.swept ?? null);
  if (!whole) return { checks: evaluation.ledger, worst: evaluation.worst, waiting: false };
  return swept === null ? NOTHING : { checks: swept.ledger, worst: swept.worst, waiting: false };
}

/** Is the ledger that of the whole evolution? Where the sweep failed, it is not. */
export const useWholeEvolution = (): boolean =>
  useDesk(
    ({ history, ledgerScope, evolution }) =>
      ledgerScope === "evolution" &&
      history.present.evolution.stages.length > 0 &&
      !(evolution?.fault != null && evolution.swept === null),
  );
