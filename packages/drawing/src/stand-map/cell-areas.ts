import type { WorldPoint } from "../primitives.ts";

/** The cells of one kind as outlines: round them anticlockwise, round the holes in them clockwise. */
export interface CellArea {
  readonly kind: number;
  readonly rings: readonly (readonly WorldPoint[])[];
}

/** East, north, west, south. */
const STEPS = [
  [1, 0],
  [0, 1],
  [-1, 0],
  [0, -1],
] as const;

/**
 * Which outlines hold the cells of each kind? In cells from the grid's south-west corner; kinds below 0 are left out.
 *
 * Cells that touch in a corner only are kept apart. Cost: linear in cells for each kind there is.
 *
 * @param kinds row by row from the south-west, `columns` a row
 */
export function cellAreas(kinds: ArrayLike<number>, columns: number): readonly CellArea[] {
  const rows = columns > 0 ? Math.floor(kinds.length / columns) : 0;
  const wide = columns + 1;
  const there = new Set<number>();
  for (let cell = 0; cell < rows * columns; cell++) if ((kinds[cell] ?? -1) >= 0) there.add(kinds[cell] as number);
  return [...there]
    .sort((a, b) => a - b)
    .map((kind) => {
      const has = (column: number, row: number): boolean =>
        column >= 0 && row >= 0 && column < columns && row < rows && kinds[row * columns + column] === kind;
      const edges = new Uint8Array(wide * (rows + 1));
      const lay = (column: number, row: number, step: number): void => {
        edges[row * wide + column] = (edges[row * wide + column] ?? 0) | (1 << step);
      };
      for (let row = 0; row < rows; row++) {
        for (let column = 0; column < columns; column++) {
          if (!has(column, row)) continue;
          if (!has(column, row - 1)) lay(column, row, 0);
          if (!has(column + 1, row)) lay(column + 1, row, 1);
          if (!has(column, row + 1)) lay(column + 1, row + 1, 2);
          if (!has(column - 1, row)) lay(column, row + 1, 3);
        }
      }
      return { kind, rings: ringsOf(edges, wide) };
    });
}

/** Walks the edges, each once, turning left where there is a choice: corners only. */
function ringsOf(edges: Uint8Array, wide: number): readonly (readonly WorldPoint[])[] {
  const rings: WorldPoint[][] = [];
  for (let from = 0; from < edges.length; from++) {
    while (edges[from] !== 0) {
      const ring: WorldPoint[] = [];
      let at = from;
      let step = -1;
      for (;;) {
        const next = nextStep(edges[at] ?? 0, step);
        if (next < 0) break;
        if (next !== step) ring.push([at % wide, Math.floor(at / wide)]);
        edges[at] = (edges[at] ?? 0) & ~(1 << next);
        step = next;
        const [dx, dy] = STEPS[step] as (typeof STEPS)[number];
        at += dx + dy * wide;
      }
      rings.push(ring);
    }
  }
  return rings;
}

function nextStep(open: number, step: number): number {
  const turns = step < 0 ? [0, 1, 2, 3] : [step + 1, step, step + 3];
  return turns.map((turn) => turn % 4).find((turn) => open & (1 << turn)) ?? -1;
}
