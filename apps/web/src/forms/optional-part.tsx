import type { ReactNode } from "react";
import { useField } from "./use-field.ts";

interface Props {
  readonly path: string;
  readonly title: string;
  readonly make: () => unknown;
  readonly children: ReactNode;
}

/** A part of the plan that may be left out altogether. */
export function OptionalPart({ path, title, make, children }: Props) {
  const { value, set } = useField(path);
  return (
    <fieldset className="optional" data-path={path}>
      <legend>{title}</legend>
      {value === null ? (
        <button type="button" className="add" onClick={() => set(make())}>
          Set {title.toLowerCase()}
        </button>
      ) : (
        <>
          {children}
          <button type="button" className="plain" onClick={() => set(null)}>
            Leave out {title.toLowerCase()}
          </button>
        </>
      )}
    </fieldset>
  );
}
