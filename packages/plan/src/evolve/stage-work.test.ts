import { describe, expect, it } from "vitest";
import { assess } from "../assess.ts";
import type { Evaluation } from "../evaluation.ts";
import { crossingExample } from "../examples/crossing.ts";
import { roofExample } from "../examples/roof.ts";
import type { Plan } from "../schema/plan.ts";
import { evaluateAt } from "./evaluate-at.ts";
import { evolve } from "./evolve.ts";
import { momentPlan } from "./moment-plan.ts";
import { stageWork, workPoint } from "./stage-work.ts";

const frictionless = (plan: Plan): Plan => ({
  ...plan,
  gear: plan.gear.map((g) => (g.kind === "sheave" ? { ...g, efficiency: 1 } : g)),
});
const carried = (plan: Plan) =>
  plan.evolution.stages.flatMap((s, i) => (s.aboard.length > 0 && s.path.length > 0 ? [i] : []));
const STEPS = 60;
const points = (plan: Plan, stage: number) =>
  Array.from({ length: STEPS + 1 }, (_, k) => workPoint(assess(momentPlan(plan, { stage, along: k / STEPS }))));
const workOf = (plan: Plan, stage: number) => {
  const found = stageWork(points(plan, stage));
  if (found === null) throw new Error("nothing solved");
  return found;
};
/** What carrying the load as far straight up would take: on a level way the work put in is next to nothing. */
const sizeOf = (plan: Plan, stage: number): number => {
  const massKg = plan.rig.load.parts.reduce(
    (sum, p) => (plan.evolution.stages[stage]?.aboard.includes(p.id) ? sum + (p.massKg ?? 0) : sum),
    0,
  );
  return massKg * 9.80665 * (evolve(plan).stages[stage]?.pathM ?? 0);
};
const CASES = [
  ["crossing", crossingExample],
  ["roof", roofExample],
].flatMap(([key, plan]) => carried(plan as Plan).map((stage) => [key, stage, plan] as [string, number, Plan]));

/**
 * Principle of virtual work: what goes in at brakes and hands is what the load gains, what sheaves take and what the stretch holds.
 * Each of the four is summed on its own, so none can be made of the others.
 */
