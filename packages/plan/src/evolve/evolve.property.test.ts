import { describe, expect, it } from "vitest";
import { evaluate } from "../evaluate.ts";
import { EXAMPLES } from "../examples/all-examples.ts";
import { crossingExample } from "../examples/crossing.ts";
import { roofExample } from "../examples/roof.ts";
import { seededRandom } from "../fuzz/seeded-random.ts";
import type { Stage } from "../schema/evolution.ts";
import type { Plan } from "../schema/plan.ts";
import { mirroredPlan } from "../testing/mirrored-plan.ts";
import { evolve } from "./evolve.ts";
import { momentPlan, stageStart } from "./moment-plan.ts";

/** A plan with one of its stages alone, begun where that stage begins. */
function onlyStage(plan: Plan, id: string): Plan {
  const index = plan.evolution.stages.findIndex((s) => s.id === id);
  const stage = plan.evolution.stages[index] as Stage;
  const [x, y, z] = stageStart(plan, index);
  return { ...plan, evolution: { startM: [x, y, z], stages: [stage] } };
}

/**
 * The same rig with another way, wind, mass and place of the hands: what a person might draw instead. Between two taglines
 * the way stays in their plane: where it crosses the line between the hands beside that plane, their pulls grow without bound and
 * no worst ratio exists to be found.
 */
function varied(plan: Plan, random: () => number): Plan {
  const about = (size: number): number => (2 * random() - 1) * size;
  const shifted = ([x, y, z]: [number, number, number]): [number, number, number] => [
    x + about(0.3),
    plan.rig.taglines.length > 0 ? y : y + about(0.15),
    z + about(0.4),
  ];
  return {
    ...plan,
    scene: { ...plan.scene, wind: { gustMS: 8 * random(), fromBearingRad: 2 * Math.PI * random() } },
    rig: {
      ...plan.rig,
      load: {
        ...plan.rig.load,
        parts: plan.rig.load.parts.map((p) => ({ ...p, massKg: (p.massKg ?? 0) * (1 + about(0.2)) })),
      },
      taglines: plan.rig.taglines.map((t) => ({
        ...t,
        handler: [t.handler[0] + about(2), t.handler[1], t.handler[2]],
      })),
    },
    evolution: {
      startM: plan.evolution.startM,
      stages: plan.evolution.stages.map((s) => ({ ...s, path: s.path.map(shifted) })),
    },
  };
}

/** Checks whose worst ratio the sweep of a plan of one stage has more than one per cent too low, by a sweep ten times finer. */
function missedPeaks(plan: Plan): readonly string[] {
  const { ledger, moments } = evolve(plan);
  const found = new Map(ledger.map((c) => [c.id, c.ratio]));
  const missed = new Set<string>();
  const steps = 10 * (moments.length - 1);
  for (let i = 0; i <= steps; i++) {
    for (const { id, rule, ratio } of evaluate(momentPlan(plan, { stage: 0, along: i / steps })).ledger) {
      // Asked of single positions only.
      if (ratio === null || rule === "attendant-check") continue;
      if (!(ratio <= (found.get(id) ?? Number.NaN) * 1.01 + 1e-9)) missed.add(id);
    }
  }
  return [...missed];
}

const STAGES: readonly (readonly [id: string, plan: Plan])[] = [
  ["raise", crossingExample],
  ["across", crossingExample],
  ["lower", crossingExample],
  ["beside-wall", roofExample],
  ["let-out", roofExample],
  ["off-roof", roofExample],
];
const VARIATIONS = Array.from({ length: 36 }, (_, seed) => {
  const [id, plan] = STAGES[seed % STAGES.length] as (typeof STAGES)[number];
  return [seed, id, plan] as const;
});

describe("evolve, whatever the way", () => {
  it.each(VARIATIONS)(
    "finds every worst ratio within one per cent of a sweep ten times finer: variation %i, %s",
    (seed, id, base) => expect(missedPeaks(onlyStage(varied(base, seededRandom(seed).fraction), id))).toEqual([]),
  );

  it.each(EXAMPLES.map((e) => [e.key, e.plan] as const))("judges a mirrored %s like the plan", (_, plan) => {
    const [a, b] = [evolve(plan), evolve(mirroredPlan(plan))];
    expect(b.moments).toHaveLength(a.moments.length);
    for (const [i, moment] of a.moments.entries()) {
      const twin = b.moments[i];
      expect(twin?.holds).toBe(moment.holds);
      for (const [axis, sign] of [-1, 1, 1].entries())
        expect(twin?.yoke[axis]).toBeCloseTo(sign * (moment.yoke[axis] ?? Number.NaN), 6);
    }
    const checks = new Map(b.ledger.map((c) => [c.id, c]));
    for (const c of a.ledger) {
      // Which of two ropes is served first, and which end of a jack line is named first, may change in a mirror.
      if (c.rule === "rope-length" || c.rule === "tipping") continue;
      expect(checks.get(c.id)?.status, c.id).toBe(c.status);
      if (c.ratio !== null) expect(checks.get(c.id)?.ratio, c.id).toBeCloseTo(c.ratio, 5);
    }
    for (const [i, stage] of a.stages.entries()) {
      expect(b.stages[i]?.problems.map((p) => p.field)).toEqual(stage.problems.map((p) => p.field));
      if (stage.work) expect(b.stages[i]?.work?.putInJ).toBeCloseTo(stage.work.putInJ, 3);
    }
  });

  it("gives the same tensions, the tether's too, for the rescuer drawn in and let out by the same way without friction", () => {
    const plan: Plan = {
      ...onlyStage(roofExample, "beside-wall"),
      gear: roofExample.gear.map((g) => (g.kind === "sheave" ? { ...g, efficiency: 1 } : g)),
    };
    const stage = plan.evolution.stages[0] as Stage;
    const back = [plan.evolution.startM, ...stage.path].reverse();
    const reversed: Plan = {
      ...plan,
      evolution: {
        startM: back[0] ?? plan.evolution.startM,
        stages: [{ ...stage, path: back.slice(1), motion: "lower", action: "lower" }],
      },
    };
    for (const along of [0, 0.3, 0.62, 0.9, 1]) {
      const [up, down] = [momentPlan(plan, { stage: 0, along }), momentPlan(reversed, { stage: 0, along: 1 - along })];
      const [a, b] = [evaluate(up), evaluate(down)];
      expect(a.tether?.tensionN).toBeGreaterThan(100);
      expect(b.tether?.tensionN).toBeCloseTo(a.tether?.tensionN ?? Number.NaN, 4);
      for (const [i, line] of a.lines.entries())
        for (const [k, tension] of line.tensionsN.raise.entries())
          expect(b.lines[i]?.tensionsN.lower[k]).toBeCloseTo(tension, 4);
    }
  });

  it("works the other stages where one has a line that is not rigged", () => {
    const use = { on: true, drive: "asNeeded", tensionN: null, lengthM: null } as const;
    const plan: Plan = {
      ...crossingExample,
      evolution: {
        ...crossingExample.evolution,
        stages: crossingExample.evolution.stages.map((s) =>
          s.id === "raise" ? { ...s, lines: { ...s.lines, "tag-north": use } } : s,
        ),
      },
    };
    const [whole, broken] = [evolve(crossingExample), evolve(plan)];
    expect(broken.ledger.find((c) => c.id === "stage/raise/1")).toMatchObject({ status: "over", when: { stage: 2 } });
    expect(broken.moments.map((m) => m.yoke)).toEqual(whole.moments.map((m) => m.yoke));
    expect(broken.stages.map((s) => s.problems.length)).toEqual([0, 0, 1, 0, 0, 0]);
  });
});
