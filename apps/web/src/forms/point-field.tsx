import { AmountField } from "./amount-field.tsx";
import { labelOf } from "./words.ts";

const AXES = ["east", "north", "up"] as const;

/** A place on the site by its coordinates. */
export function PointField({
  path,
  label = labelOf(path),
  axes = 3,
}: {
  readonly path: string;
  readonly label?: string;
  readonly axes?: 2 | 3;
}) {
  return (
    <fieldset className="point" data-path={path}>
      <legend>{label}</legend>
      {AXES.slice(0, axes).map((axis, index) => (
        <AmountField key={axis} path={`${path}[${index}]`} label={axis} quantity="length" />
      ))}
    </fieldset>
  );
}
