import { pointInPolygon, polygonArea } from "@gantline/engine";
import { describe, expect, it } from "vitest";
import { convexParts } from "./convex-parts.ts";

const SQUARE = [
  [0, 0],
  [2, 0],
  [2, 2],
  [0, 2],
] as const;
const L = [
  [0, 0],
  [20, 0],
  [20, 10],
  [10, 10],
  [10, 30],
  [0, 30],
] as const;
const COMB = [
  [0, 0],
  [9, 0],
  [9, 6],
  [7, 6],
  [7, 1],
  [5, 1],
  [5, 6],
  [3, 6],
  [3, 2],
  [1, 2],
  [1, 6],
  [0, 6],
] as const;

describe("convex parts of an outline", () => {
  it("are the outline itself where it is convex, either way round", () => {
    for (const outline of [SQUARE, [...SQUARE].reverse()]) {
      const parts = convexParts(outline);
      expect(parts).toHaveLength(1);
      expect(parts[0]?.every((c) => !c.inner)).toBe(true);
    }
  });

  it.each([
    ["an L", L],
    ["an L, the other way round", [...L].reverse()],
    ["a comb", COMB],
  ])("cover %s once, and know which sides are its own", (_, outline) => {
    const parts = convexParts(outline);
    const plans = parts.map((p) => p.map((c) => c.at));
    // The shoelace formula: textbook.
    expect(plans.reduce((sum, p) => sum + polygonArea(p), 0)).toBeCloseTo(polygonArea(outline), 9);
    for (let x = 0.1317; x < 21; x += 0.7093)
      for (let y = 0.1733; y < 31; y += 0.8361)
        expect(plans.filter((p) => pointInPolygon(p, [x, y])).length).toBe(pointInPolygon(outline, [x, y]) ? 1 : 0);
    const around = (points: readonly (readonly [number, number])[]): number =>
      points.reduce((sum, [x, y], i) => {
        const [u, v] = points[(i + 1) % points.length] ?? [x, y];
        return sum + Math.hypot(u - x, v - y);
      }, 0);
    const own = parts.flatMap((p) =>
      p.map((c, i) => {
        const next = p[(i + 1) % p.length] ?? c;
        return c.inner ? 0 : Math.hypot(next.at[0] - c.at[0], next.at[1] - c.at[1]);
      }),
    );
    expect(own.reduce((a, b) => a + b, 0)).toBeCloseTo(around(outline), 9);
  });
});
