import { writePhrase } from "@gantline/plan";
import { goToField } from "../forms/go-to-field.ts";
import { useActions, usePlan, useSystem } from "../state/desk-context.tsx";
import { useStand, useStandActions } from "./use-stand.ts";

/** What keeps the search from being asked, what it must leave open, and that the plan has changed since. */
export function SearchProblems() {
  const actions = useActions();
  const system = useSystem();
  const stand = useStandActions();
  const fault = useStand((desk) => desk.fault);
  const searches = useStand((desk) => desk.searches);
  const plan = usePlan((one) => one);
  const asksElse = useStand((desk) => desk.of !== null && desk.ask !== desk.askedFor);
  const stale = searches.length > 0 && !stand.holdsFor(plan);
  const asked = searches.flatMap((search) => search.asked);
  const problems = new Map(asked.flatMap((a) => (a.ok ? [] : a.problems)).map((p) => [p.path, p]));
  const unknown = new Set(asked.flatMap((a) => (a.ok ? a.unknown : [])).map((phrase) => writePhrase(phrase, system)));
  return (
    <>
      {fault !== null && (
        <p className="field-problem" role="alert">
          The search failed: {fault}
        </p>
      )}
      {stale && <p className="where-stale">The plan has changed since this search. Search again.</p>}
      {asksElse && <p className="where-stale">What to look for has changed since this search. Search again.</p>}
      {[...problems.values()].map(({ path, got, expected }) => (
        <p key={path} className="field-problem" role="alert">
          It cannot be asked: {got}; needed: {expected}.{" "}
          <button type="button" className="plain" onClick={() => goToField(actions, path)}>
            Go to the field
          </button>
        </p>
      ))}
      {[...unknown].map((sentence) => (
        <p key={sentence} className="where-unknown is-unknown">
          {sentence}
        </p>
      ))}
    </>
  );
}
