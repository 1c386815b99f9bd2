import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { bearingVector, cross, site, UP } from "../base/vector.ts";
import { type GroundPlane, groundZAt } from "./ground-plane.ts";
import { type Ground, groundPiece, heightOverGround } from "./height-over-ground.ts";
import { insideOutline, type Outline } from "./outline.ts";
import { boxAlong, orientedBox, type Solid } from "./solids.ts";

const level = (zM: number): GroundPlane => ({ xM: 0, yM: 0, zM, slopeRad: 0, downhillBearingRad: 0 });
const rectangle = (x: number, y: number, width: number, depth: number): Outline => [
  [x, y],
  [x + width, y],
  [x + width, y + depth],
  [x, y + depth],
];
const box = (x: number, y: number, bottom: number, width: number, depth: number): Solid =>
  orientedBox(site(x, y, bottom + 0.5), [site(1, 0, 0), site(0, 1, 0), UP], [width / 2, depth / 2, 0.5]);
const bare: Ground = { pieces: [], elseZM: 0 };

describe("height over the ground, by hand", () => {
  it("over level ground, on it and in it", () => {
    expect(heightOverGround(box(3, 4, 2, 1, 1), bare).heightM).toBe(2);
    expect(heightOverGround(box(3, 4, 0, 1, 1), bare).heightM).toBe(0);
    expect(heightOverGround(box(3, 4, -6.5, 1, 1), bare).heightM).toBe(-6.5);
  });

  it("over a slope: its uphill corner comes nearest", () => {
    // Rises 1 in 10 to the east, 0 at x = 0: under the east side at x = 2 it is 0.2 m high.
    const plane = { ...level(0), slopeRad: Math.atan(0.1), downhillBearingRad: (3 * Math.PI) / 2 };
    const bank: Ground = { pieces: [groundPiece("Bank", rectangle(-9, -9, 18, 18), plane)], elseZM: -3 };
    const found = heightOverGround(box(1, 0, 1, 2, 1), bank);
    expect(found.heightM).toBeCloseTo(0.8, 12);
    expect(found.at[0]).toBeCloseTo(2, 12);
    expect(found.over).toBe("Bank");
  });

  it("beside a bank, reaching over its edge with no corner of it", () => {
    // A spur of high ground 0.2 m wide comes in under the middle of a long box.
    const spur: Ground = { pieces: [groundPiece("Spur", rectangle(-0.1, -9, 0.2, 9), level(3))], elseZM: 0 };
    const found = heightOverGround(box(0, 0, 2.5, 4, 1), spur);
    expect(found.heightM).toBeCloseTo(-0.5, 12);
    expect(found.over).toBe("Spur");
    expect(heightOverGround(box(0, 0.6, 2.5, 4, 1), spur)).toMatchObject({ heightM: 2.5, over: null });
  });

  it("a post of ground under the middle of a box", () => {
    const post: Ground = { pieces: [groundPiece("Post", rectangle(-0.1, -0.1, 0.2, 0.2), level(2))], elseZM: 0 };
    expect(heightOverGround(box(0, 0, 2.3, 4, 4), post).heightM).toBeCloseTo(0.3, 12);
  });

  it("in a gap, and over the gap's edge", () => {
    const gap: Ground = { pieces: [groundPiece("Gap", rectangle(-2, -2, 4, 4), level(-3))], elseZM: 0 };
    expect(heightOverGround(box(0, 0, -2, 1, 1), gap)).toMatchObject({ heightM: 1, over: "Gap" });
    expect(heightOverGround(box(2, 0, -2, 1, 1), gap)).toMatchObject({ heightM: -2, over: null });
  });

  it("takes the first of two pieces that lie over each other", () => {
    const yard = groundPiece("Yard", rectangle(-9, -9, 18, 18), level(1));
    const pit = groundPiece("Pit", rectangle(-2, -2, 4, 4), level(-3));
    const body = box(0, 0, 2, 1, 1);
    expect(heightOverGround(body, { pieces: [pit, yard], elseZM: 0 }).heightM).toBe(5);
    expect(heightOverGround(body, { pieces: [yard, pit], elseZM: 0 }).heightM).toBe(1);
  });

  it("a ladder let down: the underside of its far end", () => {
    // From 2 m up, 20 m long, 7° down, 0.6 m deep: 2 − 20 sin 7° − 0.3 cos 7°.
    const down = (7 * Math.PI) / 180;
    const tip = site(0, 20 * Math.cos(down), 2 - 20 * Math.sin(down));
    const normal = site(0, Math.sin(down), Math.cos(down));
    const ladder = boxAlong(site(0, 0, 2), tip, site(1, 0, 0), normal, 0.8, 0.6);
    const yard: Ground = { pieces: [groundPiece("Yard", rectangle(-5, -5, 10, 10), level(0))], elseZM: 0 };
    const expected = 2 - 20 * Math.sin(down) - 0.3 * Math.cos(down);
    for (const ground of [bare, yard]) expect(heightOverGround(ladder, ground).heightM).toBeCloseTo(expected, 9);
  });

  it("a body thinner than anything that is looked at", () => {
    expect(heightOverGround(box(0, 0, 1, 1e-6, 1e-6), bare).heightM).toBe(1);
  });
});

