import type { Series } from "./evolution-types.ts";

/** What a column of the table is a curve of. */
export type SeriesHead = Omit<Series, "values">;

/** Figures of many moments: one row of plain numbers a moment, one column a figure. */
export interface SeriesTable {
  /** An empty row. */
  readonly row: () => number[];
  /** Put a figure into a row; its column is made, with this head, where there is none yet. null: not known. */
  readonly note: (row: number[], id: string, head: () => Omit<SeriesHead, "id">, value: number | null) => void;
  readonly ids: () => readonly string[];
  /** null: not known at that moment, or does not apply then. */
  readonly value: (row: readonly number[], id: string) => number | null;
  /** The curve of one figure over rows in order; null: no such figure. */
  readonly series: (rows: readonly (readonly number[])[], id: string) => Series | null;
}

/** Rows stay plain numbers, with NaN for what is not known, so that a sweep of many moments leaves little behind; no NaN is handed out. */
export function seriesTable(): SeriesTable {
  const heads: SeriesHead[] = [];
  const columns = new Map<string, number>();
  const at = (row: readonly number[], column: number): number | null => {
    const value = row[column] ?? Number.NaN;
    return Number.isNaN(value) ? null : value;
  };
  return {
    row: () => heads.map(() => Number.NaN),
    note(row, id, head, value) {
      let column = columns.get(id);
      if (column === undefined) {
        column = heads.length;
        columns.set(id, column);
        heads.push({ id, ...head() });
      }
      while (row.length <= column) row.push(Number.NaN);
      row[column] = value ?? Number.NaN;
    },
    ids: () => heads.map((h) => h.id),
    value(row, id) {
      const column = columns.get(id);
      return column === undefined ? null : at(row, column);
    },
    series(rows, id) {
      const column = columns.get(id);
      const head = column === undefined ? undefined : heads[column];
      return column === undefined || !head ? null : { ...head, values: rows.map((row) => at(row, column)) };
    },
  };
}
