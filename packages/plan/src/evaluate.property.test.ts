import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { evaluate } from "./evaluate.ts";
import type { Evaluation } from "./evaluation.ts";
import { EXAMPLES } from "./examples/all-examples.ts";
import type { Plan } from "./schema/plan.ts";
import { mirroredPlan } from "./testing/mirrored-plan.ts";

const SEED = 20261125;

/** Every number in a value, with its path; Infinity and NaN included. */
function* numbers(value: unknown, path = ""): Generator<readonly [string, number]> {
  if (typeof value === "number") yield [path, value];
  else if (Array.isArray(value)) for (const [i, v] of value.entries()) yield* numbers(v, `${path}[${i}]`);
  else if (typeof value === "object" && value !== null)
    for (const [k, v] of Object.entries(value)) yield* numbers(v, `${path}.${k}`);
}

const notFinite = (evaluation: Evaluation): string[] =>
  [...numbers(evaluation)].filter(([, n]) => !Number.isFinite(n)).map(([p]) => p);

/** A plan with its place, pose, load, wind, shares and hands anywhere at all. */
const anyPlan: fc.Arbitrary<Plan> = fc
  .record({
    base: fc.constantFrom(...EXAMPLES.map((e) => e.plan)),
    turntable: fc.tuple(fc.double({ min: -40, max: 40, noNaN: true }), fc.double({ min: -40, max: 40, noNaN: true })),
    heading: fc.double({ min: 0, max: 6.28, noNaN: true }),
    bearing: fc.double({ min: 0, max: 6.28, noNaN: true }),
    elevation: fc.double({ min: -0.1, max: 1.57, noNaN: true }),
    length: fc.double({ min: 1, max: 40, noNaN: true }),
    load: fc.tuple(
      fc.double({ min: -30, max: 30, noNaN: true }),
      fc.double({ min: -30, max: 30, noNaN: true }),
      fc.double({ min: -5, max: 45, noNaN: true }),
    ),
    share: fc.double({ min: 0, max: 1, noNaN: true }),
    gust: fc.option(fc.double({ min: 0, max: 30, noNaN: true })),
    motion: fc.constantFrom("raise" as const, "lower" as const, "rest" as const),
    tags: fc.integer({ min: 0, max: 2 }),
    drive: fc.constantFrom("asNeeded" as const, "tension" as const, "length" as const),
    sag: fc.boolean(),
  })
  .map(
    ({ base, turntable, heading, bearing, elevation, length, load, share, gust, motion, tags, drive, sag }): Plan => ({
      ...base,
      scene: { ...base.scene, wind: { ...base.scene.wind, gustMS: gust } },
      aerial: {
        ...base.aerial,
        useSag: sag,
        place: { ...base.aerial.place, turntableX: turntable[0], turntableY: turntable[1], headingRad: heading },
        pose: { bearingRad: bearing, elevationRad: elevation, lengthM: length },
      },
      rig: {
        tether: null,
        load: { ...base.rig.load, positionM: load, motion },
        mainLines: base.rig.mainLines.map((l, i) => ({ ...l, share: i === 0 ? share : 1 - share })),
        taglines: base.rig.taglines.slice(0, tags).map((t) => ({ ...t, drive })),
      },
    }),
  );

describe("evaluate, whatever it is given", () => {
  it("never answers with a number that is not finite", () => {
    fc.assert(
      fc.property(anyPlan, (plan) => {
        expect(notFinite(evaluate(plan))).toEqual([]);
      }),
      { seed: SEED, numRuns: 400 },
    );
  });

  it("leaves nothing unbalanced: main lines, taglines, weight, ropes, wind and ground make zero at the yoke", () => {
    let solved = 0;
    fc.assert(
      fc.property(anyPlan, (plan) => {
        const e = evaluate(plan);
        if (e.lines.length === 0) return;
        solved++;
        const sum = [0, 1, 2].map((k) => (e.load.windN?.[k] ?? 0) + (e.load.groundN?.[k] ?? 0));
        sum[2] = (sum[2] ?? 0) - (e.load.weightN ?? 0);
        let size = e.load.weightN ?? 0;
        for (const line of e.lines) {
          const to = line.nodes[1]?.at ?? e.load.yoke;
          const d = [0, 1, 2].map((k) => (to[k] ?? 0) - (e.load.yoke[k] ?? 0));
          const tension = line.tensionsN.raise[0] ?? 0;
          expect(tension).toBeGreaterThanOrEqual(0);
          size = Math.max(size, tension);
          for (const k of [0, 1, 2]) sum[k] = (sum[k] ?? 0) + (tension * (d[k] ?? 0)) / Math.hypot(...d);
          // Half the weight of the part of the rope that ends here.
          const { mainLines, taglines } = plan.rig;
          const rope = plan.gear.find((g) => g.id === [...mainLines, ...taglines].find((l) => l.id === line.id)?.rope);
          const massKgM = rope?.kind === "rope" ? (rope.linearMassKgM ?? 0) : 0;
          sum[2] = (sum[2] ?? 0) - (massKgM * 9.80665 * Math.hypot(...d)) / 2;
        }
        expect(Math.hypot(...sum)).toBeLessThan(1e-6 * size);
      }),
      { seed: SEED, numRuns: 400 },
    );
    expect(solved).toBeGreaterThan(150);
  });

  it("judges a mirrored plan like the plan", () => {
    fc.assert(
      fc.property(anyPlan, (plan) => {
        const [a, b] = [evaluate(plan), evaluate(mirroredPlan(plan))];
        const byId = new Map(b.ledger.map((c) => [c.id, c]));
        for (const c of a.ledger) {
          // Which of two ropes is served first, and which end of a jack line is named first, may change in a mirror.
          if (c.rule === "rope-length" || c.rule === "tipping") continue;
          const twin = byId.get(c.id);
          expect(twin?.status, c.id).toBe(c.status);
          if (c.ratio !== null) expect(twin?.ratio, c.id).toBeCloseTo(c.ratio, 5);
        }
      }),
      { seed: SEED, numRuns: 150 },
    );
  });

  it("gives the same answer to the last digit twice", () => {
    for (const { plan } of EXAMPLES)
      expect(JSON.stringify(evaluate(structuredClone(plan)))).toBe(JSON.stringify(evaluate(plan)));
  });
});
