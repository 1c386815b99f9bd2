import type { Stage } from "@gantline/plan";
import { useId } from "react";
import { AmountField } from "../forms/amount-field.tsx";
import { StageProblemAt } from "../forms/stage-problem.tsx";
import { useField } from "../forms/use-field.ts";
import { useActions, usePlan } from "../state/desk-context.tsx";

/** How the main lines share the load in a stage, where it is not as the rig has it. */
export function StageShares({ path }: { readonly path: string }) {
  const id = useId();
  const actions = useActions();
  const mainLines = usePlan((plan) => plan.rig.mainLines);
  const at = `${path}.shares`;
  const { value, set } = useField(at);
  const shares = value as Stage["shares"];
  const own = Object.keys(shares);
  const nameOf = (lineId: string) => mainLines.find((line) => line.id === lineId)?.name ?? `“${lineId}”, not rigged`;
  const choose = (wanted: boolean) => {
    actions.dropEntryProblems(at);
    set(wanted ? Object.fromEntries(mainLines.map((line) => [line.id, line.share])) : {});
  };
  return (
    <fieldset className="line-uses" data-path={at}>
      <legend>Shares of the main lines</legend>
      <div className="field is-check">
        <input
          id={id}
          className="checkbox"
          type="checkbox"
          checked={own.length > 0}
          onChange={(event) => choose(event.target.checked)}
        />
        <label htmlFor={id}>Otherwise than rigged in this stage</label>
      </div>
      {own.map((lineId) => (
        <AmountField key={lineId} path={`${at}["${lineId}"]`} label={`${nameOf(lineId)}, share`} quantity="ratio" />
      ))}
      <StageProblemAt path={at} />
    </fieldset>
  );
}
