import { writePhrase } from "@gantline/plan";
import { useId, useState } from "react";
import { useActions, useDesk, useSystem } from "../state/desk-context.tsx";
import { FieldFrame, wrongness } from "./field-frame.tsx";
import { useField } from "./use-field.ts";
import { labelOf } from "./words.ts";

interface Props {
  readonly path: string;
  readonly label?: string;
  readonly lines?: number;
  readonly bare?: boolean;
}

/** A name, a source or a note. Taken when the field is left; what does not fit stays in the field with its reason. */
export function TextField({ path, label = labelOf(path), lines = 1, bare = false }: Props) {
  const id = useId();
  const actions = useActions();
  const system = useSystem();
  const { value, rule, set, problem } = useField(path);
  const wrong = useDesk((desk) => desk.entryProblems[path]);
  const [typed, setTyped] = useState<string | null>(null);

  const commit = () => {
    if (typed === null) return;
    setTyped(null);
    const phrase = rule.problem(typed, null);
    actions.noteEntryProblem(
      path,
      phrase === null ? null : { label, text: typed, problem: writePhrase(phrase, system) },
    );
    if (phrase === null && typed !== value) set(typed);
  };

  const told = wrong?.problem ?? problem;
  const common = {
    id,
    value: typed ?? wrong?.text ?? String(value ?? ""),
    onBlur: commit,
    "aria-label": bare ? label : undefined,
    ...wrongness(id, told),
  };
  const box =
    lines > 1 ? (
      <textarea rows={lines} {...common} onChange={(event) => setTyped(event.target.value)} />
    ) : (
      <input
        type="text"
        autoComplete="off"
        {...common}
        onChange={(event) => setTyped(event.target.value)}
        onKeyDown={(event) => event.key === "Enter" && commit()}
      />
    );
  if (bare) return <span data-path={path}>{box}</span>;
  return (
    <FieldFrame
      id={id}
      path={path}
      label={label}
      problem={told}
      wide={lines > 1 || /source|notes/i.test(path.split(".").at(-1) ?? "")}
    >
      {box}
    </FieldFrame>
  );
}
