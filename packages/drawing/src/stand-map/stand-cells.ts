import {
  STAND_PASSES,
  type StandBand,
  type StandFigure,
  type StandGrid,
  type StandQuestion,
  standStatusAt,
} from "@gantline/engine";

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

/** Each pass halves the stride of the one before. */
const COARSEST = Math.max(...STAND_PASSES.map(({ stride }) => stride));

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
  /** Where each cell's answer lies: its own, or that of the smallest block it is in that has one. */
  const placeOf = new Int32Array(count).fill(-1);
  for (let row = 0; row < grid.rows; row++) {
    for (let column = 0; column < grid.columns; column++) {
      for (let stride = 1; stride <= COARSEST; stride *= 2) {
        const place = (row - (row % stride)) * grid.columns + column - (column % stride);
        if (bandOf[place] === -1) continue;
        placeOf[row * grid.columns + column] = place;
        break;
      }
    }
  }
  const at = (cell: number): StandFound | null => {
    const place = placeOf[cell] ?? -1;
    const band = bands[bandOf[place] ?? -1];
    return band === undefined ? null : { question, band, entry: entryOf[place] as number };
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
