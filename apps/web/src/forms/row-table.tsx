import type { ReactNode } from "react";
import { StageProblemAt } from "./stage-problem.tsx";
import { useList } from "./use-field.ts";

interface Props<T> {
  readonly path: string;
  readonly title: string;
  readonly one: string;
  readonly columns: readonly string[];
  readonly most: number;
  readonly least: number;
  readonly make: (items: readonly T[]) => T;
  readonly cells: (path: string, index: number) => readonly ReactNode[];
}

/** Rows of numbers: corners of an outline, bands of a rating table. */
export function RowTable<T>({ path, title, one, columns, most, least, make, cells }: Props<T>) {
  const { items, change } = useList<T>(path);
  return (
    <div className="rows" data-path={path}>
      <table>
        <caption>
          {title}
          {items.length === 0 && <span className="none"> None.</span>}
        </caption>
        <thead>
          <tr>
            <th scope="col">No.</th>
            {columns.map((column) => (
              <th key={column} scope="col">
                {column}
              </th>
            ))}
            <td />
          </tr>
        </thead>
        <tbody>
          {items.map((_, index) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: rows have no name but their number
            <tr key={index}>
              <th scope="row">{index + 1}</th>
              {cells(`${path}[${index}]`, index).map((cell, column) => (
                <td key={columns[column]}>{cell}</td>
              ))}
              <td>
                <StageProblemAt path={`${path}[${index}]`} />
                <button
                  type="button"
                  className="remove"
                  aria-label={`Remove ${one} ${index + 1}`}
                  disabled={items.length <= least}
                  onClick={() => change((all) => all.filter((__, at) => at !== index))}
                >
                  ×
                </button>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <StageProblemAt path={path} />
      <button
        type="button"
        className="add"
        disabled={items.length >= most}
        onClick={() => change((all) => [...all, make(all)])}
      >
        Add a {one}
      </button>
    </div>
  );
}
