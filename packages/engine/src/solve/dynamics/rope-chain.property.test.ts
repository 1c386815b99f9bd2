import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { commitChain, flowOver, layChain, pullChain, type RopeChain, ropeChain, strainOf, sum } from "./rope-chain.ts";

/** A rope over one to five sheaves, and pulls on its first and third segment one after another. */
const pulled = fc.record({
  efficiency: fc.array(fc.constantFrom(1, 0.5, 0.8, 0.93, 0.97), { minLength: 1, maxLength: 5 }),
  wrapRad: fc.array(fc.double({ min: 0.05, max: 4, noNaN: true }), { minLength: 5, maxLength: 5 }),
  lengthM: fc.array(fc.double({ min: 0.3, max: 40, noNaN: true }), { minLength: 6, maxLength: 6 }),
  stiffnessN: fc.double({ min: 1e4, max: 1e5, noNaN: true }),
  end: fc.constantFrom("fixed" as const, "brake" as const),
  running: fc.constantFrom(-1 as const, 0 as const, 1 as const),
  damping: fc.constantFrom(0, 50),
  moves: fc.array(
    fc.record({
      first: fc.double({ min: -0.3, max: 0.3, noNaN: true }),
      third: fc.double({ min: -0.05, max: 0.05, noNaN: true }),
      rate: fc.double({ min: -3, max: 3, noNaN: true }),
      wrap: fc.double({ min: -0.2, max: 0.2, noNaN: true }),
    }),
    { minLength: 1, maxLength: 12 },
  ),
});

const SLIPS_N = 3000;

function laid(of: typeof pulled extends fc.Arbitrary<infer T> ? T : never): RopeChain {
  const segments = of.efficiency.length + 1;
  const chain = ropeChain({
    segments,
    efficiency: of.efficiency,
    stiffnessN: of.stiffnessN,
    dampingNsM: of.damping,
    end: of.end,
    endN: SLIPS_N,
  });
  for (let j = 0; j < segments; j++) chain.lengthM[j] = of.lengthM[j]!;
  for (let i = 1; i < segments; i++) chain.ratio[i] = Math.exp(-chain.loss[i]! * of.wrapRad[i - 1]!);
  layChain(chain, { startTensionN: 1000 }, of.running);
  return chain;
}

describe("a rope over sheaves that hold", () => {
  it("is, after any pulls, within every sheave's ratio and its brake, loses no rope, and pushes nothing", () => {
    fc.assert(
      fc.property(pulled, (of) => {
        const chain = laid(of);
        const last = chain.lengthM.length - 1;
        for (const { first, third, rate, wrap } of of.moves) {
          chain.lengthM[0] = Math.max(0.1, chain.lengthM[0]! + first);
          if (last > 2) chain.lengthM[2] = Math.max(0.1, chain.lengthM[2]! + third);
          if (chain.loss[1]! > 0) chain.ratio[1] = Math.min(1, Math.max(0.3, chain.ratio[1]! + wrap));
          const before = sum(chain.ropeM);
          expect(pullChain(chain, rate)).toBe(true);
          const { tensionN, ratio, nowM } = chain;
          const near = 1e-6 * (1 + Math.max(...tensionN));
          for (let i = 1; i <= last; i++) {
            expect(tensionN[i]! * ratio[i]!).toBeLessThanOrEqual(tensionN[i - 1]! + near);
            expect(tensionN[i - 1]! * ratio[i]!).toBeLessThanOrEqual(tensionN[i]! + near);
            // Rope moves toward the greater tension only, and only where the ratio is reached.
            const flow = flowOver(chain, i);
            if (chain.loss[i] !== 0 && Math.abs(flow) > 1e-9 && tensionN[0]! > 0) {
              const [low, high] = flow > 0 ? [tensionN[i - 1]!, tensionN[i]!] : [tensionN[i]!, tensionN[i - 1]!];
              expect(Math.abs(low - ratio[i]! * high)).toBeLessThan(near);
            }
          }
          for (const tension of tensionN) expect(tension).toBeGreaterThanOrEqual(0);
          const now = sum(nowM);
          if (chain.end === "brake" && tensionN[last]! > SLIPS_N - near) {
            expect(tensionN[last]!).toBeLessThan(SLIPS_N + near);
            expect(now).toBeGreaterThan(before - 1e-9);
          } else expect(now).toBeCloseTo(before, 9);
          expect(strainOf(chain)).toBeGreaterThanOrEqual(0);
          commitChain(chain);
        }
      }),
      { seed: 61, numRuns: 800 },
    );
  });

  it("does not care in which parts a pull without return is made", () => {
    fc.assert(
      fc.property(
        pulled,
        fc.double({ min: 0.01, max: 0.5, noNaN: true }),
        fc.integer({ min: 2, max: 9 }),
        (of, by, parts) => {
          const [whole, parted] = [laid({ ...of, damping: 0 }), laid({ ...of, damping: 0 })];
          whole.lengthM[0]! += by;
          expect(pullChain(whole, 0)).toBe(true);
          for (let k = 0; k < parts; k++) {
            parted.lengthM[0]! += by / parts;
            expect(pullChain(parted, 0)).toBe(true);
            commitChain(parted);
          }
          for (const [j, tension] of whole.tensionN.entries())
            expect(Math.abs(parted.tensionN[j]! - tension)).toBeLessThan(1e-5 * (1 + tension));
        },
      ),
      { seed: 62, numRuns: 500 },
    );
  });
});
