import { stageAndPercent } from "@gantline/drawing";
import { writeRatio } from "@gantline/plan";
import { useActions } from "../state/desk-context.tsx";
import { countByStatus } from "./ledger-count.ts";
import { STATUS_WORD, StatusSign } from "./status-sign.tsx";
import { useShownLedger, useWholeEvolution } from "./use-shown-ledger.ts";

/** The ledger in one line: what is worst, and how many of each. Stays in sight on a phone. */
export function LedgerSummary() {
  const actions = useActions();
  const { checks: ledger, worst, waiting } = useShownLedger();
  const counts = countByStatus(ledger);
  const whole = useWholeEvolution();
  const check = ledger.find((one) => one.id === worst.checkId);
  const show = () => {
    actions.showTab("ledger");
    requestAnimationFrame(() => document.getElementById("panel")?.scrollIntoView({ block: "start" }));
  };
  return (
    <button type="button" className={`ledger-summary is-${worst.status}`} onClick={show} title="Show the ledger">
      <StatusSign status={worst.status} />
      <span>
        {waiting ? (
          "Working through the evolution. Nothing is judged yet."
        ) : (
          <>
            <b>{STATUS_WORD[worst.status]}</b> {check?.subject}
            {worst.ratio !== null && ` ${writeRatio(worst.ratio)}`}
            {check !== undefined && "when" in check && check.when !== null && `, ${stageAndPercent(check.when)}`}
          </>
        )}
        {!waiting && (
          <span className="counts">
            {" "}
            {counts.over} over, {counts.unknown} unknown, {counts.close} close, {counts.within} within
            {whole && " over the whole evolution"}
          </span>
        )}
      </span>
    </button>
  );
}
