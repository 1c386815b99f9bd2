import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { add, addScaled, cross, distance, dot, type SiteVector, scale, site, subtract, unit } from "../base/vector.ts";
import { boxDistanceSquared } from "./bounds.ts";
import { clearance, shapeBounds } from "./clearance.ts";
import { nearestOf } from "./nearest-of.ts";
import { pointInPolygon } from "./outline.ts";
import { pointInSolid } from "./point-in-solid.ts";
import { capsule, extrudedOutline, orientedBox, polyline, type Shape, type Solid } from "./solids.ts";

type Axes = readonly [SiteVector, SiteVector, SiteVector];
interface Box {
  readonly centre: SiteVector;
  readonly axes: Axes;
  readonly half: readonly [number, number, number];
}

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const tenths = (min: number, max: number) => fc.integer({ min, max }).map((n) => n / 10);
const vector = (r: number) => fc.tuple(number(-r, r), number(-r, r), number(-r, r)).map(([x, y, z]) => site(x, y, z));
/** Any turn: by bearing, elevation and roll. */
const axes: fc.Arbitrary<Axes> = fc.tuple(number(0, 6.3), number(-1.6, 1.6), number(0, 6.3)).map(([b, e, r]) => {
  const u = site(Math.cos(e) * Math.sin(b), Math.cos(e) * Math.cos(b), Math.sin(e));
  const level = site(Math.cos(b), -Math.sin(b), 0);
  const v = add(scale(level, Math.cos(r)), scale(cross(u, level), Math.sin(r)));
  return [u, v, cross(u, v)] as const;
});
const boxes: fc.Arbitrary<Box> = fc.record({
  centre: vector(8),
  axes,
  half: fc.tuple(number(0.2, 3), number(0.2, 3), number(0.2, 3)),
});
const solidOf = (b: Box): Solid => orientedBox(b.centre, b.axes, b.half);

const clamp = (x: number, h: number): number => Math.min(h, Math.max(-h, x));
/** Nearest point of a solid box to a point: the obvious clamp along each axis. */
const ontoBox = (b: Box, p: SiteVector): SiteVector =>
  b.axes.reduce(
    (sum, axis, i) => addScaled(sum, axis, clamp(dot(axis, subtract(p, b.centre)), b.half[i] as number)),
    b.centre,
  );
const ontoSegment = (a: SiteVector, c: SiteVector, p: SiteVector): SiteVector => {
  const along = subtract(c, a);
  return addScaled(a, along, Math.min(1, Math.max(0, dot(along, subtract(p, a)) / (dot(along, along) || 1))));
};

/** A convex body: the hull of some points, everything within a radius of it, and the obvious nearest point of the hull. */
interface Body {
  readonly shape: Shape;
  readonly corners: readonly SiteVector[];
  readonly radius: number;
  readonly onto: (p: SiteVector) => SiteVector;
}
const boxBody = (box: Box): Body => {
  const shape = solidOf(box);
  return { shape, corners: shape.vertices, radius: 0, onto: (p) => ontoBox(box, p) };
};
const capsules: fc.Arbitrary<Body> = fc.tuple(vector(8), vector(8), number(0, 1.5)).map(([p, q, radius]) => ({
  shape: capsule(p, q, radius),
  corners: [p, q],
  radius,
  onto: (x) => ontoSegment(p, q, x),
}));
const bodies = fc.oneof(boxes.map(boxBody), capsules);

/**
 * Proof of a distance between convex bodies, independent of how it was found: the two points belong to the bodies, so it
 * is no more; and the planes square to the line between them have the bodies on their far sides, so it is no less.
 * (Separation of convex sets; any text on convex analysis.)
 */
function proves(a: Body, b: Body): number {
  const got = clearance(a.shape, b.shape);
  expect(got.touching).toBe(got.distanceM === 0);
  expect(distance(got.a, got.b)).toBeCloseTo(got.distanceM, 9);
  expect(distance(a.onto(got.a), got.a)).toBeLessThan(a.radius + 1e-8);
  expect(distance(b.onto(got.b), got.b)).toBeLessThan(b.radius + 1e-8);
  if (got.touching) return 0;
  const toward = unit(subtract(got.b, got.a));
  for (const v of a.corners) expect(dot(toward, subtract(v, got.a))).toBeLessThan(1e-7 - a.radius);
  for (const v of b.corners) expect(dot(toward, subtract(v, got.b))).toBeGreaterThan(b.radius - 1e-7);
  return got.distanceM;
}

describe("clearance of convex bodies, each answer proved", () => {
  it("boxes and capsules", () => {
    let apart = 0;
    fc.assert(
      fc.property(bodies, bodies, (a, b) => {
        if (proves(a, b) > 0) apart++;
      }),
      { seed: 81, numRuns: 1500 },
    );
    // Both kinds of answer were met.
    expect(apart).toBeGreaterThan(300);
    expect(apart).toBeLessThan(1450);
  });
});

