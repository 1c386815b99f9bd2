import type { StandQuestion } from "./stand-question.ts";

/** The turntable places looked at: middles of square cells over the box round all parking ground, rows from south to north. */
export interface StandGrid {
  /** South-west corner of the first cell, m. */
  readonly westM: number;
  readonly southM: number;
  readonly cellM: number;
  readonly columns: number;
  readonly rows: number;
}

/** The grid a question is answered on; without parking ground it has no cells. */
export function standGrid({ parking, steps }: Pick<StandQuestion, "parking" | "steps">): StandGrid {
  const { cellM } = steps;
  const points = parking.flatMap((p) => p.outline);
  if (points.length === 0) return { westM: 0, southM: 0, cellM, columns: 0, rows: 0 };
  const least = (k: 0 | 1): number => points.reduce((m, p) => Math.min(m, p[k]), Number.MAX_VALUE);
  const most = (k: 0 | 1): number => points.reduce((m, p) => Math.max(m, p[k]), -Number.MAX_VALUE);
  const count = (k: 0 | 1): number => Math.max(1, Math.ceil((most(k) - least(k)) / cellM - 1e-9));
  return { westM: least(0), southM: least(1), cellM, columns: count(0), rows: count(1) };
}

/** Where a cell's turntable place lies, m. */
export function cellMiddle(grid: StandGrid, cell: number): readonly [number, number] {
  const row = Math.floor(cell / grid.columns);
  const column = cell - row * grid.columns;
  return [grid.westM + (column + 0.5) * grid.cellM, grid.southM + (row + 0.5) * grid.cellM];
}

/** One pass over the grid: every `stride`-th row and column, without the places that passes before it looked at. */
export interface StandPass {
  /** ≥ 1. */
  readonly stride: number;
  /** Stride of the passes that came before; `null` for the first. */
  readonly after: number | null;
}

/** From coarse to fine, each cell once. */
export const STAND_PASSES: readonly StandPass[] = [
  { stride: 8, after: null },
  { stride: 4, after: 8 },
  { stride: 2, after: 4 },
  { stride: 1, after: 2 },
];

/** Every cell at once. */
export const WHOLE_PASS: StandPass = { stride: 1, after: null };

/** Cells that a pass looks at within rows `fromRow` up to but without `toRow`, row by row. */
export function passCells(grid: StandGrid, fromRow: number, toRow: number, { stride, after }: StandPass): Uint32Array {
  const cells: number[] = [];
  const first = Math.max(0, Math.ceil(fromRow / stride) * stride);
  for (let row = first; row < Math.min(toRow, grid.rows); row += stride) {
    for (let column = 0; column < grid.columns; column += stride) {
      if (after !== null && row % after === 0 && column % after === 0) continue;
      cells.push(row * grid.columns + column);
    }
  }
  return Uint32Array.from(cells);
}
