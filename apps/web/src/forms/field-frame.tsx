import type { ReactNode } from "react";

interface Props {
  readonly id: string;
  readonly path: string;
  readonly label: string;
  readonly hint?: string;
  readonly problem: string | null;
  readonly wide?: boolean;
  readonly children: ReactNode;
}

/** A label over a field, and under it what is wrong with it. */
export function FieldFrame({ id, path, label, hint, problem, wide, children }: Props) {
  return (
    <div className={`field${wide ? " is-wide" : ""}${problem === null ? "" : " is-wrong"}`} data-path={path}>
      <label htmlFor={id}>
        {label}
        {hint !== undefined && hint !== "" && <span className="hint"> {hint}</span>}
      </label>
      {children}
      {problem !== null && (
        <p className="field-problem" id={`${id}-problem`} role="alert">
          {problem}
        </p>
      )}
    </div>
  );
}

/** What ties a field to its problem for a screen reader. */
export const wrongness = (id: string, problem: string | null) =>
  problem === null ? {} : { "aria-invalid": true as const, "aria-describedby": `${id}-problem` };