describe("the work of a stage", () => {
  it("is asked of every stage that carries a load on its way", () => expect(CASES).toHaveLength(11));

  it.each(CASES)("closes to one in a thousand without friction: %s, stage of index %i", (_, stage, example) => {
    const plan = frictionless(example);
    const { putInJ, gainedJ, frictionJ, strainJ } = workOf(plan, stage).work;
    expect(frictionJ).toBe(0);
    expect(Math.abs(putInJ - gainedJ - strainJ)).toBeLessThan(1e-3 * sizeOf(plan, stage));
  });

  it.each(CASES)("closes to one in a thousand with friction: %s, stage of index %i", (_, stage, plan) => {
    const { putInJ, gainedJ, frictionJ, strainJ } = workOf(plan, stage).work;
    expect(Math.abs(putInJ - gainedJ - frictionJ - strainJ)).toBeLessThan(1e-3 * sizeOf(plan, stage));
    expect(frictionJ).toBeGreaterThan(0.01 * sizeOf(plan, stage));
  });

  it.each(CASES)("has no sheave give work back at any step: %s, stage of index %i", (_, stage, plan) => {
    const all = points(plan, stage);
    for (let i = 1; i < all.length; i++)
      expect(stageWork(all.slice(i - 1, i + 1))?.work.frictionJ).toBeGreaterThanOrEqual(0);
  });

  it.each(CASES.filter(([key]) => key === "crossing"))(
    "takes as much as capstan friction of each sheave's wrap takes: %s, stage of index %i",
    (_, stage, plan) => {
      // T out = T in × η^(−θ/π), η the sheave's efficiency for half a turn, θ from the places the rope turns at; over the rope taken in.
      let expected = 0;
      for (let k = 0; k < STEPS; k++) {
        const [a, b] = [0, 1].map((next) => evaluateAt(plan, { stage, along: (k + next) / STEPS })) as [
          Evaluation,
          Evaluation,
        ];
        for (const [i, line] of a.lines.entries()) {
          const main = plan.rig.mainLines.find((m) => m.id === line.id);
          if (!main) continue;
          const efficiencies = [main.tip.sheave, ...main.redirects.map((r) => r.sheave)].map((id) => {
            const sheave = plan.gear.find((g) => g.id === id);
            return sheave?.kind === "sheave" ? (sheave.efficiency ?? Number.NaN) : Number.NaN;
          });
          const takenInM = line.pathM - (b.lines[i]?.pathM ?? Number.NaN);
          let tensionN = ((line.tensionsN.raise[0] ?? 0) + (b.lines[i]?.tensionsN.raise[0] ?? 0)) / 2;
          const at = line.nodes.map((n) => n.at);
          for (const [n, efficiency] of efficiencies.entries()) {
            const [p, q, r] = [at[n], at[n + 1], at[n + 2]];
            if (!p || !q || !r) throw new Error("a sheave without its rope");
            const [u, v] = [q.map((c, x) => c - (p[x] ?? 0)), r.map((c, x) => c - (q[x] ?? 0))] as [number[], number[]];
            const dot = u.reduce((sum, c, x) => sum + c * (v[x] ?? 0), 0);
            const wrap = Math.acos(Math.min(1, Math.max(-1, dot / (Math.hypot(...u) * Math.hypot(...v)))));
            const ratio = efficiency ** (wrap / Math.PI);
            const beyondN = takenInM >= 0 ? tensionN / ratio : tensionN * ratio;
            expected += Math.abs(beyondN - tensionN) * Math.abs(takenInM);
            tensionN = beyondN;
          }
        }
      }
      const { frictionJ } = workOf(plan, stage).work;
      // Ropes weigh some tens of newtons between tip and ground, and tip sheaves move on their slings: three in a hundred.
      expect(Math.abs(frictionJ / expected - 1)).toBeLessThan(0.03);
    },
  );

  it("tells a rope's run both ways", () => {
    const { runs } = workOf(roofExample, 7);
    expect(runs.map((r) => r.lineId)).toEqual(["main-a", "main-b"]);
    const along = Array.from({ length: STEPS + 1 }, (_, k) => evaluateAt(roofExample, { stage: 7, along: k / STEPS }));
    const paths = along.map((e) => e.lines[0]?.pathM ?? Number.NaN);
    const steps = paths.slice(1).map((p, i) => (paths[i] ?? Number.NaN) - p);
    const sum = (xs: number[]) => xs.reduce((a, b) => a + b, 0);
    expect(runs[0]?.takenInM).toBeCloseTo(sum(steps.filter((s) => s > 0)), 9);
    expect(runs[0]?.letOutM).toBeCloseTo(-sum(steps.filter((s) => s < 0)), 9);
  });
});

describe("a stage on which the load is not held all the way", () => {
  it("has no work told: the load goes by jumps there", () => {
    const { aerial } = roofExample;
    const pose = { ...aerial.pose, bearingRad: aerial.pose.bearingRad + 0.1 };
    const swung = evolve({ ...roofExample, aerial: { ...aerial, pose } });
    const first = (stage: number): number => swung.stages[stage]?.moments[0] ?? 0;
    const isHeld = (stage: number): boolean =>
      swung.moments
        .slice(first(stage), (swung.stages[stage]?.moments[1] ?? -1) + 1)
        .every(({ holds }) => holds === "held");
    let not = 0;
    for (const stage of carried(roofExample)) {
      if (isHeld(stage)) continue;
      not++;
      expect(swung.stages[stage]?.work).toBeNull();
      expect(evolve(roofExample).stages[stage]?.work).not.toBeNull();
    }
    expect(not).toBeGreaterThan(3);
  });
});
