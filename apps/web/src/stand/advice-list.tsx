import { type StandAdvice, writePhrase } from "@gantline/plan";
import { StatusSign } from "../ledger/status-sign.tsx";
import { usePlan, useSystem } from "../state/desk-context.tsx";
import { FIT_STATUS, FIT_WORDS } from "./fit-words.ts";
import { useStand, useStandActions } from "./use-stand.ts";

/** Where nothing fits: which single change would do it, smallest first. */
export function AdviceList() {
  const advice = useStand((desk) => desk.advice);
  const swept = useStand((desk) => (desk.list?.entries.length ?? 0) > 0);
  const several = useStand((desk) => (desk.askedFor?.aimIds.length ?? 0) > 1);
  if (advice === null) return null;
  if (several) {
    return (
      <section className="advice" aria-label="What would make it fit">
        <h3>No one stand serves all the places that are ticked</h3>
        <p>Untick one of them, or search for each by itself: then single changes that would help are sought too.</p>
      </section>
    );
  }
  return (
    <section className="advice" aria-label="What would make it fit" aria-busy={!advice.done}>
      <h3>
        {swept ? "No stand that was swept holds through the evolution." : "Nothing fits as things are."} One change that
        would make a stand possible
        {!advice.done && <span className="none"> still looking</span>}
      </h3>
      {advice.done && advice.found.length === 0 && (
        <p>No single change that was tried makes a stand possible. The map says what governs at each place.</p>
      )}
      <ol>
        {advice.found.map((one) => (
          <AdviceRow key={one.kind + writePhrase(one.says, "metric")} advice={one} />
        ))}
      </ol>
    </section>
  );
}

function AdviceRow({ advice }: { readonly advice: StandAdvice }) {
  const actions = useStandActions();
  const system = useSystem();
  const plan = usePlan((one) => one);
  const says = writePhrase(advice.says, system);
  return (
    <li className={advice.fit === null ? "" : `is-${FIT_STATUS[advice.fit]}`}>
      <p>
        {says}
        {advice.fit !== null && (
          <span className="stand-fit">
            {" "}
            <StatusSign status={FIT_STATUS[advice.fit]} /> {FIT_WORDS[advice.fit]}
          </span>
        )}
      </p>
      <button
        type="button"
        className="take"
        disabled={!actions.holdsFor(plan) || plan === advice.plan}
        aria-label={`Take the change and its stand into the plan: ${says}`}
        onClick={() => actions.takeAdvice(advice)}
      >
        {plan === advice.plan ? "In the plan" : "Take into the plan"}
      </button>
    </li>
  );
}
