import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { addScaled, distance, norm, type SiteVector, site, subtract, unit } from "../base/vector.ts";
import { type HoldingHand, type HoldingMain, hangAtHeight, pullsToHold } from "./hold-load.ts";
import { solveNetwork } from "./solve-network.ts";

const DEG = Math.PI / 180;
const SEED = 81;

const leftOver = (
  at: SiteVector,
  mains: readonly HoldingMain[],
  hands: readonly HoldingHand[],
  mainN: number,
  handsN: readonly number[],
  forceN: SiteVector,
): number => {
  let sum = forceN;
  for (const m of mains) sum = addScaled(sum, unit(subtract(m.toward, at)), mainN * m.share);
  for (const [i, h] of hands.entries()) sum = addScaled(sum, unit(subtract(h.toward, at)), handsN[i] ?? 0);
  return norm(sum);
};

describe("pullsToHold", () => {
  it("holds a person on one rope with a sideways pull", () => {
    // OpenStax College Physics 2e §4.7: 76.0 kg, rope 1 at 15° from vertical, rope 2 at 10° above horizontal, g = 9.80: 736 N and 194 N.
    const at = site(0, 0, 0);
    const main = { toward: site(-Math.sin(15 * DEG), 0, Math.cos(15 * DEG)), share: 1 };
    const hand = { toward: site(Math.cos(10 * DEG), 0, Math.sin(10 * DEG)), tensionN: null };
    const pulls = pullsToHold(at, [main], [hand], site(0, 0, -76 * 9.8));
    expect(Math.abs(pulls.mainN - 736)).toBeLessThan(0.5);
    expect(Math.abs((pulls.handsN[0] ?? 0) - 194)).toBeLessThan(0.5);
    expect(pulls.residualN).toBeLessThan(1e-9);
  });

  it("solves a three-rope textbook problem", () => {
    // Hibbeler, Statics 14e, R3-7: node (0, 6, 0), ropes to (2,0,0), (−2,0,0), (0,12,8), 500 lb: 198, 198, 625 lb.
    const pulls = pullsToHold(
      site(0, 6, 0),
      [{ toward: site(0, 12, 8), share: 1 }],
      [
        { toward: site(2, 0, 0), tensionN: null },
        { toward: site(-2, 0, 0), tensionN: null },
      ],
      site(0, 0, -500),
    );
    expect(pulls.mainN).toBeCloseTo(625, 6);
    expect(pulls.handsN[0]).toBeCloseTo(197.642, 3);
    expect(pulls.handsN[1]).toBeCloseTo(197.642, 3);
  });

  it("never pushes, and leaves no less over than any other pulls tried at random", () => {
    const point = fc
      .tuple(
        fc.double({ min: -20, max: 20, noNaN: true }),
        fc.double({ min: -20, max: 20, noNaN: true }),
        fc.double({ min: -5, max: 25, noNaN: true }),
      )
      .map(([x, y, z]) => site(x, y, z));
    fc.assert(
      fc.property(
        point,
        point,
        point,
        point,
        fc.array(fc.array(fc.double({ min: 0, max: 5000, noNaN: true }), { minLength: 3, maxLength: 3 }), {
          minLength: 20,
          maxLength: 20,
        }),
        (at, a, b, c, tries) => {
          fc.pre([a, b, c].every((p) => distance(p, at) > 0.5));
          const mains = [{ toward: a, share: 1 }];
          const hands = [b, c].map((toward) => ({ toward, tensionN: null }));
          const force = site(30, -20, -1500);
          const pulls = pullsToHold(at, mains, hands, force);
          expect(Math.min(pulls.mainN, ...pulls.handsN)).toBeGreaterThanOrEqual(0);
          expect(leftOver(at, mains, hands, pulls.mainN, pulls.handsN, force)).toBeCloseTo(pulls.residualN, 6);
          // What is asked of hands counts a fiftieth of what is left over (a planning choice of ours).
          const cost = (leftN: number, handsN: readonly number[]) => leftN + 0.02 * handsN.reduce((a, b) => a + b, 0);
          const ours = cost(pulls.residualN, pulls.handsN);
          for (const [m = 0, ...h] of tries)
            expect(cost(leftOver(at, mains, hands, m, h, force), h)).toBeGreaterThanOrEqual(0.98 * ours);
        },
      ),
      { seed: SEED, numRuns: 300 },
    );
  });

  it("does not have two crews pull against each other to stop a breath of side wind", () => {
    const hands = [
      { toward: site(12, 0.02, 2), tensionN: null },
      { toward: site(-12, 0.02, 2), tensionN: null },
    ];
    const pulls = pullsToHold(site(0, 0, 10), [{ toward: site(0, 0, 25), share: 1 }], hands, site(0, -10, -1000));
    expect(Math.max(...pulls.handsN)).toBeLessThan(50);
    expect(pulls.residualN).toBeLessThanOrEqual(10.1);
  });

  it("takes the smallest pulls by hand where several hold", () => {
    // Two taglines straight against each other: any equal pair balances; none is needed.
    const pulls = pullsToHold(
      site(0, 0, 10),
      [{ toward: site(0, 0, 25), share: 1 }],
      [
        { toward: site(12, 0, 10), tensionN: null },
        { toward: site(-12, 0, 10), tensionN: null },
      ],
      site(0, 0, -1000),
    );
    expect(pulls.handsN).toEqual([0, 0]);
    expect(pulls.mainN).toBeCloseTo(1000, 9);
  });
});

