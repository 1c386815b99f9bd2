import { polygonArea } from "@gantline/engine";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { hatchLines } from "./hatch-lines.ts";

const SEED = 20261125;
const FRAME = { widthPx: 1000, heightPx: 800, originPx: [120, 640] } as const;

/** A star-shaped outline about the middle of the sheet, convex or not. */
const outline = fc
  .array(fc.double({ min: 60, max: 350, noNaN: true }), { minLength: 4, maxLength: 12 })
  .map((radii) =>
    radii.map((r, i): readonly [number, number] => [
      500 + r * Math.cos((2 * Math.PI * i) / radii.length),
      400 + r * Math.sin((2 * Math.PI * i) / radii.length),
    ]),
  );

describe("hatchLines", () => {
  // Cavalieri: lines a step apart, times the step, make the area; the error is that of a mean ordinate rule.
  it("fills an outline: length of the lines times their step is its area", () => {
    fc.assert(
      fc.property(outline, (ring) => {
        const length = hatchLines("cut", [ring], FRAME).reduce(
          (sum, [p, q]) => sum + Math.hypot(q[0] - p[0], q[1] - p[1]),
          0,
        );
        expect(length * 6.5).toBeGreaterThan(0.93 * polygonArea(ring));
        expect(length * 6.5).toBeLessThan(1.07 * polygonArea(ring));
      }),
      { seed: SEED },
    );
  });

  // Cavalieri again: what a hole takes away is its area.
  it("leaves a hole in an outline free", () => {
    fc.assert(
      fc.property(outline, (ring) => {
        const hole = ring.map(([x, y]) => [500 + (x - 500) / 2, 400 + (y - 400) / 2] as const);
        const long = (rings: readonly (readonly (readonly [number, number])[])[]) =>
          hatchLines("tint6", rings, FRAME).reduce((sum, [p, q]) => sum + Math.hypot(q[0] - p[0], q[1] - p[1]), 0);
        expect(long([ring, hole]) / long([ring])).toBeCloseTo(0.75, 1);
      }),
      { seed: SEED },
    );
  });

  it("moves with the drawing: the same lines, all shifted", () => {
    fc.assert(
      fc.property(outline, fc.integer({ min: -40, max: 40 }), (ring, by) => {
        const moved = hatchLines("roof", [ring.map(([x, y]) => [x + by, y] as const)], {
          ...FRAME,
          originPx: [120 + by, 640],
        });
        const still = hatchLines("roof", [ring], FRAME);
        expect(moved.length).toBe(still.length);
        for (const [i, [p]] of moved.entries()) expect(p[0] - (still[i]?.[0][0] ?? 0)).toBeCloseTo(by, 6);
      }),
      { seed: SEED },
    );
  });

  it("draws no more lines than the sheet has room for, however large the outline", () => {
    const huge = [
      [-1e6, -1e6],
      [1e6, -1e6],
      [1e6, 1e6],
      [-1e6, 1e6],
    ] as const;
    for (const hatch of ["cut", "roof", "roofOther", "keepOut", "water", "parking", "gap"] as const) {
      const lines = hatchLines(hatch, [huge], FRAME);
      expect(lines.length).toBeLessThan(6000);
      for (const [p, q] of lines)
        expect(Math.max(Math.abs(p[0]), Math.abs(q[0]), Math.abs(p[1]), Math.abs(q[1]))).toBeLessThan(5000);
    }
  });

  it("hangs earth under the ground line, whichever way it is drawn", () => {
    for (const line of [
      [
        [0, 300],
        [1000, 300],
      ],
      [
        [1000, 300],
        [0, 300],
      ],
    ] as const) {
      const strokes = hatchLines("earth", [line], FRAME);
      expect(strokes.length).toBeGreaterThan(20);
      for (const [p, q] of strokes) expect([p[1], q[1] > 300]).toEqual([300, true]);
    }
  });

  it("points the ticks of a gap inward, whichever way round its outline runs", () => {
    const square = [
      [300, 300],
      [600, 300],
      [600, 600],
      [300, 600],
    ] as const;
    for (const ring of [square, [...square].reverse()]) {
      for (const [, q] of hatchLines("gap", [ring], FRAME)) expect(q.every((v) => v >= 300 && v <= 600)).toBe(true);
    }
  });
});
