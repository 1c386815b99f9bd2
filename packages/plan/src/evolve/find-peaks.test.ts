import { describe, expect, it } from "vitest";
import { PEAK_WITHIN, type Sample, whereToLook } from "./find-peaks.ts";

/** Looks until told to stop, and gives the highest value seen. The curves and their peaks are closed forms. */
function highestOf(curve: (along: number) => number | null, steps: number, piece = (_: number): number => 0) {
  const sample = (along: number): Sample => ({ along, value: curve(along), piece: piece(along) });
  const samples = Array.from({ length: steps + 1 }, (_, k) => sample(k / steps));
  for (let looks = 0; ; looks++) {
    const look = whereToLook(samples);
    if (look === null || looks === 100)
      return { looks, highest: Math.max(...samples.map((s) => s.value ?? Number.NEGATIVE_INFINITY)) };
    samples.splice(
      samples.findIndex((s) => s.along > look.along),
      0,
      sample(look.along),
    );
  }
}
const bump = (at: number, high: number, wide: number) => (x: number) => high / (1 + ((x - at) / wide) ** 2);

describe("whereToLook", () => {
  it("finds the higher of two tops that lies between lower samples", () => {
    // Samples at tenths see 0.97 of the left top and only 0.77 of the right one, which is higher.
    const [left, right] = [bump(0.21, 1, 0.06), bump(0.75, 1.1, 0.08)];
    const { highest } = highestOf((x) => Math.max(left(x), right(x)), 10);
    expect(highest).toBeGreaterThan(1.1 * (1 - PEAK_WITHIN));
  });

  it.each([
    ["a kink inside", (x: number) => 2 - 3 * Math.abs(x - 0.437), 2],
    ["a kink in the first step", (x: number) => 2 - 3 * Math.abs(x - 0.031), 2],
    ["a kink in the last step", (x: number) => 2 - 3 * Math.abs(x - 0.977), 2],
    ["a round top", (x: number) => 1 + Math.sin(Math.PI * x), 2],
    ["a distance's reciprocal, cut off nowhere", (x: number) => 0.3 / Math.hypot(x - 0.63, 0.05), 6],
  ])("closes in on %s", (_, curve, top) => {
    const { highest, looks } = highestOf(curve, 8);
    expect(highest).toBeGreaterThan(top * 0.99);
    expect(looks).toBeLessThan(15);
  });

  it("goes on to the end of where a figure is known", () => {
    const { highest } = highestOf((x) => (x < 0.33 ? 1 + x : null), 8);
    expect(highest).toBeGreaterThan(1.33 * 0.99);
  });

  it("does not take a jump between two pieces for a slope", () => {
    const { looks } = highestOf(
      (x) => (x < 0.5 ? 1 : 2),
      8,
      (x) => (x < 0.5 ? 0 : 1),
    );
    expect(looks).toBe(0);
  });

  it("looks nowhere where nothing is known or nothing rises above nothing", () => {
    expect(whereToLook([])).toBeNull();
    expect(whereToLook([0, 0.5, 1].map((along) => ({ along, value: null })))).toBeNull();
    expect(whereToLook([0, 0.5, 1].map((along) => ({ along, value: 0 })))).toBeNull();
  });
});
