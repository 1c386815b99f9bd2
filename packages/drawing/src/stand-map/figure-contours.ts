import type { StandGrid } from "@gantline/engine";
import { contours } from "d3-contour";
import type { WorldPoint } from "../primitives.ts";

export interface FigureContour {
  readonly level: number;
  /** Open and closed lines, m. */
  readonly lines: readonly (readonly WorldPoint[])[];
}

/**
 * Along which lines does a figure stand at each level?
 *
 * Marching squares between the middles of cells, straight between them. A line ends where the figure does (NaN), as it does
 * at the grid's edge.
 *
 * @param field row by row from the south-west, one value a cell
 */
export function figureContours(
  { columns, rows, cellM, westM, southM }: StandGrid,
  field: Float64Array,
  levels: readonly number[],
): readonly FigureContour[] {
  if (columns < 2 || rows < 2 || levels.length === 0) return [];
  const known = (column: number, row: number): boolean => !Number.isNaN(field[row * columns + column] ?? Number.NaN);
  /** Between the middles of two cells that both have the figure. */
  const sound = ([x, y]: readonly [number, number]): boolean => {
    if (x <= 0 || y <= 0 || x >= columns || y >= rows) return false;
    const [left, low] = [Math.floor(x - 0.5), Math.floor(y - 0.5)];
    const [right, high] = [Math.ceil(x - 0.5), Math.ceil(y - 0.5)];
    const alone = left === right && low === high;
    const around = alone
      ? ([
          [left - 1, low],
          [left + 1, low],
          [left, low - 1],
          [left, low + 1],
        ] as const)
      : ([
          [left, low],
          [right, high],
        ] as const);
    return around.every(([column, row]) => known(column, row));
  };
  return contours()
    .size([columns, rows])
    .thresholds([...levels])([...field])
    .map(({ value, coordinates }) => ({
      level: value,
      lines: coordinates
        .flat()
        .flatMap((ring) => soundRuns(ring as [number, number][], sound))
        .map((line) => line.map(([x, y]): WorldPoint => [westM + x * cellM, southM + y * cellM])),
    }));
}

/** What is left of a closed ring (its first point given again at its end) when unsound points are taken out: runs of two points or more. */
function soundRuns<P>(ring: readonly P[], sound: (point: P) => boolean): readonly (readonly P[])[] {
  const open = ring.slice(0, -1);
  const gap = open.findIndex((point) => !sound(point));
  if (gap < 0) return [ring];
  const runs: P[][] = [[]];
  for (const point of [...open.slice(gap), ...open.slice(0, gap)]) {
    if (sound(point)) (runs.at(-1) as P[]).push(point);
    else if (runs.at(-1)?.length !== 0) runs.push([]);
  }
  return runs.filter((run) => run.length > 1);
}
