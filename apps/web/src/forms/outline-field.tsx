import { AmountField } from "./amount-field.tsx";
import { RowTable } from "./row-table.tsx";

type Corner = readonly number[];

/** Corners of an outline, or points of a wire, as a table. A new one lies between the last and the first. */
export function OutlineField({
  path,
  title = "Outline",
  one = "corner",
  axes = 2,
  least = 3,
  most = 500,
}: {
  readonly path: string;
  readonly title?: string;
  readonly one?: string;
  readonly axes?: 2 | 3;
  readonly least?: number;
  readonly most?: number;
}) {
  const names = ["east", "north", "up"].slice(0, axes);
  return (
    <RowTable<Corner>
      path={path}
      title={title}
      one={one}
      columns={names}
      most={most}
      least={least}
      make={(all) => (axes === 2 ? between(all.at(-1), all[0]) : beyond(all.at(-2), all.at(-1)))}
      cells={(row, index) =>
        names.map((name, axis) => (
          <AmountField
            key={name}
            bare
            path={`${row}[${axis}]`}
            label={`${one} ${index + 1}, ${name}`}
            quantity="length"
          />
        ))
      }
    />
  );
}

const between = (a: Corner = [0, 0], b: Corner = [0, 0]): Corner => a.map((one, axis) => (one + (b[axis] ?? 0)) / 2);
const beyond = (a: Corner = [0, 0, 0], b: Corner = [1, 0, 0]): Corner => b.map((one, axis) => 2 * one - (a[axis] ?? 0));
