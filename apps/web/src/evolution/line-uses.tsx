import type { LineUse, Stage } from "@gantline/plan";
import { useId } from "react";
import { AmountField } from "../forms/amount-field.tsx";
import { ChoiceField } from "../forms/choice-field.tsx";
import { FieldFrame } from "../forms/field-frame.tsx";
import { StageProblemAt } from "../forms/stage-problem.tsx";
import { useField } from "../forms/use-field.ts";
import { useActions, usePlan } from "../state/desk-context.tsx";

type Lines = Stage["lines"];

const USES = [
  ["rigged", "As rigged"],
  ["on", "On the load, as said here"],
  ["off", "Off the load"],
] as const;

/** How each line is used in a stage: as the rig has it, in its own way, or not at all. */
export function LineUses({ path }: { readonly path: string }) {
  const rig = usePlan((plan) => plan.rig);
  const { value } = useField(`${path}.lines`);
  const hands = [...rig.taglines, ...(rig.tether === null ? [] : [rig.tether])];
  const known = [...rig.mainLines, ...hands].map(({ id }) => id);
  const strangers = Object.keys(value as Lines).filter((id) => !known.includes(id));
  return (
    <fieldset className="line-uses" data-path={`${path}.lines`}>
      <legend>Lines in this stage</legend>
      {rig.mainLines.map(({ id, name }) => (
        <OneLine key={id} path={path} id={id} name={name} main />
      ))}
      {hands.map(({ id, name }) => (
        <OneLine key={id} path={path} id={id} name={name} />
      ))}
      {strangers.map((id) => (
        <OneLine key={id} path={path} id={id} name={`“${id}”, not rigged`} />
      ))}
      <StageProblemAt path={`${path}.lines`} />
    </fieldset>
  );
}

interface Props {
  readonly path: string;
  readonly id: string;
  readonly name: string;
  /** Main lines carry by their shares: there is no drive to choose. */
  readonly main?: boolean;
}

function OneLine({ path, id, name, main = false }: Props) {
  const fieldId = useId();
  const actions = useActions();
  const { value, set } = useField(`${path}.lines`);
  const uses = value as Lines;
  const use: LineUse | undefined = uses[id];
  const at = `${path}.lines["${id}"]`;
  const choose = (word: string) => {
    actions.dropEntryProblems(at);
    const { [id]: _, ...others } = uses;
    const now = use ?? { on: true, drive: "asNeeded", tensionN: null, lengthM: null };
    set(word === "rigged" ? others : { ...others, [id]: { ...now, on: word === "on" } });
  };
  return (
    <div className="line-use">
      <FieldFrame id={fieldId} path={`${at}.on`} label={name} problem={null}>
        <select
          id={fieldId}
          value={use === undefined ? "rigged" : use.on ? "on" : "off"}
          onChange={(event) => choose(event.target.value)}
        >
          {USES.map(([word, text]) => (
            <option key={word} value={word}>
              {main && word === "on" ? "On the load" : text}
            </option>
          ))}
        </select>
      </FieldFrame>
      {use !== undefined && !main && (use.on || use.tensionN !== null || use.lengthM !== null) && (
        <>
          <ChoiceField path={`${at}.drive`} label={`${name}, held by`} />
          <AmountField path={`${at}.tensionN`} label={`${name}, steady pull`} />
          <AmountField path={`${at}.lengthM`} label={`${name}, made fast at`} />
        </>
      )}
    </div>
  );
}
