import { mean, median, std } from "mathjs";
import { expect, test } from "vitest";
import { measure, summarise } from "./measure.ts";

test("the summary agrees with mathjs", () => {
  const timesMs = [4, 1, 9, 2, 7, 3, 8, 5, 6];
  const summary = summarise(timesMs);
  expect(summary.minMs).toBe(1);
  expect(summary.meanMs).toBeCloseTo(mean(timesMs), 12);
  expect(summary.deviationMs).toBeCloseTo(Number(std(timesMs, "uncorrected")), 12);
  expect(summary.medianMs).toBe(median(timesMs));
  expect(summary.p95Ms).toBe(9);
  expect(summary.runs).toBe(9);
});

test("calls are warmed first, then numbered from zero", () => {
  const calls: number[] = [];
  const { runs } = measure((call) => calls.push(call), { warmup: 3, minTimeMs: 0 });
  expect(calls.slice(0, 5)).toEqual([0, 1, 2, 0, 1]);
  expect(runs).toBe(10);
  expect(calls.length).toBe(13);
});
