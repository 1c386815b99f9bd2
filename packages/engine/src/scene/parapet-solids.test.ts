import { describe, expect, it } from "vitest";
import { site } from "../base/vector.ts";
import { polygonArea } from "./outline.ts";
import { parapetSolids } from "./parapet-solids.ts";
import { pointInSolid } from "./point-in-solid.ts";

const L = [
  [0, 0],
  [20, 0],
  [20, 10],
  [10, 10],
  [10, 30],
  [0, 30],
] as const;

describe("parapetSolids", () => {
  it("cover the rim one thickness deep, corners and crook included, and nothing else", () => {
    for (const outline of [L, [...L].reverse()]) {
      const walls = parapetSolids(outline, 0.3, 12, 13);
      // By hand: the L less itself drawn in by 0.3 m all round.
      const inner = [
        [0.3, 0.3],
        [19.7, 0.3],
        [19.7, 9.7],
        [9.7, 9.7],
        [9.7, 29.7],
        [0.3, 29.7],
      ] as const;
      const plan = walls.map((w) => polygonArea(w.vertices.slice(0, 4).map(([x, y]) => [x, y] as const)));
      expect(plan.reduce((a, b) => a + b, 0)).toBeCloseTo(polygonArea(L) - polygonArea(inner), 9);
      const within = (x: number, y: number): boolean => walls.some((w) => pointInSolid(w, site(x, y, 12.5)));
      expect([within(5, 0.1), within(9.8, 9.79), within(9.9, 20), within(19.9, 0.05)]).toEqual([
        true,
        true,
        true,
        true,
      ]);
      expect([within(5, 0.4), within(10.1, 10.1), within(9.6, 9.6), within(-0.1, 5)]).toEqual([
        false,
        false,
        false,
        false,
      ]);
    }
  });
  it("stand even without thickness", () => {
    const walls = parapetSolids(L, 0, 12, 13);
    expect(walls).toHaveLength(6);
    expect(walls[0]?.bounds.max[1]).toBeCloseTo(0.001, 12);
  });
});