describe("height over the ground, whatever the ground", () => {
  const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
  const body = fc
    .tuple(number(-3, 3), number(-3, 3), number(0, 6.3), number(-1.5, 1.5), number(0.3, 3), number(0.2, 1))
    .map(([x, y, bearing, elevation, long, wide]): Solid => {
      const flat = bearingVector(bearing);
      const across = cross(flat, UP);
      const along = site(flat[0] * Math.cos(elevation), flat[1] * Math.cos(elevation), Math.sin(elevation));
      return orientedBox(site(x, y, 3), [along, across, cross(across, along)], [long, wide, wide]);
    });
  const pieces = fc.array(
    fc
      .tuple(
        number(-4, 4),
        number(-4, 4),
        number(0.5, 5),
        number(0.5, 5),
        number(-2, 2),
        number(0, 0.6),
        number(0, 6.3),
      )
      .map(([x, y, width, depth, z, slopeRad, downhillBearingRad]) =>
        groundPiece("Piece", rectangle(x, y, width, depth), { ...level(z), slopeRad, downhillBearingRad }),
      ),
    { maxLength: 3 },
  );

  it("is never more than at any place of the underside, and is reached at the place named", () => {
    fc.assert(
      fc.property(
        body,
        pieces,
        fc.array(fc.tuple(number(0, 1), number(0, 1)), { minLength: 40, maxLength: 40 }),
        (solid, laid, places) => {
          const ground: Ground = { pieces: laid, elseZM: -1 };
          const found = heightOverGround(solid, ground);
          const groundAt = (x: number, y: number): number => {
            const piece = laid.find((p) => insideOutline(p.outline, [x, y]));
            return piece ? groundZAt(piece.plane, x, y) : -1;
          };
          let least = Number.MAX_VALUE;
          for (const { loop } of solid.faces) {
            const [o, p, , q] = loop;
            if (!o || !p || !q) throw new Error("a box has four-cornered sides");
            for (const [s, t] of places) {
              const [x, y, z] = [0, 1, 2].map(
                (k) => (o[k] ?? 0) + s * ((p[k] ?? 0) - (o[k] ?? 0)) + t * ((q[k] ?? 0) - (o[k] ?? 0)),
              ) as [number, number, number];
              least = Math.min(least, z - groundAt(x, y));
            }
          }
          expect(found.heightM).toBeLessThanOrEqual(least + 1e-9);
          // Close by the place named there is ground of the level that gives this height.
          const [x, y, z] = found.at;
          const levels = [0, 1, 2, 3, 4, 5, 6, 7].flatMap((k) =>
            [1e-5, 1e-4].map((r) => groundAt(x + r * Math.cos(k), y + r * Math.sin(k))),
          );
          expect(levels.some((g) => Math.abs(z - g - found.heightM) < 1e-3)).toBe(true);
        },
      ),
      { seed: 73, numRuns: 400 },
    );
  });
});
