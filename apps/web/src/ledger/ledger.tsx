import type { Check, Status, TimedCheck } from "@gantline/plan";
import { useDeferredValue } from "react";
import { goToField } from "../forms/go-to-field.ts";
import { useActions, useDesk } from "../state/desk-context.tsx";
import { problemsOf } from "../state/problems-of.ts";
import { countByStatus } from "./ledger-count.ts";
import { LedgerRow } from "./ledger-row.tsx";
import { LedgerScope } from "./ledger-scope.tsx";
import { STATUS_WORD, StatusSign } from "./status-sign.tsx";
import { useRowOrder } from "./use-row-order.ts";
import { useShownLedger } from "./use-shown-ledger.ts";

const ORDER: readonly Status[] = ["over", "unknown", "close", "within"];

/**
 * Every check, worst first, under the count of each status. What could not be read or computed stands on top.
 * Where the page scrolls as a whole, what is within is folded away.
 */
export function Ledger({ foldWithin = false }: { readonly foldWithin?: boolean }) {
  const actions = useActions();
  // In a drag the drawings go first: the rows follow as soon as they are on the screen.
  const latest = useShownLedger();
  const shown = useDeferredValue(latest);
  const { checks, waiting, older, letGo } = shown;
  const problems = useDesk(problemsOf);
  const system = useDesk((desk) => desk.system);
  const openCheckId = useDesk((desk) => desk.openCheckId);
  const fault = useDesk((desk) => desk.fault ?? desk.evolution?.fault ?? null);
  const entries = Object.entries(useDesk((desk) => desk.entryProblems));
  const moving = useDesk((desk) => desk.moveBase !== null);
  const ledger = useRowOrder(checks, moving);
  const letGoOlder = useDesk((desk) => desk.letGo?.of !== desk.history.present);
  const counts = countByStatus(ledger);
  const deciding = ledger.filter((check) => check.counts);
  const aside = ledger.filter((check) => !check.counts);
  const rows = (checks: readonly (Check | TimedCheck)[]) => (
    <ol className="ledger-rows">
      {checks.map((check) => (
        <LedgerRow
          key={check.id}
          check={check}
          system={system}
          open={check.id === openCheckId}
          moving={moving}
          letGo={letGo?.some(({ id }) => id === check.id) ? (letGoOlder ? "older" : "current") : null}
        />
      ))}
    </ol>
  );
  return (
    <div className="ledger" aria-busy={older || shown !== latest}>
      <LedgerScope />
      {waiting ? (
        <p className="none ledger-waiting">Working through the evolution. Nothing is judged yet.</p>
      ) : (
        <p className="ledger-counts">
          {ORDER.map((status) => (
            <span key={status} className={`count is-${status}`}>
              <StatusSign status={status} />
              <span className="figure">{counts[status]}</span> {STATUS_WORD[status].toLowerCase()}
            </span>
          ))}
        </p>
      )}
      {(fault !== null || entries.length > 0 || problems.length > 0) && (
        <ul className="ledger-problems">
          {fault !== null && (
            <li>
              The program failed on this plan, and the numbers below are older than it. Undo the last change. ({fault})
            </li>
          )}
          {entries.map(([path, entry]) => (
            <li key={path}>
              <button type="button" className="plain" onClick={() => goToField(actions, path)}>
                {entry.label}: {entry.problem}
              </button>
            </li>
          ))}
          {problems.map((problem) => (
            <li key={`${problem.path} ${problem.got}`}>
              <button type="button" className="plain" onClick={() => goToField(actions, problem.path)}>
                {problem.path}: got {problem.got}, expected {problem.expected}.
              </button>
            </li>
          ))}
        </ul>
      )}
      {rows(deciding.filter((check) => !foldWithin || check.status !== "within"))}
      {foldWithin && (
        <details className="ledger-fold">
          <summary>
            <StatusSign status="within" /> {counts.within} within
          </summary>
          {rows(deciding.filter((check) => check.status === "within"))}
        </details>
      )}
      {aside.length > 0 && (
        <>
          <h3 className="ledger-aside">For comparison; these do not decide</h3>
          {rows(aside)}
        </>
      )}
    </div>
  );
}
