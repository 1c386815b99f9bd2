import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { distance, type SiteVector, site } from "../base/vector.ts";
import { clearance } from "./clearance.ts";
import { nearestOf } from "./nearest-of.ts";
import { type Outline, outlineCrossesItself, type PlanPoint, pointInPolygon } from "./outline.ts";
import { parapetSolids } from "./parapet-solids.ts";
import { pointInSolid } from "./point-in-solid.ts";
import { capsule, extrudedOutline, orientedBox, polyline, type Shape } from "./solids.ts";

/** Spread evenly: a double drawn as such is mostly next to nothing. */
const number = (min: number, max: number) => fc.integer({ min: 0, max: 1e6 }).map((n) => min + (max - min) * (n / 1e6));
const vector = (r: number) => fc.tuple(number(-r, r), number(-r, r), number(-2, 14)).map(([x, y, z]) => site(x, y, z));

/** Corners at even bearings round the origin, each as far out as drawn: it never crosses itself. */
const star: fc.Arbitrary<Outline> = fc.array(number(3, 6), { minLength: 20, maxLength: 90 }).map((reach) =>
  reach.map((r, i): PlanPoint => {
    const turn = (2 * Math.PI * i) / reach.length;
    return [r * Math.cos(turn), r * Math.sin(turn)];
  }),
);
const turnedBox = fc.tuple(vector(10), number(0, 6.3), number(0.1, 6)).map(([centre, turn, half]): Shape => {
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  // On edge and long, as a ladder is: the box round it is mostly empty.
  const along = site(c * 0.6, s * 0.6, 0.8);
  const square = site(-c * 0.8, -s * 0.8, 0.6);
  return orientedBox(centre, [along, site(-s, c, 0), square], [half, 0.3, 0.4]);
});
const subjects: fc.Arbitrary<Shape> = fc.oneof(
  turnedBox,
  fc.tuple(vector(10), vector(10), number(0, 1)).map(([p, q, r]): Shape => capsule(p, q, r)),
  fc.array(vector(10), { minLength: 1, maxLength: 12 }).map((points): Shape => polyline(points)),
);

describe("a body of many sides", () => {
  it("is as far off as the nearest of the three-sided bodies round its middle that it is made of", () => {
    const seen = { apart: 0, touching: 0 };
    fc.assert(
      fc.property(star, subjects, (outline, subject) => {
        const whole = extrudedOutline(outline, 0, 8);
        const thirds = outline.map((p, i) =>
          extrudedOutline([[0, 0], p, outline[(i + 1) % outline.length] as PlanPoint], 0, 8),
        );
        const expected = Math.min(...thirds.map((third) => clearance(subject, third).distanceM));
        const found = clearance(subject, whole);
        expect(found.distanceM).toBeCloseTo(expected, 8);
        expect(clearance(whole, subject).distanceM).toBeCloseTo(expected, 8);
        expect(distance(found.a, found.b)).toBeCloseTo(found.distanceM, 8);
        seen[found.touching ? "touching" : "apart"]++;
      }),
      { seed: 91, numRuns: 200 },
    );
    expect(Math.min(seen.apart, seen.touching)).toBeGreaterThan(25);
  });
});

describe("the nearest of a long list", () => {
  it("is the least of all, or none where none is nearer than asked", () => {
    const seen = { apart: 0, touching: 0 };
    fc.assert(
      fc.property(star, subjects, number(0.1, 4), (outline, subject, withinM) => {
        const others = parapetSolids(outline, 0.3, 8, 9);
        const all = others.map((other) => clearance(subject, other).distanceM);
        const least = Math.min(...all);
        const found = nearestOf(subject, others);
        expect(found?.clearance.distanceM).toBeCloseTo(least, 9);
        expect(all[found?.index ?? -1]).toBeCloseTo(least, 9);
        const within = nearestOf(subject, others, withinM);
        if (least < withinM - 1e-9) expect(within?.clearance.distanceM).toBeCloseTo(least, 9);
        if (least > withinM + 1e-9) expect(within).toBeNull();
        seen[least === 0 ? "touching" : "apart"]++;
      }),
      { seed: 92, numRuns: 200 },
    );
    expect(Math.min(seen.apart, seen.touching)).toBeGreaterThan(25);
  });
});

