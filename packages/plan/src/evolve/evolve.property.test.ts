import { describe, expect, it } from "vitest";
import { EXAMPLES } from "../examples/all-examples.ts";
import { crossingExample } from "../examples/crossing.ts";
import { roofExample } from "../examples/roof.ts";
import { seededRandom } from "../fuzz/seeded-random.ts";
import { rankOf } from "../judge.ts";
import type { Stage } from "../schema/evolution.ts";
import type { Plan } from "../schema/plan.ts";
import { mirroredPlan } from "../testing/mirrored-plan.ts";
import { evaluateAt } from "./evaluate-at.ts";
import { evolve } from "./evolve.ts";
import { stageStart } from "./moment-plan.ts";

/** A plan with one of its stages alone, begun where that stage begins. */
function onlyStage(plan: Plan, id: string): Plan {
  const index = plan.evolution.stages.findIndex((s) => s.id === id);
  const stage = plan.evolution.stages[index] as Stage;
  const [x, y, z] = stageStart(plan, index);
  return { ...plan, evolution: { startM: [x, y, z], stages: [stage] } };
}

/** The same rig with another way, wind, mass and place of the hands: what a person might draw instead. */
function varied(plan: Plan, random: () => number): Plan {
  const about = (size: number): number => (2 * random() - 1) * size;
  const shifted = ([x, y, z]: [number, number, number]): [number, number, number] => [
    x + about(0.3),
    y + about(0.15),
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

/** The plan among posts of all heights, set at random within `reachM` of a place. */
function cluttered(plan: Plan, random: () => number, [x0, y0]: readonly [number, number], reachM: number): Plan {
  const about = (size: number): number => (2 * random() - 1) * size;
  const posts = Array.from({ length: 4 }, (_, k): Plan["scene"]["structures"][number] => {
    const [x, y, w] = [x0 + about(reachM), y0 + about(reachM), 0.2 + random()];
    return {
      id: `post-${k}`,
      name: `Post ${k}`,
      kind: "building",
      outline: [
        [x, y],
        [x + w, y],
        [x + w, y + w],
        [x, y + w],
      ],
      baseZM: 0,
      topZM: 3 + 15 * random(),
      parapetHeightM: 0,
      parapetThicknessM: 0.2,
    };
  });
  return { ...plan, scene: { ...plan.scene, structures: [...plan.scene.structures, ...posts] } };
}

/** The empty ladder swung, raised or lowered and run out or in from any pose to any other, among posts and a wire round about. */
function ladderMoved(base: Plan, random: () => number): Plan {
  const pose = (): Plan["aerial"]["pose"] => ({
    bearingRad: (2 * random() - 1) * Math.PI,
    elevationRad: 0.3 + 0.95 * random(),
    lengthM: 14 + 14 * random(),
  });
  const wire = Array.from({ length: 6 }, (_, k): [number, number, number] => {
    const [turn, reachM] = [0.9 * 2 * Math.PI * (k / 5) - Math.PI, 12 + 14 * random()];
    return [reachM * Math.sin(turn), 3 + reachM * Math.cos(turn), 6 + 10 * random()];
  });
  const stage = base.evolution.stages.at(-1) as Stage;
  const plan: Plan = {
    ...base,
    aerial: { ...base.aerial, pose: pose() },
    scene: { ...base.scene, powerLines: [{ id: "wire", name: "Wire", voltageKv: 20, wire }] },
    evolution: { ...base.evolution, stages: [{ ...stage, action: "moveLadder", aboard: [], path: [], pose: pose() }] },
  };
  return cluttered(plan, random, [0, 0], 25);
}

/**
 * Checks whose worst ratio the sweep of a plan of one stage has more than one per cent too low, by a sweep ten times finer.
 * What the sweep has as over without a ratio, or as unknown at some moment, it does not have too low.
 */
function missedPeaks(plan: Plan): readonly string[] {
  // As coarse as a long evolution is swept.
  const { ledger, moments } = evolve(plan, 0.25);
  const found = new Map(ledger.map((c) => [c.id, c]));
  const missed = new Set<string>();
  const steps = 10 * (moments.length - 1);
  for (let i = 0; i <= steps; i++) {
    for (const { id, rule, ratio, status } of evaluateAt(plan, { stage: 0, along: i / steps }).ledger) {
      // Asked of single positions only.
      if (ratio === null || rule === "attendant-check") continue;
      const worst = found.get(id);
      if (worst?.ratio === null && rankOf(worst.status) <= rankOf(status)) continue;
      if (!(ratio <= (worst?.ratio ?? Number.NaN) * 1.01 + 1e-9)) missed.add(id);
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
const VARIATIONS = Array.from({ length: 18 }, (_, seed) => {
  const [id, plan] = STAGES[seed % STAGES.length] as (typeof STAGES)[number];
  return [seed, id, plan] as const;
});

describe("evolve, whatever the way", () => {
  it.each(VARIATIONS)(
    "finds every worst ratio within one per cent of a sweep ten times finer: variation %i, %s",
    (seed, id, base) => expect(missedPeaks(onlyStage(varied(base, seededRandom(seed).fraction), id))).toEqual([]),
  );

  it.each(Array.from({ length: 6 }, (_, seed) => [seed, ...(STAGES[seed % STAGES.length] ?? STAGES[0]!)] as const))(
    "finds them among posts too: variation %i, %s",
    (seed, id, base) => {
      const { fraction } = seededRandom(100 + seed);
      expect(missedPeaks(cluttered(onlyStage(varied(base, fraction), id), fraction, [0, 9], 8))).toEqual([]);
    },
  );

  it.each(Array.from({ length: 10 }, (_, seed) => [seed] as const))(
    "finds them for a ladder that moves: variation %i",
    (seed) => {
      const base = seed % 2 === 0 ? crossingExample : roofExample;
      expect(missedPeaks(ladderMoved(base, seededRandom(200 + seed).fraction))).toEqual([]);
    },
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
      // Which of two ropes of the cache is served first may change in a mirror.
      if (c.rule === "rope-length") continue;
      expect(checks.get(c.id)?.status, c.id).toBe(c.status);
      if (c.ratio !== null) expect(checks.get(c.id)?.ratio, c.id).toBeCloseTo(c.ratio, 5);
    }
    const curves = new Map(b.series.map((s) => [s.id, s]));
    let compared = 0;
    for (const { id, values } of a.series) {
      if (!/^(tension|force|length)\//.test(id)) continue;
      for (const [i, value] of values.entries()) {
        const twin = curves.get(id)?.values[i] ?? null;
        // What pulls to the right pulls to the left in a mirror.
        const sign = id.endsWith("/lateral") ? -1 : 1;
        if (value === null) expect(twin, id).toBeNull();
        else expect(twin, id).toBeCloseTo(sign * value, 4);
        compared++;
      }
    }
    expect(compared).toBeGreaterThan(4 * a.moments.length);
    for (const [i, stage] of a.stages.entries()) {
      expect(b.stages[i]?.problems.map((p) => p.field)).toEqual(stage.problems.map((p) => p.field));
      if (stage.work) expect(b.stages[i]?.work?.putInJ).toBeCloseTo(stage.work.putInJ, 3);
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
