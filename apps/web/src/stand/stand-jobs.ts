import { passCells, STAND_PASSES, type StandGrid, type StandPass } from "@gantline/engine";

/** One piece of a search: some rows of the grid, for one of the questions. */
export interface StandJob {
  /** Which of the questions. */
  readonly question: number;
  readonly pass: StandPass;
  readonly fromRow: number;
  readonly toRow: number;
  /** How many places are looked at. */
  readonly cells: number;
}

/** Few enough that a job is short against the time in which a stop must be kept. */
const CELLS_A_JOB = 80;

/** The jobs of a search, coarse to fine: every question at one fineness before any at the next. Rows without cells are left out. */
export function standJobs(
  grids: readonly StandGrid[],
  passes: readonly StandPass[] = STAND_PASSES,
): readonly StandJob[] {
  return passes.flatMap((pass) =>
    grids.flatMap((grid, question) => {
      const jobs: StandJob[] = [];
      const rowCells = Math.max(1, Math.ceil(grid.columns / pass.stride));
      const rows = pass.stride * Math.max(1, Math.round(CELLS_A_JOB / rowCells));
      for (let fromRow = 0; fromRow < grid.rows; fromRow += rows) {
        const toRow = Math.min(grid.rows, fromRow + rows);
        const cells = passCells(grid, fromRow, toRow, pass).length;
        if (cells > 0) jobs.push({ question, pass, fromRow, toRow, cells });
      }
      return jobs;
    }),
  );
}
