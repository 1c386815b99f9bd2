import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { site, type Triple, UP } from "../../base/vector.ts";
import { clearance } from "../../scene/clearance.ts";
import { extrudedOutline, orientedBox, type Shape, sphere } from "../../scene/solids.ts";
import { boxToPlane, boxToShape, type Measure, nearestApproach, type Way } from "./nearest-approach.ts";

const HALF: Triple = [1, 0.4, 0.3];
const boxAt = ([x, y, z]: Triple) => orientedBox(site(x, y, z), [site(1, 0, 0), site(0, 1, 0), UP], HALF);

/** An L in plan, a box askew, a ball. */
const SHAPES: readonly Shape[] = [
  extrudedOutline(
    [
      [0, 0],
      [6, 0],
      [6, 1],
      [1, 1],
      [1, 5],
      [0, 5],
    ],
    0,
    4,
  ),
  orientedBox(site(2, 1, 3), [site(0.6, 0.8, 0), site(-0.8, 0.6, 0), UP], [3, 0.5, 0.5]),
  sphere(site(2, 2, 2), 0.5),
];

/** Swings: what a load does on a rope. */
const ways = fc
  .record({
    middle: fc.tuple(...[0, 0, 0].map(() => fc.double({ min: -3, max: 9, noNaN: true }))),
    swing: fc.array(fc.double({ min: -4, max: 4, noNaN: true }), { minLength: 6, maxLength: 6 }),
    count: fc.integer({ min: 1, max: 60 }),
  })
  .map(({ middle, swing, count }): Way => {
    const timesS = Array.from({ length: count }, (_, i) => 0.1 * i);
    const along = (t: number, c: number): number =>
      middle[c]! + swing[c]! * Math.cos(1.3 * t) + swing[3 + c]! * Math.sin(2.1 * t);
    return { timesS, placesM: timesS.flatMap((t) => [0, 1, 2].map((c) => along(t, c))) };
  });

/** The same by measuring everywhere: a box made anew at each place. */
const leastOf = ({ timesS, placesM }: Way, distanceAt: (at: Triple) => number): number =>
  Math.min(...timesS.map((_, i) => distanceAt([placesM[3 * i]!, placesM[3 * i + 1]!, placesM[3 * i + 2]!])));

describe("where a load comes nearest", () => {
  it("is no farther than at any place of its way, measured one by one with a box made anew", () => {
    fc.assert(
      fc.property(ways, fc.constantFrom(...SHAPES), (way, shape) => {
        const found = nearestApproach(way, boxToShape(HALF, shape));
        expect(found.distanceM).toBeLessThanOrEqual(leastOf(way, (at) => clearance(boxAt(at), shape).distanceM) + 2e-9);
        expect(found.distanceM).toBeCloseTo(clearance(boxAt(found.load), shape).distanceM, 9);
      }),
      { seed: 51, numRuns: 150 },
    );
  });

  it("asks little of something convex, and no more than two places of a plane and those beside the nearest", () => {
    fc.assert(
      fc.property(ways, (way) => {
        const asked = { box: 0, plane: 0 };
        const counted =
          (of: keyof typeof asked, measure: Measure): Measure =>
          (at) => {
            asked[of]++;
            return measure(at);
          };
        nearestApproach(way, counted("box", boxToShape(HALF, SHAPES[1]!)));
        const ground = { pointM: [0, 0, -20] as Triple, normal: UP, inner: false };
        const near = nearestApproach(way, counted("plane", boxToPlane(HALF, ground)));
        expect(asked.plane).toBeLessThanOrEqual(2 + 6);
        expect(asked.box).toBeLessThanOrEqual(20);
        // By hand: the lowest place, less half the box.
        const lowest = Math.min(...way.placesM.filter((_, i) => i % 3 === 2));
        expect(near.distanceM).toBeLessThanOrEqual(lowest - HALF[2] + 20 + 1e-9);
      }),
      { seed: 51, numRuns: 100 },
    );
  });
});
