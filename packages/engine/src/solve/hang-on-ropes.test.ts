import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { distance, type SiteVector, site } from "../base/vector.ts";
import { type HoldingRope, hangOnRopes } from "./hang-on-ropes.ts";
import { solveNetwork } from "./solve-network.ts";

const SEED = 83;

function hung(...given: Parameters<typeof hangOnRopes>) {
  const found = hangOnRopes(...given);
  if (!found.ok) throw new Error(found.code);
  return found;
}

describe("hangOnRopes", () => {
  it("lets a load pushed aside hang in line with weight and push, its rope stretched by Hooke's law", () => {
    // Closed form: T = √(W² + F²), l = l₀ (1 + T/EA) for the whole rope, of which 20 m run beyond the sheave.
    const [weightN, pushN, stiffnessN, lengthM, beyondM] = [1000, 300, 50_000, 36, 20];
    const tensionN = Math.hypot(weightN, pushN);
    const aloneM = lengthM * (1 + tensionN / stiffnessN) - beyondM;
    const { at, tensionsN, residualN } = hung(
      site(5, 5, 8),
      [{ toward: site(0, 0, 25), beyondM, lengthM, stiffnessN }],
      [],
      site(pushN, 0, -weightN),
    );
    expect(tensionsN[0]).toBeCloseTo(tensionN, 6);
    expect(at[0]).toBeCloseTo((aloneM * pushN) / tensionN, 8);
    expect(at[1]).toBeCloseTo(0, 8);
    expect(at[2]).toBeCloseTo(25 - (aloneM * weightN) / tensionN, 8);
    expect(residualN).toBeLessThan(1e-6);
  });

  it("leaves the longer of two ropes over one point slack", () => {
    const rope = (lengthM: number): HoldingRope => ({
      toward: site(0, 0, 25),
      beyondM: 0,
      lengthM,
      stiffnessN: 50_000,
    });
    const { tensionsN } = hung(site(0, 0, 9), [rope(15), rope(17)], [], site(0, 0, -1000));
    expect(tensionsN[0]).toBeCloseTo(1000, 6);
    expect(tensionsN[1]).toBe(0);
  });

  it("finds what the rope network solver finds, wherever the search begins", () => {
    const anchors = { a: site(-0.3, 0, 25), b: site(0.3, 0.1, 25.2) };
    const hands = { toward: site(15, 3, 1), tensionN: 220 };
    const force: SiteVector = site(40, -10, -1200);
    const place = fc.double({ min: -20, max: 20, noNaN: true });
    fc.assert(
      fc.property(
        place,
        place,
        place,
        fc.double({ min: 16, max: 20, noNaN: true }),
        fc.double({ min: 16, max: 20, noNaN: true }),
        (x, y, z, aM, bM) => {
          const ropes = [
            { toward: anchors.a, beyondM: 0, lengthM: aM, stiffnessN: 60_000 },
            { toward: anchors.b, beyondM: 0, lengthM: bM, stiffnessN: 95_000 },
          ];
          const { at, tensionsN } = hung(site(x, y, z), ropes, [hands], force);
          const solution = solveNetwork({
            nodes: {
              load: { position: [0, 0, 5], free: true, massKg: 0, forceN: force },
              a: { position: anchors.a },
              b: { position: anchors.b },
              hands: { position: hands.toward },
            },
            lines: {
              a: { through: ["load", "a"], lengthM: aM, axialStiffnessN: 60_000 },
              b: { through: ["load", "b"], lengthM: bM, axialStiffnessN: 95_000 },
              tag: { through: ["load", "hands"], tensionN: 220 },
            },
          });
          if (!solution.ok) throw new Error(solution.code);
          const [px = 0, py = 0, pz = 0] = solution.nodes.load?.position ?? [];
          expect(distance(site(px, py, pz), at)).toBeLessThan(1e-6);
          expect(solution.lines.a?.tensionsN[0]).toBeCloseTo(tensionsN[0] ?? Number.NaN, 4);
          expect(solution.lines.b?.tensionsN[0]).toBeCloseTo(tensionsN[1] ?? Number.NaN, 4);
        },
      ),
      { seed: SEED, numRuns: 200 },
    );
  });
});
