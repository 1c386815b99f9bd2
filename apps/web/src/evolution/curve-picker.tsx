import type { Series } from "@gantline/plan";
import { useId } from "react";

const KINDS = [
  ["force", "Forces"],
  ["length", "Lengths and clearances"],
  ["angle", "Angles"],
  ["ratio", "Checks, ratio"],
] as const;

/** The entry for no figure of its own: an empty text is no series' id. */
const WORST = "";

interface Props {
  readonly series: readonly Series[];
  /** null: the worst ratio of all checks. */
  readonly chosen: string | null;
  readonly choose: (id: string | null) => void;
}

/** Which figure the curve shows. */
export function CurvePicker({ series, chosen, choose }: Props) {
  const id = useId();
  const other = series.filter(({ quantity }) => !KINDS.some(([kind]) => kind === quantity));
  const options = (some: readonly Series[]) =>
    some.map((one) => (
      <option key={one.id} value={one.id}>
        {one.label}
      </option>
    ));
  return (
    <span className="curve-picker">
      <label htmlFor={id}>Curve</label>
      <select
        id={id}
        value={chosen ?? WORST}
        onChange={({ target: { value } }) => choose(value === WORST ? null : value)}
      >
        <option value={WORST}>Worst ratio of all checks</option>
        {KINDS.map(([kind, word]) => (
          <optgroup key={kind} label={word}>
            {options(series.filter(({ quantity }) => quantity === kind))}
          </optgroup>
        ))}
        {options(other)}
      </select>
    </span>
  );
}
