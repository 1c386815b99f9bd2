import { writeRatio } from "@gantline/plan";
import { useRef } from "react";
import { useDesk } from "../state/desk-context.tsx";
import { countByStatus } from "./ledger-count.ts";
import { STATUS_WORD } from "./status-sign.tsx";
import { useShownLedger } from "./use-shown-ledger.ts";

/** Tells a screen reader how the ledger stands after each finished change; silent while something is being moved. */
export function LedgerAnnouncer() {
  const { checks: ledger, worst, waiting } = useShownLedger();
  const moving = useDesk((desk) => desk.moveBase !== null);
  const said = useRef("");
  if (!moving && !waiting) {
    const counts = countByStatus(ledger);
    const subject = ledger.find((check) => check.id === worst.checkId)?.subject ?? "";
    const ratio = worst.ratio === null ? "" : `, ${writeRatio(worst.ratio)}`;
    said.current = `Worst: ${STATUS_WORD[worst.status].toLowerCase()}, ${subject}${ratio}. ${counts.over} over, ${counts.unknown} unknown, ${counts.close} close.`;
  }
  return (
    <p className="heard-only" role="status">
      {said.current}
    </p>
  );
}
