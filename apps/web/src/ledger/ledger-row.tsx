import { stageAndPercent } from "@gantline/drawing";
import { type Check, type TimedCheck, type UnitSystem, writeAmount, writePhrase, writeRatio } from "@gantline/plan";
import { memo } from "react";
import { goToField } from "../forms/go-to-field.ts";
import { useActions } from "../state/desk-context.tsx";
import { STATUS_WORD, StatusSign } from "./status-sign.tsx";
import { WorkingView } from "./working-view.tsx";

interface Props {
  readonly check: Check | TimedCheck;
  readonly open: boolean;
  readonly system: UnitSystem;
  /** Something is in hand: what reads the same may wait. */
  readonly moving: boolean;
  /** Judged of what happens when a line goes, of the plan as it is or as it was before its last change; null: not of that. */
  readonly letGo: "current" | "older" | null;
}

/**
 * One check: sign and word, what it is about, its ratio; opened, its sentence and its working. One that is worst at some
 * moment of the evolution names it, and touching it shows that moment on the drawings.
 */
export const LedgerRow = memo(function LedgerRow({ check, open, system, letGo }: Props) {
  const actions = useActions();
  const { id, status, ratio, subject, question, demand, limit, field } = check;
  const when = "when" in check ? check.when : null;
  const touch = () => {
    actions.openCheck(open ? null : id);
    if (when !== null && !open) actions.lookAt(when);
  };
  const amounts =
    demand === null && limit === null ? null : `${writeAmount(demand, system)} against ${writeAmount(limit, system)}`;
  return (
    <li
      className={`ledger-row is-${status}${check.counts ? "" : " is-aside"}${open ? " is-open" : ""}`}
      data-check-id={id}
      data-status={status}
      data-ratio={ratio ?? ""}
      data-let-go={letGo ?? undefined}
    >
      <button type="button" className="ledger-head" aria-expanded={open} onClick={touch}>
        <StatusSign status={status} />
        <span className="ledger-subject">{subject}</span>
        <span className="ledger-ratio figure">{ratioText(check)}</span>
        <span className="ledger-word">{STATUS_WORD[status]}</span>
        {letGo !== null && (
          <span className="ledger-let-go">If a line goes{letGo === "older" && ", before the last change"}</span>
        )}
        {(open || status !== "within") && <span className="ledger-question">{question}</span>}
        {when !== null && (
          <span className="ledger-when" title="Touch to see this moment">
            {stageAndPercent(when)}
          </span>
        )}
      </button>
      {open && (
        <div className="ledger-body">
          <p className="ledger-says">{writePhrase(check.says, system)}</p>
          {amounts !== null && <p className="figure">{amounts}</p>}
          <WorkingView working={check.working} />
          {field !== undefined && (
            <button type="button" className="plain" onClick={() => goToField(actions, field)}>
              Go to the field
            </button>
          )}
        </div>
      )}
    </li>
  );
}, sameOnPaper);

/** During a drag most rows stay as they read: only those that read otherwise are drawn again. */
function sameOnPaper(a: Props, b: Props): boolean {
  if (a.letGo !== b.letGo) return false;
  if (a.open || b.open) return a.open === b.open && a.check === b.check && a.system === b.system;
  return (
    a.check.id === b.check.id &&
    a.check.status === b.check.status &&
    (b.moving ? ratioText(a.check) === ratioText(b.check) : a.check.ratio === b.check.ratio) &&
    a.check.subject === b.check.subject &&
    a.check.question === b.check.question &&
    a.check.field === b.check.field &&
    whenOf(a.check) === whenOf(b.check)
  );
}

const ratioText = ({ ratio }: Check): string => (ratio === null ? "" : writeRatio(ratio));

const whenOf = (check: Check | TimedCheck): string =>
  "when" in check && check.when !== null ? stageAndPercent(check.when) : "";
