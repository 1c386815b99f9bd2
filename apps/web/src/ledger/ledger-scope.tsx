import { MomentName } from "../evolution/moment-name.tsx";
import { useActions, useDesk, usePlan } from "../state/desk-context.tsx";
import { sweepWaits } from "../state/sweep-waits.ts";
import { useWholeEvolution } from "./use-shown-ledger.ts";

/** Of a plan with stages: whether the ledger is of the whole evolution or of what is drawn now, and what that is. */
export function LedgerScope() {
  const actions = useActions();
  const staged = usePlan((plan) => plan.evolution.stages.length > 0);
  const atMoment = useDesk((desk) => desk.when !== null);
  const whole = useWholeEvolution();
  const inHand = useDesk(sweepWaits);
  if (!staged) return null;
  return (
    <div className="ledger-scope">
      {/* biome-ignore lint/a11y/useSemanticElements: a fieldset is a form's */}
      <div className="switch" role="group" aria-label="Ledger of">
        <button type="button" aria-pressed={whole} onClick={() => actions.showLedger("evolution")}>
          Whole evolution
        </button>
        <button type="button" aria-pressed={!whole} onClick={() => actions.showLedger("moment")}>
          {atMoment ? "This moment" : "This position"}
        </button>
      </div>
      <p className="ledger-shown">
        {whole && inHand ? "While it moves, the checks of what is drawn: " : "Drawn: "}
        <MomentName />
      </p>
    </div>
  );
}
