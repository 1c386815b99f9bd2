import { passCells } from "@gantline/engine";
import { expect, it } from "vitest";
import { standJobs } from "./stand-jobs.ts";

const grid = (columns: number, rows: number) => ({ westM: 0, southM: 0, cellM: 0.5, columns, rows });

it("looks at every place of every grid once, all grids coarse before any is fine, in short jobs", () => {
  for (const [columns, rows] of [
    [28, 42],
    [240, 160],
    [1, 9],
    [500, 1],
    [3, 3],
  ] as const) {
    const grids = [grid(columns, rows), grid(columns, rows)];
    const jobs = standJobs(grids);
    for (const question of [0, 1]) {
      const cells = jobs
        .filter((job) => job.question === question)
        .flatMap((job) => [...passCells(grid(columns, rows), job.fromRow, job.toRow, job.pass)]);
      expect(new Set(cells).size).toBe(cells.length);
      expect(cells.length).toBe(columns * rows);
    }
    expect(jobs.reduce((sum, job) => sum + job.cells, 0)).toBe(2 * columns * rows);
    const strides = jobs.map(({ pass }) => pass.stride);
    expect(strides).toEqual([...strides].sort((a, b) => b - a));
    for (const { cells } of jobs) expect(cells).toBeLessThanOrEqual(Math.max(160, columns));
  }
  expect(standJobs([grid(0, 0)])).toEqual([]);
});
