import { writeRatio } from "@gantline/plan";
import { useActions, useDesk } from "../state/desk-context.tsx";
import { countByStatus } from "./ledger-count.ts";
import { STATUS_WORD, StatusSign } from "./status-sign.tsx";

/** The ledger in one line: what is worst, and how many of each. Stays in sight on a phone. */
export function LedgerSummary() {
  const actions = useActions();
  const { ledger, worst } = useDesk((desk) => desk.evaluation);
  const counts = countByStatus(ledger);
  const check = ledger.find((one) => one.id === worst.checkId);
  const show = () => {
    actions.showTab("ledger");
    requestAnimationFrame(() => document.getElementById("panel")?.scrollIntoView({ block: "start" }));
  };
  return (
    <button type="button" className={`ledger-summary is-${worst.status}`} onClick={show} title="Show the ledger">
      <StatusSign status={worst.status} />
      <span>
        <b>{STATUS_WORD[worst.status]}</b> {check?.subject} {worst.ratio === null ? "" : writeRatio(worst.ratio)}
        <span className="counts">
          {" "}
          {counts.over} over, {counts.unknown} unknown, {counts.close} close, {counts.within} within
        </span>
      </span>
    </button>
  );
}
