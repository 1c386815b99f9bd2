import { DEGREE_RAD, FOOT_M, type Quantity, type UnitSystem } from "@gantline/plan";
import { roundUp125 } from "../shared/force-scale.ts";
import { figureOf, fits, type StandCells } from "./stand-cells.ts";

/** What a map can show. `room`: how far the turntable may be off before a place does not fit, m. */
export const MAP_FIGURES = ["steepest", "shortest", "leastUsed", "clearest", "room"] as const;
export type MapFigure = (typeof MAP_FIGURES)[number];

export interface MapFigureWords {
  readonly quantity: Quantity;
  /** In the key, before the figures. */
  readonly word: string;
  readonly moreIsBetter: boolean;
}

export const MAP_FIGURE_WORDS: Readonly<Record<MapFigure, MapFigureWords>> = {
  steepest: { quantity: "angle", word: "steepest elevation", moreIsBetter: true },
  shortest: { quantity: "length", word: "shortest ladder", moreIsBetter: false },
  leastUsed: { quantity: "ratio", word: "least used of the rated load", moreIsBetter: false },
  clearest: { quantity: "length", word: "most clearance beyond what is asked", moreIsBetter: true },
  room: { quantity: "length", word: "room to be parked off", moreIsBetter: true },
};

/** The figure at every cell of the grid, row by row; NaN where the place does not fit or it is not known. */
export function figureField(cells: StandCells, figure: MapFigure): Float64Array {
  const { columns, rows } = cells.grid;
  if (figure === "room") return roomField(cells);
  const field = new Float64Array(columns * rows);
  for (let cell = 0; cell < field.length; cell++) {
    const found = cells.at(cell);
    field[cell] = (found && fits(found) ? figureOf(found, figure) : null) ?? Number.NaN;
  }
  return field;
}

/**
 * How far from each place that fits lies the nearest that does not, or the grid's edge, m? To the middle of that cell.
 *
 * Exact: up and down each column first, then along each row as far as what is found so far lets it look.
 */
function roomField({ grid, at }: StandCells): Float64Array {
  const { columns, rows, cellM } = grid;
  const fitting = Uint8Array.from({ length: columns * rows }, (_, cell) => {
    const found = at(cell);
    return found !== null && fits(found) ? 1 : 0;
  });
  const up = new Int32Array(columns * rows);
  for (let column = 0; column < columns; column++) {
    let run = 0;
    for (let row = 0; row < rows; row++) {
      const cell = row * columns + column;
      run = fitting[cell] ? run + 1 : 0;
      up[cell] = run;
    }
    run = 0;
    for (let row = rows - 1; row >= 0; row--) {
      const cell = row * columns + column;
      run = fitting[cell] ? run + 1 : 0;
      up[cell] = Math.min(up[cell] as number, run);
    }
  }
  return Float64Array.from({ length: columns * rows }, (_, cell) => {
    if (!fitting[cell]) return Number.NaN;
    const column = cell % columns;
    let squared = (up[cell] as number) ** 2;
    for (let off = 1; off * off < squared; off++) {
      const left = column - off < 0 ? 0 : (up[cell - off] as number);
      const right = column + off >= columns ? 0 : (up[cell + off] as number);
      squared = Math.min(squared, off * off + Math.min(left, right) ** 2);
    }
    return Math.sqrt(squared) * cellM;
  });
}

/** At most so many steps, so that each can have a tint of its own. */
const MOST_LEVELS = 5;

/** Round figures of the reader's unit between the least and the most of a field, rising, SI: where contours run. */
export function figureLevels(field: Float64Array, quantity: Quantity, system: UnitSystem): readonly number[] {
  let least = Number.MAX_VALUE;
  let most = -Number.MAX_VALUE;
  for (const value of field) {
    if (Number.isNaN(value)) continue;
    least = Math.min(least, value);
    most = Math.max(most, value);
  }
  const unit = quantity === "angle" ? DEGREE_RAD : quantity === "length" && system === "imperial" ? FOOT_M : 1;
  const span = (most - least) / unit;
  if (!(span > 1e-6)) return [];
  const step = roundUp125(span / MOST_LEVELS);
  const first = Math.floor(least / unit / step) + 1;
  const last = Math.ceil(most / unit / step) - 1;
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, k) => (first + k) * step * unit);
}

/** How many levels a value has reached. */
export const levelOf = (levels: readonly number[], value: number): number =>
  levels.filter((level) => value >= level).length;
