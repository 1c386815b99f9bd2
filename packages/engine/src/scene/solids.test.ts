import { describe, expect, it } from "vitest";
import { cross, dot, norm, site, subtract } from "../base/vector.ts";
import { pointInSolid } from "./point-in-solid.ts";
import { boxAlong, extrudedOutline, orientedBox, type Solid } from "./solids.ts";

/** Volume by the divergence theorem; positive only when every side faces outward. */
const volume = (solid: Solid): number =>
  solid.faces.reduce((sum, { loop }) => {
    const first = loop[0] ?? site(0, 0, 0);
    let part = 0;
    for (let i = 1; i + 1 < loop.length; i++) part += dot(first, cross(loop[i] ?? first, loop[i + 1] ?? first)) / 6;
    return sum + part;
  }, 0);

const L = [
  [20, 0],
  [40, 0],
  [40, 10],
  [30, 10],
  [30, 30],
  [20, 30],
] as const;

describe("solids", () => {
  it("have sides that face outward, whichever way round they are given", () => {
    expect(volume(extrudedOutline(L, 2, 17))).toBeCloseTo(400 * 15, 6);
    expect(volume(extrudedOutline([...L].reverse(), 17, 2))).toBeCloseTo(400 * 15, 6);
    const axes = [site(0.6, 0.8, 0), site(-0.8, 0.6, 0), site(0, 0, 1)] as const;
    expect(volume(orientedBox(site(5, 5, 5), axes, [1, 2, 3]))).toBeCloseTo(48, 9);
    expect(volume(orientedBox(site(5, 5, 5), [axes[1], axes[0], axes[2]], [1, 2, 3]))).toBeCloseTo(48, 9);
  });

  it("obey Euler: vertices − edges + sides = 2", () => {
    for (const s of [
      extrudedOutline(L, 0, 1),
      boxAlong(site(0, 0, 0), site(0, 0, 9), site(1, 0, 0), site(0, 1, 0), 1, 2),
    ]) {
      expect(s.vertices.length - s.edges.length + s.faces.length).toBe(2);
    }
  });

  it("put a box round the line of a beam", () => {
    const s = boxAlong(site(0, 0, 2), site(0, 20, 2), site(1, 0, 0), site(0, 0, 1), 1, 0.6);
    expect(s.bounds.min.map((v) => +v.toFixed(9))).toEqual([-0.5, 0, 1.7]);
    expect(s.bounds.max.map((v) => +v.toFixed(9))).toEqual([0.5, 20, 2.3]);
    for (const [p, q] of s.edges)
      expect([1, 0.6, 20].some((l) => Math.abs(norm(subtract(p, q)) - l) < 1e-9)).toBe(true);
  });

  it("refuse an outline of two points", () => {
    expect(() =>
      extrudedOutline(
        [
          [0, 0],
          [1, 0],
          [1, 0],
        ],
        0,
        1,
      ),
    ).toThrow(RangeError);
  });

  it("know what is within, in the crook of an L and level with its roof too", () => {
    const s = extrudedOutline(L, 0, 15);
    for (const [x, y, z, within] of [
      [25, 20, 5, true],
      [35, 5, 14.9, true],
      [35, 20, 5, false],
      [35, 20, 15, false],
      [35, 20, 0, false],
      [30.001, 10.001, 7, false],
      [25, 20, 16, false],
      [10, 20, 5, false],
    ] as const) {
      expect(pointInSolid(s, site(x, y, z)), `${x},${y},${z}`).toBe(within);
    }
  });

  it("are not fooled by a point level with a roof, in the crook of its outline", () => {
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
    for (const [x, y] of [
      [6, 8],
      [5, 11],
      [7, 5],
    ] as const) {
      for (const z of [0, 4, 8]) expect(pointInSolid(courtyard, site(x, y, z)), `${x},${y},${z}`).toBe(false);
    }
  });
});
