import fc from "fast-check";
import polygonClipping, { type MultiPolygon, type Polygon } from "polygon-clipping";
import { describe, expect, it } from "vitest";
import { insideOutline, type Outline, type PlanPoint, polygonArea } from "./outline.ts";
import { BESIDE_M } from "./outline-cells.ts";
import { overlapPoint, uncoveredPoint } from "./outline-cover.ts";

const rectangle = (x: number, y: number, width: number, depth: number): Outline => [
  [x, y],
  [x + width, y],
  [x + width, y + depth],
  [x, y + depth],
];
const truck = rectangle(-1, -4, 2, 8);

describe("an outline on grounds, by hand", () => {
  it("is covered by ground round it, and by ground that ends where it does", () => {
    expect(uncoveredPoint(truck, [rectangle(-5, -5, 10, 10)])).toBeNull();
    expect(uncoveredPoint(truck, [truck])).toBeNull();
    expect(uncoveredPoint(truck, [[...truck].reverse()])).toBeNull();
  });

  it("is covered by two grounds side by side, and not with a strip of a hand's width left between them", () => {
    expect(uncoveredPoint(truck, [rectangle(-5, -5, 10, 5), rectangle(-5, 0, 10, 5)])).toBeNull();
    const [x, y] = uncoveredPoint(truck, [rectangle(-5, -5, 10, 5), rectangle(-5, 0.1, 10, 5)]) ?? [99, 99];
    expect(Math.abs(x)).toBeLessThan(1);
    expect(y).toBeGreaterThan(0);
    expect(y).toBeLessThan(0.1);
  });

  it("is not covered where a notch leads in between its corners", () => {
    const notched: Outline = [
      [-5, -5],
      [5, -5],
      [5, 5],
      [-5, 5],
      [-5, 1],
      [0.5, 1],
      [0.5, -1],
      [-5, -1],
    ];
    expect(truck.every((corner) => insideOutline(notched, corner))).toBe(true);
    const [x, y] = uncoveredPoint(truck, [notched]) ?? [99, 99];
    expect([x > -1 && x < 0.5, y > -1 && y < 1]).toEqual([true, true]);
  });

  it("is covered by nothing", () => {
    expect(uncoveredPoint(truck, [])).not.toBeNull();
    expect(uncoveredPoint(truck, [rectangle(10, 10, 5, 5)])).not.toBeNull();
  });
});

describe("two outlines over each other, by hand", () => {
  it("one within the other, either way, and one over itself", () => {
    const trench = rectangle(-0.3, -1, 0.6, 2);
    expect(insideOutline(trench, overlapPoint(truck, trench) ?? [99, 99])).toBe(true);
    expect(insideOutline(trench, overlapPoint(trench, truck) ?? [99, 99])).toBe(true);
    expect(overlapPoint(truck, truck)).not.toBeNull();
  });

  it("a trench straight across, with no corner of either in the other", () => {
    expect(overlapPoint(truck, rectangle(-9, -0.5, 18, 1))).not.toBeNull();
  });

  it("sides or corners that touch are not over each other", () => {
    expect(overlapPoint(truck, rectangle(1, -4, 2, 8))).toBeNull();
    expect(overlapPoint(truck, rectangle(1, 4, 2, 2))).toBeNull();
    expect(overlapPoint(truck, rectangle(3, 0, 1, 1))).toBeNull();
  });
});

/** Star-shaped about a middle, so that it never crosses itself; corners on halves of a metre, so that sides often lie on each other. */
const star = fc
  .record({
    middle: fc.tuple(fc.integer({ min: -3, max: 3 }), fc.integer({ min: -3, max: 3 })),
    points: fc.array(fc.tuple(fc.integer({ min: -8, max: 8 }), fc.integer({ min: -8, max: 8 })), {
      minLength: 3,
      maxLength: 10,
    }),
  })
  .map(({ middle, points }): Outline => {
    const angle = ([x, y]: PlanPoint): number => Math.atan2(y, x);
    const sorted = points.filter(([x, y]) => x !== 0 || y !== 0).sort((a, b) => angle(a) - angle(b));
    return sorted
      .filter((p, i) => i === 0 || angle(p) - angle(sorted[i - 1] as PlanPoint) > 1e-9)
      .map(([x, y]): PlanPoint => [middle[0] + x / 2, middle[1] + y / 2]);
  })
  .filter((o) => o.length >= 3 && polygonArea(o) > 0.1);
const simple = star.filter((o) => {
  const [only, ...more] = polygonClipping.union([ringOf(o)] as Polygon);
  return more.length === 0 && only?.length === 1 && Math.abs(areaOf([only]) - polygonArea(o)) < 1e-9;
});
function ringOf(outline: Outline): [number, number][] {
  return outline.map(([x, y]) => [x, y]);
}
const areaOf = (found: MultiPolygon): number =>
  found.reduce(
    (sum, [outer, ...holes]) =>
      sum + polygonArea(outer ?? []) - holes.reduce((inner, hole) => inner + polygonArea(hole), 0),
    0,
  );

describe("agrees with polygon-clipping 0.15.7, a general-purpose library", () => {
  // Slivers narrower than BESIDE_M may be missed: over some 10 m they have less area than this.
  const SLIVER_M2 = 20 * BESIDE_M;

  it("on whether some of an outline is left uncovered", () => {
    const seen = { covered: 0, bare: 0 };
    fc.assert(
      fc.property(simple, fc.array(simple, { minLength: 1, maxLength: 4 }), fc.boolean(), (outline, others, itself) => {
        const covers = itself ? [...others, outline] : others;
        const [first, ...rest] = covers.map((c): Polygon => [ringOf(c)]);
        const left = areaOf(polygonClipping.difference([ringOf(outline)], first as Polygon, ...rest));
        const found = uncoveredPoint(outline, covers);
        if (left > SLIVER_M2) expect(found).not.toBeNull();
        if (left < 1e-9) expect(found).toBeNull();
        if (found) {
          expect(insideOutline(outline, found)).toBe(true);
          expect(covers.some((c) => insideOutline(c, found))).toBe(false);
        }
        seen[found ? "bare" : "covered"]++;
      }),
      { seed: 71, numRuns: 1500 },
    );
    expect(Math.min(seen.covered, seen.bare)).toBeGreaterThan(200);
  });

  it("on whether two outlines lie over each other", () => {
    const seen = { over: 0, apart: 0 };
    const away = fc.integer({ min: 0, max: 12 });
    fc.assert(
      fc.property(simple, simple, away, (a, b, by) => {
        const moved = b.map(([x, y]): PlanPoint => [x + by, y]);
        const both = areaOf(polygonClipping.intersection([ringOf(a)], [ringOf(moved)]));
        const found = overlapPoint(a, moved);
        if (both > SLIVER_M2) expect(found).not.toBeNull();
        if (both < 1e-9) expect(found).toBeNull();
        seen[found ? "over" : "apart"]++;
      }),
      { seed: 72, numRuns: 1500 },
    );
    expect(Math.min(seen.over, seen.apart)).toBeGreaterThan(200);
  });
});
