import { type Quantity, readAmount, writeEntry, writePhrase } from "@gantline/plan";
import { type KeyboardEvent, useEffect, useId, useRef, useState } from "react";
import { useActions, useDesk, useSystem } from "../state/desk-context.tsx";
import { FieldFrame, wrongness } from "./field-frame.tsx";
import { fieldQuantity } from "./field-quantity.ts";
import { useField } from "./use-field.ts";
import { labelOf } from "./words.ts";

interface Props {
  readonly path: string;
  readonly label?: string;
  readonly quantity?: Quantity;
  /** In a table: the label is there for a screen reader only. */
  readonly bare?: boolean;
}

/**
 * A number as people write it. It is taken when the field is left or Enter is pressed; Escape brings the last good value back.
 * What cannot be read stays in the field with its reason, and in the ledger; the plan keeps its last good value.
 */
export function AmountField({ path, label = labelOf(path), quantity = fieldQuantity(path), bare = false }: Props) {
  const id = useId();
  const actions = useActions();
  const system = useSystem();
  const { value, rule, set, problem } = useField(path);
  const wrong = useDesk((desk) => desk.entryProblems[path]);
  const number = typeof value === "number" ? value : null;
  const [typed, setTyped] = useState<string | null>(null);
  const shown = typed ?? wrong?.text ?? writeEntry(number, quantity, system);

  const before = useRef(number);
  useEffect(() => {
    // The plan's value changed from elsewhere (undo, a drag): what was wrongly written here is out of date.
    if (before.current !== number) actions.noteEntryProblem(path, null);
    before.current = number;
  }, [actions, number, path]);

  const commit = () => {
    if (typed === null) return;
    setTyped(null);
    if (wrong === undefined && typed.trim() === writeEntry(number, quantity, system)) return;
    const read = readAmount(typed, quantity, system);
    const refusal = read.ok ? fits(read.value) : read.problem;
    if (!read.ok || refusal !== null) {
      actions.noteEntryProblem(path, { label, text: typed, problem: refusal ?? "" });
      return;
    }
    actions.noteEntryProblem(path, null);
    before.current = read.value;
    set(read.value);
  };

  const fits = (read: number | null): string | null => {
    if (read === null) return rule.nullable ? null : "A value is needed here; the last one is kept.";
    const phrase = rule.problem(read, quantity);
    return phrase === null ? null : `“${typed?.trim()}” does not fit. ${writePhrase(phrase, system)}`;
  };

  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key === "Enter") commit();
    if (event.key === "Escape") {
      setTyped(null);
      actions.noteEntryProblem(path, null);
    }
  };

  const told = wrong?.problem ?? problem;
  const input = (
    <input
      id={id}
      className="amount figure"
      type="text"
      inputMode={quantity === "count" ? "numeric" : "text"}
      autoComplete="off"
      spellCheck={false}
      value={shown}
      placeholder={rule.nullable ? "unknown" : ""}
      aria-label={bare ? label : undefined}
      onChange={(event) => setTyped(event.target.value)}
      onBlur={commit}
      onKeyDown={onKeyDown}
      {...wrongness(id, told)}
    />
  );
  if (!bare) {
    return (
      <FieldFrame id={id} path={path} label={label} problem={told}>
        {input}
      </FieldFrame>
    );
  }
  return (
    <span data-path={path} className={told === null ? "cell" : "cell is-wrong"}>
      {input}
      {told !== null && (
        <span className="field-problem" id={`${id}-problem`} role="alert">
          {told}
        </span>
      )}
    </span>
  );
}