describe("hangAtHeight", () => {
  const mains = [
    { toward: site(-0.3, 0, 25), share: 0.6 },
    { toward: site(0.3, 0, 25), share: 0.4 },
  ];

  it("finds the place the rope network solver finds for the same pulls", () => {
    const hands = [{ toward: site(15, 3, 1), tensionN: 220 }];
    const force = site(40, -10, -1200);
    const hangs = hangAtHeight(site(4, 4, 8), mains, hands, force);
    if (!hangs.ok) throw new Error(hangs.code);
    // Independently: both mains by the stretched lengths of that place, the tagline by its pull.
    const stiffness = 60_000;
    const lengthOf = (m: HoldingMain): number =>
      distance(m.toward, hangs.at) / (1 + (hangs.mainN * m.share) / stiffness);
    const solution = solveNetwork({
      nodes: {
        load: { position: [0, 0, 5], free: true, massKg: 0, forceN: force },
        a: { position: mains[0]!.toward },
        b: { position: mains[1]!.toward },
        hands: { position: hands[0]!.toward },
      },
      lines: {
        a: { through: ["load", "a"], lengthM: lengthOf(mains[0]!), axialStiffnessN: stiffness },
        b: { through: ["load", "b"], lengthM: lengthOf(mains[1]!), axialStiffnessN: stiffness },
        tag: { through: ["load", "hands"], tensionN: 220 },
      },
    });
    if (!solution.ok) throw new Error(solution.code);
    const [x = 0, y = 0, z = 0] = solution.nodes.load?.position ?? [];
    expect(distance(site(x, y, z), hangs.at)).toBeLessThan(1e-6);
    expect(solution.lines.a?.tensionsN[0]).toBeCloseTo(hangs.mainN * 0.6, 4);
  });

  it("hangs plumb under the weighted middle of the sheaves, wherever the search begins", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -30, max: 30, noNaN: true }),
        fc.double({ min: -30, max: 30, noNaN: true }),
        (x, y) => {
          const hangs = hangAtHeight(site(x, y, 5), mains, [], site(0, 0, -1000));
          expect(hangs.ok).toBe(true);
          if (hangs.ok) {
            expect(hangs.at[1]).toBeCloseTo(0, 8);
            expect(Math.abs(hangs.at[0])).toBeLessThan(0.1);
          }
        },
      ),
      { seed: SEED, numRuns: 100 },
    );
  });

  it("finds nothing above the sheaves", () => {
    expect(hangAtHeight(site(0, 0, 26), mains, [], site(0, 0, -1000))).toEqual({ ok: false, code: "nothing-holds" });
  });
});
