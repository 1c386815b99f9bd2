import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Network } from "../../rope/network.ts";
import { solveNetwork } from "../solve-network.ts";
import { randomNetwork } from "../testing/random-network.ts";
import { letGo } from "./let-go.ts";
import type { LetGoLine, LetGoSystem, LineHolding } from "./let-go-types.ts";

const rig = fc.record({
  seed: fc.integer({ min: 1, max: 1e6 }),
  dampingNsM: fc.constantFrom(0, 0, 40),
  slipsAtN: fc.constantFrom(null, 1500, 4000),
  letsGoAtN: fc.constantFrom(null, null, 3000),
  ground: fc.boolean(),
  cut: fc.nat(),
});

/** A network, at rest where it can be, with brakes and grips put on lines held by length. */
function systemOf(of: typeof rig extends fc.Arbitrary<infer T> ? T : never): LetGoSystem {
  const network: Network = randomNetwork(of.seed, { massless: 0, ropeWeight: 0, maxFree: 3, stiffnessN: [1e4, 6e4] });
  const answer = solveNetwork(network);
  const holding: LineHolding =
    of.slipsAtN !== null
      ? { kind: "brake", slipsAtN: of.slipsAtN }
      : of.letsGoAtN !== null
        ? { kind: "fixed", letsGoAtN: of.letsGoAtN }
        : { kind: "fixed" };
  const line = ({ through, lengthM, axialStiffnessN, tensionN, ...sheaves }: Network["lines"][string]): LetGoLine => ({
    through,
    axialStiffnessN: axialStiffnessN ?? 30_000,
    dampingNsM: of.dampingNsM,
    ...(sheaves.efficiency ? { efficiency: sheaves.efficiency } : {}),
    ...(sheaves.travel ? { travel: sheaves.travel } : {}),
    ...(tensionN === undefined
      ? { lengthM: lengthM!, holding }
      : { startTensionN: tensionN, holding: { kind: "hands", tensionN } as const }),
  });
  return {
    nodes: Object.fromEntries(
      Object.entries(network.nodes).map(([name, { free, massKg, forceN, position }]) => [
        name,
        {
          positionM: answer.ok ? answer.nodes[name]!.position : position,
          ...(free ? { massKg: massKg!, ...(forceN ? { forceN } : {}) } : {}),
        },
      ]),
    ),
    lines: Object.fromEntries(Object.entries(network.lines).map(([name, l]) => [name, line(l)])),
    load: Object.entries(network.nodes).find(([, n]) => n.free)![0],
    stops: of.ground ? { ground: { pointM: [0, 0, -5], normal: [0, 0, 1] } } : {},
  };
}

const numbersIn = (value: unknown): readonly number[] =>
  typeof value === "number"
    ? [value]
    : value && typeof value === "object"
      ? Object.values(value).flatMap(numbersIn)
      : [];

describe("a line that goes, of any rig", () => {
  it("gives numbers, a closed energy book and no push; or says why not", () => {
    const outcomes: Record<string, number> = {};
    fc.assert(
      fc.property(rig, (of) => {
        const system = systemOf(of);
        const names = Object.keys(system.lines);
        const found = letGo(system, names[of.cut % names.length]!, { durationS: 4 });
        const outcome = found.ok ? found.ended : found.code;
        outcomes[outcome] = (outcomes[outcome] ?? 0) + 1;
        if (!found.ok) {
          expect(found.hint).toMatch(/\w/);
          return;
        }
        const { motion, energy, lines, load } = found;
        for (const n of numbersIn(found)) expect(Number.isFinite(n)).toBe(true);
        expect(energy.closureShare).toBeLessThanOrEqual(1e-3);
        for (const tensions of Object.values(motion.tensionsN))
          for (const t of tensions) expect(t).toBeGreaterThanOrEqual(0);
        for (const [name, tensions] of Object.entries(motion.tensionsN))
          expect(Math.max(...tensions)).toBeLessThanOrEqual(lines[name]!.peakN * (1 + 1e-9));
        for (const at of motion.places[system.load]!) expect(load.lowest[2]).toBeLessThanOrEqual(at[2] + 1e-6);
        const most = Math.max(...Object.values(energy).map(Math.abs));
        // What the book says was lost was lost.
        for (const lost of [energy.dampingJ, energy.brakeJ, energy.hitsJ, energy.letGoJ])
          expect(lost).toBeGreaterThanOrEqual(-1e-3 * most);
      }),
      { seed: 74, numRuns: 150 },
    );
    expect(outcomes.time).toBeGreaterThan(60);
    expect(outcomes["not-converged"] ?? 0).toBeLessThan(5);
    expect(outcomes["bad-input"] ?? 0).toBe(0);
  });
});
