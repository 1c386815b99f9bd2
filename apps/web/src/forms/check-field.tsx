import { useId } from "react";
import { useField } from "./use-field.ts";
import { labelOf } from "./words.ts";

/** A plain yes or no. */
export function CheckField({ path, label = labelOf(path) }: { readonly path: string; readonly label?: string }) {
  const id = useId();
  const { value, set } = useField(path);
  return (
    <div className="field is-check" data-path={path}>
      <input
        id={id}
        className="checkbox"
        type="checkbox"
        checked={value === true}
        onChange={(event) => set(event.target.checked)}
      />
      <label htmlFor={id}>{label}</label>
    </div>
  );
}
