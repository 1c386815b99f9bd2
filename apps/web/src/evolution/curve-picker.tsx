import type { Series } from "@gantline/plan";
import { useId } from "react";
import { WORST } from "./curves.ts";

const KINDS = [
  ["force", "Forces"],
  ["length", "Lengths and clearances"],
  ["ratio", "Checks, ratio"],
] as const;

interface Props {
  readonly series: readonly Series[];
  readonly chosen: string;
  readonly choose: (id: string) => void;
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
      <select id={id} value={chosen} onChange={(event) => choose(event.target.value)}>
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
