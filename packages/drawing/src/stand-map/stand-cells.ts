import { type StandBand, type StandFigure, type StandGrid, type StandQuestion, standStatusAt } from "@gantline/engine";

/** What a search has found so far for one question. */
export interface StandLayer {
  readonly question: StandQuestion;
  readonly bands: readonly StandBand[];
}

/** What is known of one turntable place: the entry of a band, and the question it answers. */
export interface StandFound {
  readonly question: StandQuestion;
  readonly band: StandBand;
  readonly entry: number;
}

/** The whole grid at the fineness reached so far. */
export interface StandCells {
  readonly grid: StandGrid;
  readonly questions: readonly StandQuestion[];
  /** Every cell was looked at itself. */
  readonly complete: boolean;
  /** Of a place not yet looked at itself, what was found in the block it lies in; `null`: nothing yet. */
  readonly at: (cell: number) => StandFound | null;
}

/** Strides of the passes that come before the last, finest first. */
const COARSE = [2, 4, 8];

/**
 * Lays out what was found over the grid. Of several questions on one grid (several places to serve from one stand), each
 * cell shows the one that is hardest to meet.
 */
export function standCells(grid: StandGrid, layers: readonly StandLayer[]): StandCells {
  const laid = layers.map((layer) => layOut(grid, layer));
  return {
    grid,
    questions: layers.map(({ question }) => question),
    complete: laid.length > 0 && laid.every(({ looked }) => looked === grid.columns * grid.rows),
    at: (cell) => {
      let worst: StandFound | null = null;
      for (const { at } of laid) {
        const found = at(cell);
        if (found === null) return null;
        if (worst === null || hardness(found) > hardness(worst)) worst = found;
      }
      return worst;
    },
  };
}

function layOut(grid: StandGrid, { question, bands }: StandLayer) {
  const count = grid.columns * grid.rows;
  const bandOf = new Int32Array(count).fill(-1);
  const entryOf = new Int32Array(count);
  let looked = 0;
  bands.forEach((band, b) => {
    for (const [entry, cell] of band.cells.entries()) {
      if (cell >= count) continue;
      if (bandOf[cell] === -1) looked++;
      bandOf[cell] = b;
      entryOf[cell] = entry;
    }
  });
  const at = (cell: number): StandFound | null => {
    const row = Math.floor(cell / grid.columns);
    const column = cell - row * grid.columns;
    for (const stride of [1, ...COARSE]) {
      const place = (row - (row % stride)) * grid.columns + column - (column % stride);
      const band = bands[bandOf[place] ?? -1];
      if (band !== undefined) return { question, band, entry: entryOf[place] as number };
    }
    return null;
  };
  return { looked, at };
}

export const fits = ({ band, entry }: StandFound): boolean => standStatusAt(band, entry) === "feasible";

/** The best of a place by a figure; `null` where no pose there has it. */
export function figureOf({ band, entry }: StandFound, figure: StandFigure): number | null {
  const { candidate, figure: values } = band.best[figure];
  return (candidate[entry] ?? -1) < 0 ? null : (values[entry] ?? null);
}

/** Rejected is harder than unknown, unknown than feasible; then by how far from passing. */
const hardness = ({ band, entry }: StandFound): number => 1000 * (band.status[entry] ?? 0) + (band.miss[entry] ?? 0);
