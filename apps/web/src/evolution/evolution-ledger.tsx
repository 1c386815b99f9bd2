import { type Evolution, writePhrase, writeRatio } from "@gantline/plan";
import { STATUS_WORD, StatusSign } from "../ledger/status-sign.tsx";
import { useActions, useSystem } from "../state/desk-context.tsx";
import { percentAlong } from "./percent-along.ts";

/** How many of the worst are listed; the ledger of a moment has them all. */
const MOST = 14;

/** Every check at its worst over the whole evolution, with the moment it is worst at; touched, it moves everything there. */
export function EvolutionLedger({ evolution }: { readonly evolution: Evolution }) {
  const actions = useActions();
  const system = useSystem();
  const worst = evolution.ledger.filter((c) => c.counts && c.rule !== "example-data").slice(0, MOST);
  return (
    <section className="evolution-ledger">
      <h3>Worst of all moments</h3>
      <ol>
        {worst.map((check) => (
          <li key={check.id} className={`is-${check.status}`} data-evolution-check={check.id}>
            <button
              type="button"
              disabled={check.when === null}
              onClick={() => check.when && actions.lookAt(check.when)}
            >
              <StatusSign status={check.status} />
              <span>
                {check.subject}
                {check.status !== "within" && <>: {writePhrase(check.says, system)}</>}
              </span>
              <span className="figure">{check.ratio === null ? "" : writeRatio(check.ratio)}</span>
              <span>{STATUS_WORD[check.status]}</span>
              <span className="evolution-when">
                {check.when ? `stage ${check.when.stage + 1}, ${percentAlong(check.when)}` : ""}
              </span>
            </button>
          </li>
        ))}
      </ol>
    </section>
  );
}
