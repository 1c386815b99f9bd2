import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  distanceToOutlineM,
  type Outline,
  outlineCrossesItself,
  type PlanPoint,
  pointInPolygon,
  polygonArea,
  signedAreaM2,
  tidyOutline,
} from "./outline.ts";

const notch: Outline = [
  [0, 0],
  [30, 0],
  [30, 10],
  [20, 10],
  [20, 5],
  [10, 5],
  [10, 10],
  [0, 10],
];

/** A polygon on whole-number points, star-shaped about the origin, so that it never crosses itself. */
const lattice = fc
  .array(fc.tuple(fc.integer({ min: -12, max: 12 }), fc.integer({ min: -12, max: 12 })), {
    minLength: 3,
    maxLength: 14,
  })
  .map((points) => {
    const angle = ([x, y]: PlanPoint): number => Math.atan2(y, x);
    const byAngle = points.filter(([x, y]) => x !== 0 || y !== 0).sort((a, b) => angle(a) - angle(b));
    return byAngle.filter((p, i) => i === 0 || angle(p) - angle(byAngle[i - 1] as PlanPoint) > 1e-9) as Outline;
  })
  .filter((outline) => {
    if (outline.length < 3) return false;
    // Every turn about the origin under half a circle: the origin is then inside and the outline simple.
    return outline.every(([x, y], i) => {
      const [u, v] = outline[(i + 1) % outline.length] as PlanPoint;
      return x * v - y * u > 0;
    });
  });
const gcd = (a: number, b: number): number => (b === 0 ? Math.abs(a) : gcd(b, a % b));

describe("outline", () => {
  it("area of an outline with a notch, by hand", () => {
    expect(polygonArea(notch)).toBe(250);
    expect(signedAreaM2(notch)).toBe(250);
    expect(signedAreaM2([...notch].reverse())).toBe(-250);
    expect(polygonArea([])).toBe(0);
  });

  it("area and containment together obey Pick's theorem: A = I + B/2 − 1", () => {
    fc.assert(
      fc.property(lattice, (outline) => {
        let onSides = 0;
        outline.forEach(([x, y], i) => {
          const [u, v] = outline[(i + 1) % outline.length] as PlanPoint;
          onSides += gcd(u - x, v - y);
        });
        let within = 0;
        for (let x = -12; x <= 12; x++) for (let y = -12; y <= 12; y++) if (pointInPolygon(outline, [x, y])) within++;
        expect(polygonArea(outline)).toBeCloseTo(within - onSides + onSides / 2 - 1, 9);
      }),
      { seed: 71, numRuns: 100 },
    );
  });

  it("counts a point on a side or corner as within, also in the notch", () => {
    expect(pointInPolygon(notch, [15, 5])).toBe(true);
    expect(pointInPolygon(notch, [20, 7])).toBe(true);
    expect(pointInPolygon(notch, [15, 5 + 1e-6])).toBe(false);
    expect(pointInPolygon(notch, [15, 7])).toBe(false);
    expect(pointInPolygon(notch, [25, 10])).toBe(true);
    expect(pointInPolygon(notch, [35, 10])).toBe(false);
    expect(pointInPolygon([], [0, 0])).toBe(false);
  });

  it("distance to the nearest side, by hand", () => {
    expect(distanceToOutlineM(notch, [15, 8])).toBe(3);
    expect(distanceToOutlineM(notch, [33, 14])).toBe(5);
    expect(distanceToOutlineM(notch, [5, 5])).toBe(5);
  });

  it("tidies direction, repeated points and a closing point", () => {
    const untidy: Outline = [
      [0, 0],
      [0, 0],
      [0, 2],
      [2, 2],
      [2, 0],
      [0, 0],
    ];
    expect(signedAreaM2(tidyOutline(untidy))).toBe(4);
    expect(tidyOutline(untidy)).toHaveLength(4);
  });

  it("sees an outline that crosses or touches itself", () => {
    expect(outlineCrossesItself(notch)).toBe(false);
    expect(
      outlineCrossesItself([
        [0, 0],
        [2, 2],
        [2, 0],
        [0, 2],
      ]),
    ).toBe(true);
    expect(
      outlineCrossesItself([
        [0, 0],
        [4, 0],
        [4, 4],
        [2, 0],
        [0, 4],
      ]),
    ).toBe(true);
    expect(
      outlineCrossesItself([
        [0, 0],
        [1, 0],
        [0, 1],
      ]),
    ).toBe(false);
  });
});
