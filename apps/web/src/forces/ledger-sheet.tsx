import { Ledger } from "../ledger/ledger.tsx";
import { useDesk } from "../state/desk-context.tsx";
import { BeamDiagrams } from "./beam-diagrams.tsx";
import { LadderTable } from "./ladder-table.tsx";
import { LinesTable } from "./lines-table.tsx";
import { UseTable } from "./use-table.tsx";

/** The forces behind the ledger: ropes, rigging points, the ladder. On a phone the ledger itself stands first. */
export default function LedgerSheet() {
  const evaluation = useDesk((desk) => desk.evaluation);
  const plan = useDesk((desk) => desk.history.present);
  const solved = evaluation.cases.length > 0;
  return (
    <div className="ledger-sheet">
      <div className="ledger-narrow">
        <Ledger foldWithin />
      </div>
      {solved ? (
        <>
          <LinesTable plan={plan} evaluation={evaluation} />
          <div>
            <UseTable plan={plan} evaluation={evaluation} />
            <BeamDiagrams evaluation={evaluation} />
          </div>
          <LadderTable evaluation={evaluation} />
        </>
      ) : (
        <p className="none">No force could be worked out for this plan. The ledger says why.</p>
      )}
    </div>
  );
}