describe("clearance of a body that is not convex", () => {
  const up: Axes = [site(1, 0, 0), site(0, 1, 0), site(0, 0, 1)];
  const halves: Box[] = [
    { centre: site(0, -3, 0), axes: up, half: [5, 2, 3] },
    { centre: site(-3, 2, 0), axes: up, half: [2, 3, 3] },
  ];
  const L = extrudedOutline(
    [
      [-5, -5],
      [5, -5],
      [5, -1],
      [-1, -1],
      [-1, 5],
      [-5, 5],
    ],
    -3,
    3,
  );
  const small = fc.record({ centre: vector(7), axes, half: fc.tuple(number(0.1, 1), number(0.1, 1), number(0.1, 1)) });

  it("an L-shaped building and a body: the nearer of the L's two halves", () => {
    fc.assert(
      fc.property(fc.oneof(small.map(boxBody), capsules), (body) => {
        const expected = Math.min(...halves.map((half) => proves(boxBody(half), body)));
        expect(clearance(L, body.shape).distanceM).toBeCloseTo(expected, 8);
        expect(clearance(body.shape, L).distanceM).toBeCloseTo(expected, 8);
      }),
      { seed: 84, numRuns: 500 },
    );
  });
});

describe("clearance, cases by hand", () => {
  const wall = extrudedOutline(
    [
      [0, 0],
      [10, 0],
      [10, 1],
      [0, 1],
    ],
    0,
    8,
  );
  const courtyard = extrudedOutline(
    [
      [0, 0],
      [12, 0],
      [12, 12],
      [8, 12],
      [8, 4],
      [4, 4],
      [4, 12],
      [0, 12],
    ],
    0,
    8,
  );

  it("a point in front of a wall, over it, off its corner", () => {
    const to = (x: number, y: number, z: number): number => clearance(polyline([site(x, y, z)]), wall).distanceM;
    expect(to(5, -2, 4)).toBeCloseTo(2, 12);
    expect(to(5, 0.5, 11)).toBeCloseTo(3, 12);
    expect(to(13, 5, 4)).toBeCloseTo(5, 12);
    expect(to(5, 0.5, 4)).toBe(0);
  });
  it("a line through a wall, with both ends outside, touches it", () => {
    const got = clearance(polyline([site(5, -3, 4), site(5, 4, 4)]), wall);
    expect(got).toMatchObject({ distanceM: 0, touching: true });
    expect(got.a).toEqual(got.b);
  });
  it("a load in a courtyard, level with the roof or below it, is outside and held by the nearest wall", () => {
    for (const z of [4, 8]) {
      expect(clearance(capsule(site(5.5, 9, z), site(5.5, 9, z), 0.5), courtyard).distanceM).toBeCloseTo(1, 12);
    }
  });
  it("a body swallowed whole touches, from either side", () => {
    const inside = orientedBox(site(2, 2, 4), [site(1, 0, 0), site(0, 1, 0), site(0, 0, 1)], [0.5, 0.5, 0.5]);
    expect(clearance(inside, courtyard).touching).toBe(true);
    expect(clearance(courtyard, inside).touching).toBe(true);
    expect(clearance(courtyard, polyline([site(2, 2, 4), site(2.1, 2, 4)])).touching).toBe(true);
  });
  it("two beams that cross in the air touch, though no corner lies in the other", () => {
    const along = (u: SiteVector, v: SiteVector) => orientedBox(site(0, 0, 5), [u, v, site(0, 0, 1)], [5, 0.2, 0.2]);
    expect(clearance(along(site(1, 0, 0), site(0, 1, 0)), along(site(0, 1, 0), site(1, 0, 0))).touching).toBe(true);
  });
  it("a flat plate has a distance, from above and beside", () => {
    const plate = extrudedOutline(
      [
        [0, 0],
        [4, 0],
        [4, 4],
        [0, 4],
      ],
      3,
      3,
    );
    expect(clearance(polyline([site(1, 1, 5)]), plate).distanceM).toBe(2);
    expect(clearance(polyline([site(7, 1, 7)]), plate).distanceM).toBe(5);
    expect(clearance(polyline([site(1, 1, 1), site(1, 1, 5)]), plate).touching).toBe(true);
  });
  it("parallel and degenerate segments", () => {
    const at = (p: SiteVector, q: SiteVector, r: SiteVector, s: SiteVector): number =>
      clearance(polyline([p, q]), polyline([r, s])).distanceM;
    expect(at(site(0, 0, 0), site(4, 0, 0), site(1, 3, 0), site(9, 3, 0))).toBe(3);
    expect(at(site(0, 0, 0), site(4, 0, 0), site(7, 4, 0), site(9, 4, 0))).toBe(5);
    expect(at(site(0, 0, 0), site(0, 0, 0), site(3, 4, 0), site(3, 4, 0))).toBe(5);
    expect(at(site(0, 0, 0), site(4, 0, 0), site(2, 0, 0), site(6, 0, 0))).toBe(0);
    // Three degrees off parallel, nearest in the middle of both.
    const [c, d] = [10 * Math.cos(0.05), 10 * Math.sin(0.05)];
    expect(at(site(-10, 0, 0), site(10, 0, 0), site(-c, -d, 2), site(c, d, 2))).toBeCloseTo(2, 12);
    // A billionth of a turn off parallel, crossing overhead.
    expect(at(site(-15, 0, 0), site(15, 0, 0), site(-15, -1e-8, 2), site(15, 1e-8, 2))).toBeCloseTo(2, 9);
  });
  it("refuses a polyline without points", () => {
    expect(() => clearance(polyline([]), wall)).toThrow(RangeError);
  });
});

