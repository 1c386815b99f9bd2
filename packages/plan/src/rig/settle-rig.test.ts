import { norm, type SiteVector, subtract, unit } from "@gantline/engine";
import { describe, expect, it } from "vitest";
import { evaluate } from "../evaluate.ts";
import type { Evaluation } from "../evaluation.ts";
import { momentPlan } from "../evolve/moment-plan.ts";
import { roofExample } from "../examples/roof.ts";
import type { Plan } from "../schema/plan.ts";

/** Without friction, whose own place of the pulley is tested beside it (`tether-friction.test.ts`). */
const plan: Plan = {
  ...roofExample,
  gear: roofExample.gear.map((g) => (g.kind === "sheave" ? { ...g, efficiency: 1 } : g)),
};
const stages = plan.evolution.stages.map((_, stage) => stage);
const along = [0, 0.2, 0.4, 0.6, 0.8, 1];

/** The same with the tether's pulley on one main line alone. */
const onOne: Plan = {
  ...plan,
  rig: { ...plan.rig, tether: plan.rig.tether && { ...plan.rig.tether, rides: [plan.rig.mainLines[0]?.id ?? ""] } },
};

/**
 * What is left over along the way the riding pulley can move, in parts of the tether's pull: the sum of the pulls of the ropes
 * through it and of the tether, taken apart from the solver that placed it (statics of a ring on a rope: balance of forces).
 */
function leftAtPulley(plan: Plan, e: Evaluation): number | null {
  const { tether } = e;
  if (tether === null || tether.against !== null || !(tether.tensionN > 1)) return null;
  const at = tether.pulleyAt;
  const rides = plan.rig.tether?.rides ?? [];
  const pulls: SiteVector[] = [pull(at, e.load.yoke, tether.tensionN)];
  for (const line of e.lines.filter(({ id }) => rides.includes(id))) {
    const k = line.nodes.findIndex((n) => norm(subtract(n.at, at)) < 1e-9);
    const [before, after] = [line.nodes[k - 1], line.nodes[k + 1]];
    if (!before || !after) throw new Error(`${line.id} does not run through the pulley.`);
    const tensionN = (line.tensionsN.raise[0] ?? line.tensionsN.lower[0]) as number;
    pulls.push(pull(at, before.at, tensionN), pull(at, after.at, tensionN));
  }
  const sum = [0, 1, 2].map((i) => pulls.reduce((s, p) => s + (p[i] ?? 0), 0));
  return Math.hypot(...sum) / tether.tensionN;
}

const pull = (from: SiteVector, to: SiteVector, n: number): SiteVector =>
  unit(subtract(to, from)).map((x) => x * n) as unknown as SiteVector;

describe("parts without a fixed place", () => {
  it.each([
    ["both main lines", plan],
    ["one main line", onOne],
  ])("are at rest wherever a load is held, with the tether's pulley on %s", (_, ridden) => {
    let looked = 0;
    for (const stage of stages) {
      for (const a of along) {
        const left = leftAtPulley(ridden, evaluate(momentPlan(ridden, { stage, along: a })));
        if (left === null) continue;
        looked++;
        expect(left, `stage ${stage + 1}, ${a}`).toBeLessThan(1e-3);
      }
    }
    expect(looked).toBeGreaterThan(4);
  });

  it("are at rest where a tackle drawn together to its shortest leaves the load", () => {
    // Drawn in by one rope alone, the pulley comes to the yoke before the load is that near: the tackle's blocks meet first.
    const e = evaluate(momentPlan(onOne, { stage: 3, along: 0 }));
    expect(e.holding.state).toBe("drifts");
    expect(e.tether?.lengthM).toBeCloseTo(e.tether?.lengthMinM ?? Number.NaN, 2);
    expect(leftAtPulley(onOne, e)).toBeLessThan(1e-3);
    expect(e.worst.status).toBe("over");
  });

  it("give no numbers, and say why, where nothing holds the load", () => {
    const moment = momentPlan(plan, { stage: 3, along: 0 });
    const above: Plan = { ...moment, rig: { ...moment.rig, load: { ...moment.rig.load, positionM: [0, 8, 40] } } };
    const e = evaluate(above);
    expect(e.tether).toBeNull();
    expect(e.worst.status).toBe("over");
    expect(JSON.stringify(e.holding)).toContain("the yoke must hang below the tip sheaves");
  });

  it("are not placed by a tether whose pull is not known", () => {
    const { tether } = plan.rig;
    if (tether === null) throw new Error("The example has no tether.");
    const moment = momentPlan(plan, { stage: 2, along: 0.8 });
    const untold: Plan = {
      ...moment,
      rig: { ...moment.rig, tether: { ...tether, drive: "tension", tensionN: null } },
    };
    const e = evaluate(untold);
    expect(e.tether).toBeNull();
    expect(JSON.stringify(e.holding)).toContain("is not given");
  });
});
