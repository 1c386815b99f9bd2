import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { convexHull } from "../shared/convex-hull.ts";
import { forceScaleNPerM, roundUp125 } from "../shared/force-scale.ts";
import { clipSegment } from "./clip-segment.ts";
import { shiftLine } from "./shift-line.ts";

const SEED = 20261125;
const coordinate = fc.double({ min: -100, max: 100, noNaN: true });
/** A thousandth of a metre: no two places nearer than that but not the same. */
const cell = fc.integer({ min: -9000, max: 9000 }).map((n) => n / 1000);
const point = fc.tuple(coordinate, coordinate);

describe("clipSegment", () => {
  it("keeps exactly the points of the segment that lie in the box", () => {
    fc.assert(
      fc.property(point, point, fc.double({ min: 0, max: 1, noNaN: true }), (p, q, t) => {
        const part = clipSegment(p, q, -30, -20, 40, 50);
        const [x, y] = [p[0] + (q[0] - p[0]) * t, p[1] + (q[1] - p[1]) * t];
        const inside = x > -30 + 1e-9 && x < 40 - 1e-9 && y > -20 + 1e-9 && y < 50 - 1e-9;
        if (part === null) {
          expect(inside).toBe(false);
          return;
        }
        const [a, b] = part;
        for (const [ex, ey] of part) {
          expect(ex).toBeGreaterThanOrEqual(-30 - 1e-9);
          expect(ex).toBeLessThanOrEqual(40 + 1e-9);
          expect(ey).toBeGreaterThanOrEqual(-20 - 1e-9);
          expect(ey).toBeLessThanOrEqual(50 + 1e-9);
        }
        const between =
          Math.hypot(x - a[0], y - a[1]) + Math.hypot(x - b[0], y - b[1]) - Math.hypot(b[0] - a[0], b[1] - a[1]);
        if (inside) expect(between).toBeLessThan(1e-6);
      }),
      { seed: SEED, numRuns: 500 },
    );
  });
});

describe("convexHull", () => {
  it("turns one way only and leaves no point outside", () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(cell, cell), { minLength: 3, maxLength: 20 }), (points) => {
        const hull = convexHull(points);
        hull.forEach((a, i) => {
          const b = hull[(i + 1) % hull.length] ?? a;
          for (const p of points)
            expect((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])).toBeGreaterThan(-1e-9);
        });
      }),
      { seed: SEED },
    );
  });
});

describe("shiftLine", () => {
  it("moves every straight part sideways by the distance asked for", () => {
    const shifted = shiftLine(
      [
        [0, 0],
        [100, 0],
        [100, 80],
        [160, 140],
      ],
      3,
    );
    // Left of a line drawn to the right is up on the sheet, of one drawn down is right.
    expect(shifted[0]).toEqual([0, -3]);
    expect(shifted[1]).toEqual([103, -3]);
    const [a, b] = [shifted[2] ?? [0, 0], shifted[3] ?? [0, 0]];
    const off = ((b[0] - a[0]) * (80 - a[1]) - (b[1] - a[1]) * (100 - a[0])) / Math.hypot(b[0] - a[0], b[1] - a[1]);
    expect(Math.abs(off)).toBeCloseTo(3, 9);
  });
});

describe("force scale", () => {
  it("is 1, 2 or 5 times a power of ten, and the smallest such that is not below", () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-6, max: 1e9, noNaN: true }), (value) => {
        const round = roundUp125(value);
        const lead = Number(round.toExponential(6).split("e")[0]);
        expect([1, 2, 5]).toContain(lead);
        expect(round).toBeGreaterThanOrEqual(value * (1 - 1e-9));
        expect(round).toBeLessThan(value * 2.5 * (1 + 1e-9));
      }),
      { seed: SEED },
    );
  });

  it("is finite without forces", () => {
    expect(forceScaleNPerM(0, 30, "metric")).toBe(1000);
    expect(roundUp125(Number.NaN)).toBe(1);
  });
});
