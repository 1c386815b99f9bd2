import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { site } from "../base/vector.ts";
import { cutOutlineByVerticalPlane, cutSolidByVerticalPlane } from "./cut-by-vertical-plane.ts";
import { distanceToOutlineM, pointInPolygon } from "./outline.ts";
import { extrudedOutline } from "./solids.ts";

const notch = [
  [0, 0],
  [30, 0],
  [30, 10],
  [20, 10],
  [20, 5],
  [10, 5],
  [10, 10],
  [0, 10],
] as const;
/** To a tenth of a millimetre (or of a milliradian). */
const number = (min: number, max: number) => fc.integer({ min: min * 1e4, max: max * 1e4 }).map((n) => n / 1e4);

describe("cutOutlineByVerticalPlane", () => {
  it("gives each part cut, in order, by hand", () => {
    expect(cutOutlineByVerticalPlane(notch, [-5, 7], Math.PI / 2)).toEqual(
      [
        [5, 15],
        [25, 35],
      ].map((s) => s.map((v) => expect.closeTo(v, 9))),
    );
    expect(cutOutlineByVerticalPlane(notch, [15, 20], Math.PI)).toEqual([
      [expect.closeTo(15, 9), expect.closeTo(20, 9)],
    ]);
    expect(cutOutlineByVerticalPlane(notch, [0, 11], Math.PI / 2)).toEqual([]);
  });
  it("cuts a side that lies in the plane from one way only", () => {
    const east = cutOutlineByVerticalPlane(notch, [0, 0], Math.PI / 2);
    const west = cutOutlineByVerticalPlane(notch, [0, 0], -Math.PI / 2);
    expect([east.length, west.length].sort()).toEqual([0, 1]);
  });
  it("holds exactly the points of the section line that are within", () => {
    fc.assert(
      fc.property(number(-5, 35), number(-5, 15), number(0, 6.28), number(-40, 40), (x, y, bearing, s) => {
        const cuts = cutOutlineByVerticalPlane(notch, [x, y], bearing);
        const point = [x + s * Math.sin(bearing), y + s * Math.cos(bearing)] as const;
        fc.pre(distanceToOutlineM(notch, point) > 1e-6);
        const within = pointInPolygon(notch, point);
        expect(cuts.some(([a, b]) => a < s && s < b)).toBe(within);
      }),
      { seed: 91, numRuns: 1000 },
    );
  });
});

describe("cutSolidByVerticalPlane", () => {
  it("runs round each part of an extruded outline", () => {
    const solid = extrudedOutline(notch, 1, 9);
    fc.assert(
      fc.property(number(1, 29), number(0.5, 9.5), number(0, 6.28), (x, y, bearing) => {
        const lines = cutSolidByVerticalPlane(solid, site(x, y, 0), bearing);
        const parts = cutOutlineByVerticalPlane(notch, [x, y], bearing);
        const length = lines.reduce((sum, [p, q]) => sum + Math.hypot(p[0] - q[0], p[1] - q[1]), 0);
        expect(length).toBeCloseTo(
          parts.reduce((sum, [a, b]) => sum + 2 * (b - a) + 16, 0),
          6,
        );
        for (const p of lines.flat()) expect(p[1] >= 1 - 1e-9 && p[1] <= 9 + 1e-9).toBe(true);
      }),
      { seed: 92, numRuns: 200 },
    );
  });
});