describe("clearance, symmetry", () => {
  const shapes: fc.Arbitrary<(move: (p: SiteVector) => SiteVector) => Shape> = fc.oneof(
    boxes.map((b) => (move: (p: SiteVector) => SiteVector): Shape => {
      const origin = move(site(0, 0, 0));
      return orientedBox(move(b.centre), b.axes.map((a) => subtract(move(a), origin)) as unknown as Axes, b.half);
    }),
    fc.tuple(vector(8), vector(8), number(0, 1)).map(
      ([p, q, r]) =>
        (move: (p: SiteVector) => SiteVector): Shape =>
          capsule(move(p), move(q), r),
    ),
    fc.array(vector(8), { minLength: 1, maxLength: 4 }).map(
      (points) =>
        (move: (p: SiteVector) => SiteVector): Shape =>
          polyline(points.map(move)),
    ),
  );
  it("turning, moving or mirroring the site, or exchanging the two, changes nothing", () => {
    fc.assert(
      fc.property(shapes, shapes, axes, vector(50), fc.boolean(), (a, b, turn, shift, mirror) => {
        const move = (p: SiteVector): SiteVector =>
          add(shift, add(scale(turn[0], mirror ? -p[0] : p[0]), add(scale(turn[1], p[1]), scale(turn[2], p[2]))));
        const still = (p: SiteVector): SiteVector => p;
        const one = clearance(a(still), b(still));
        const moved = clearance(a(move), b(move));
        const exchanged = clearance(b(still), a(still));
        expect(moved.distanceM).toBeCloseTo(one.distanceM, 8);
        expect(exchanged.distanceM).toBeCloseTo(one.distanceM, 10);
      }),
      { seed: 85, numRuns: 400 },
    );
  });

  it("the nearest of many is the least of all, and no box lies farther than what it holds", () => {
    const still = (p: SiteVector): SiteVector => p;
    fc.assert(
      fc.property(shapes, fc.array(shapes, { maxLength: 8 }), (subject, others) => {
        const made = others.map((o) => o(still));
        const found = nearestOf(subject(still), made);
        if (made.length === 0) expect(found).toBeNull();
        if (made.length === 0) return;
        const all = made.map((o) => clearance(subject(still), o).distanceM);
        expect(found?.clearance.distanceM).toBeCloseTo(Math.min(...all), 10);
        made.forEach((o, i) => {
          const boxes = Math.sqrt(boxDistanceSquared(shapeBounds(subject(still)), shapeBounds(o)));
          expect(boxes).toBeLessThanOrEqual((all[i] ?? 0) + 1e-9);
        });
      }),
      { seed: 86, numRuns: 200, endOnFailure: true },
    );
  });

  it("an extruded outline holds what its outline holds, between its heights", () => {
    const outline = [
      [0, 0],
      [12, 0],
      [12, 12],
      [8, 12],
      [8, 4],
      [4, 4],
      [4, 12],
      [0, 12],
    ] as const;
    const solid = extrudedOutline(outline, 1, 9);
    fc.assert(
      fc.property(tenths(-20, 140), tenths(-20, 140), tenths(-10, 110), (x, y, z) => {
        const near =
          [0, 4, 8, 12].some((v) => Math.abs(x - v) < 1e-6 || Math.abs(y - v) < 1e-6) ||
          Math.abs(z - 1) < 1e-6 ||
          Math.abs(z - 9) < 1e-6;
        fc.pre(!near);
        expect(pointInSolid(solid, site(x, y, z))).toBe(pointInPolygon(outline, [x, y]) && z > 1 && z < 9);
      }),
      { seed: 87, numRuns: 500 },
    );
  });
});