describe("a solid", () => {
  it("is whole when written to a file, though its parts are made when first asked for", () => {
    const made = extrudedOutline(
      [
        [0, 0],
        [2, 0],
        [0, 2],
      ],
      0,
      1,
    );
    const copy = JSON.parse(JSON.stringify(made));
    expect([copy.vertices.length, copy.edges.length, copy.faces.length]).toEqual([6, 9, 5]);
    expect(made.faces).toBe(made.faces);
  });
});

/** Every pair of sides that share no corner, by the definitions of crossing and touching. */
function crossesByPairs(points: Outline): boolean {
  const n = points.length;
  const at = (i: number): PlanPoint => points[i % n] as PlanPoint;
  const turn = (a: PlanPoint, b: PlanPoint, c: PlanPoint): number =>
    Math.sign((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]));
  const between = (a: PlanPoint, b: PlanPoint, p: PlanPoint): boolean =>
    turn(a, b, p) === 0 &&
    [0, 1].every((k) => Math.min(a[k] ?? 0, b[k] ?? 0) <= (p[k] ?? 0) && (p[k] ?? 0) <= Math.max(a[k] ?? 0, b[k] ?? 0));
  for (let i = 0; i < n; i++) {
    for (let j = i + 2; j < n; j++) {
      if (i === 0 && j === n - 1) continue;
      const [a, b, c, d] = [at(i), at(i + 1), at(j), at(j + 1)];
      if (turn(a, b, c) * turn(a, b, d) < 0 && turn(c, d, a) * turn(c, d, b) < 0) return true;
      if (between(a, b, c) || between(a, b, d) || between(c, d, a) || between(c, d, b)) return true;
    }
  }
  return false;
}

describe("an outline that crosses itself", () => {
  // Whole numbers, whose products are exact: every crossing and every touch is one or none.
  const whole = fc.tuple(fc.integer({ min: -9, max: 9 }), fc.integer({ min: -9, max: 9 }));
  const drawn = fc.array(whole, { minLength: 3, maxLength: 9 });
  /** A long way round, east and back west, one corner of it moved: mostly simple, and crossing only near that corner. */
  const comb = fc.tuple(fc.integer({ min: 4, max: 40 }), fc.nat(), whole).map(([teeth, which, to]) => {
    const points = Array.from({ length: teeth }, (_, i): PlanPoint[] => [
      [4 * i, 0],
      [4 * i + 2, 8],
    ]).flat();
    const outline: PlanPoint[] = [...points, [4 * teeth, -5], [-4, -5]];
    const i = which % outline.length;
    const [x, y] = outline[i] as PlanPoint;
    outline[i] = [x + to[0], y + to[1]];
    return outline;
  });

  it("is seen as it is by going through all pairs of sides", () => {
    const seen = { crosses: 0, simple: 0 };
    fc.assert(
      fc.property(fc.oneof(drawn, comb), (points) => {
        const outline = points.filter((p, i) => String(p) !== String(points.at(i - 1)));
        fc.pre(outline.length >= 3);
        const expected = crossesByPairs(outline);
        expect(outlineCrossesItself(outline)).toBe(expected);
        expect(outlineCrossesItself(outline.map(([x, y]): PlanPoint => [y, x]))).toBe(expected);
        seen[expected ? "crosses" : "simple"]++;
      }),
      { seed: 93, numRuns: 2000 },
    );
    expect(Math.min(seen.crosses, seen.simple)).toBeGreaterThan(300);
  });

  it("is told by looking at each corner of a long outline some dozens of times, not at each pair of sides", () => {
    const corners = 4000;
    let looks = 0;
    const counted = Array.from({ length: corners }, (_, i): PlanPoint => {
      const turn = (2 * Math.PI * i) / corners;
      const r = i % 2 === 0 ? 30 : 30.05;
      const point: PlanPoint = [r * Math.cos(turn), r * Math.sin(turn)];
      return new Proxy(point, {
        get: (of, key) => {
          looks++;
          return Reflect.get(of, key);
        },
      });
    });
    expect(outlineCrossesItself(counted)).toBe(false);
    expect(looks).toBeLessThan(400 * corners);
  });
});

describe("a point and an outline of many corners", () => {
  it("is within where it is within the body over the outline", () => {
    fc.assert(
      fc.property(star, number(-7, 7), number(-7, 7), (outline, x, y) => {
        const at: SiteVector = site(x, y, 0.5);
        expect(pointInPolygon(outline, [x, y])).toBe(pointInSolid(extrudedOutline(outline, 0, 1), at));
      }),
      { seed: 94, numRuns: 300 },
    );
  });
});
