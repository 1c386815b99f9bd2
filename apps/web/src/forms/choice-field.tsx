import { useId } from "react";
import { FieldFrame, wrongness } from "./field-frame.tsx";
import { useField } from "./use-field.ts";
import { choiceWord, labelOf } from "./words.ts";

export interface Option {
  readonly value: string;
  readonly word: string;
}

interface Props {
  readonly path: string;
  readonly label?: string;
  /** Left out: the words the schema knows. */
  readonly options?: readonly Option[];
  /** What "nothing" is called where the field may be empty. */
  readonly none?: string;
}

const YES_NO: readonly Option[] = [
  { value: "true", word: "Yes" },
  { value: "false", word: "No" },
];

/** One of a few. A field that may be unknown says so as one of its choices. */
export function ChoiceField({ path, label = labelOf(path), options, none = "Not known" }: Props) {
  const id = useId();
  const { value, rule, set, problem } = useField(path);
  const offered =
    options ??
    (rule.type === "boolean"
      ? YES_NO
      : (rule.options ?? []).map((option) => ({ value: option, word: choiceWord(path, option) })));
  const held = value === null ? "" : String(value);
  const missing = held !== "" && !offered.some((option) => option.value === held);
  const told = missing ? `“${held}” is not in this plan any more. Choose another.` : problem;
  const take = (chosen: string) => set(chosen === "" ? null : rule.type === "boolean" ? chosen === "true" : chosen);
  return (
    <FieldFrame id={id} path={path} label={label} problem={told}>
      <select id={id} value={held} onChange={(event) => take(event.target.value)} {...wrongness(id, told)}>
        {rule.nullable && <option value="">{none}</option>}
        {missing && <option value={held}>{held}</option>}
        {offered.map((option) => (
          <option key={option.value} value={option.value}>
            {option.word}
          </option>
        ))}
      </select>
    </FieldFrame>
  );
}
