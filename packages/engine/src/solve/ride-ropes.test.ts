import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { angleBetween, asSite, distance, site, subtract } from "../base/vector.ts";
import { rideRopes } from "./ride-ropes.ts";
import { solveNetwork } from "./solve-network.ts";

const SEED = 33;
const tip = site(0, 9, 26);
const base = site(0, 0, 1);

describe("rideRopes", () => {
  it("finds Fermat's point of a triangle: three equal pulls meet at 120°", () => {
    // Fermat–Torricelli: the point of least total distance sees every side under 120° (textbook geometry, from memory).
    const points = [site(0, 0, 0), site(4, 0, 0), site(1, 3, 0)];
    const { at, against } = rideRopes(
      points.map((toward) => ({ toward, tensionN: 500 })),
      site(1, 1, 0.3),
    );
    expect(against).toBeNull();
    for (const [i, p] of points.entries()) {
      expect(angleBetween(subtract(p, at), subtract(points[(i + 1) % 3]!, at))).toBeCloseTo((2 * Math.PI) / 3, 7);
    }
  });

  it("pulls in the bisector of the rope it rides", () => {
    const yoke = site(0, 7, 12);
    const { at } = rideRopes(
      [
        { toward: tip, tensionN: 900 },
        { toward: base, tensionN: 900 },
        { toward: yoke, tensionN: 250 },
      ],
      site(0, 4, 13),
    );
    const toYoke = subtract(yoke, at);
    expect(angleBetween(toYoke, subtract(tip, at))).toBeCloseTo(angleBetween(toYoke, subtract(base, at)), 6);
  });

  it("runs up against the tip when the tether leads there", () => {
    const { at, against } = rideRopes(
      [
        { toward: tip, tensionN: 900 },
        { toward: base, tensionN: 900 },
        { toward: site(0, 9.5, 40), tensionN: 400 },
      ],
      site(0, 4, 13),
    );
    expect(against).toBe(0);
    expect(distance(at, tip)).toBeLessThan(1e-9);
  });

  it("rides where the rope network solver puts it", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -200, max: 200 }),
        fc.integer({ min: 300, max: 900 }),
        fc.integer({ min: 20, max: 600 }),
        (x, z, tension) => {
          const yoke = site(x / 100, 7 + x / 300, z / 40);
          const place = rideRopes(
            [
              { toward: tip, tensionN: 800 },
              { toward: base, tensionN: 800 },
              { toward: yoke, tensionN: tension },
            ],
            site(0, 4, 13),
          );
          fc.pre(place.against === null);
          const solution = solveNetwork({
            nodes: {
              tip: { position: tip },
              base: { position: base },
              yoke: { position: yoke },
              rider: { position: [0.2, 4, 12], free: true },
            },
            lines: {
              main: { through: ["tip", "rider", "base"], tensionN: 800 },
              tether: { through: ["yoke", "rider"], tensionN: tension },
            },
          });
          if (!solution.ok) throw new Error(`${solution.code}: ${solution.hint}`);
          expect(distance(asSite(solution.nodes.rider!.position), place.at)).toBeLessThan(1e-5);
        },
      ),
      { seed: SEED, numRuns: 100 },
    );
  });
});
