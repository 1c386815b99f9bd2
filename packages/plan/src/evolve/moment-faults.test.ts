import { describe, expect, it } from "vitest";
import { assess } from "../assess.ts";
import { crossingExample } from "../examples/crossing.ts";
import { roofExample } from "../examples/roof.ts";
import type { LineUse, Stage } from "../schema/evolution.ts";
import type { Plan } from "../schema/plan.ts";
import { writePhrase } from "../units/write-amount.ts";
import { evaluateAt } from "./evaluate-at.ts";
import { evolve } from "./evolve.ts";
import { momentFaults } from "./moment-faults.ts";
import { momentPlan } from "./moment-plan.ts";

const withStage = (plan: Plan, id: string, change: Partial<Stage>): Plan => ({
  ...plan,
  evolution: {
    ...plan.evolution,
    stages: plan.evolution.stages.map((s) => (s.id === id ? { ...s, ...change } : s)),
  },
});
const at = (plan: Plan, id: string, along: number) => {
  const stage = plan.evolution.stages.findIndex((s) => s.id === id);
  return momentFaults(assess(momentPlan(plan, { stage, along })));
};
const told = (plan: Plan, id: string, along: number): string[] =>
  at(plan, id, along).map((f) => `${f.status} ${writePhrase(f.says, "metric")}`);

const use = (rest: Partial<LineUse>): LineUse => ({
  on: true,
  drive: "asNeeded",
  tensionN: null,
  lengthM: null,
  ...rest,
});

describe("a load that is not held on its way", () => {
  it("is told what its way leads through, as well as where it would go", () => {
    // Drawn in behind the ladder, under which the load comes up.
    const plan = withStage(roofExample, "let-out", { path: [[0, 3, 14]] });
    expect(told(plan, "let-out", 0.8)).toContainEqual("over the way of the load leads through the ladder.");
    expect(told(plan, "let-out", 0.8).join()).toContain("nothing holds the load on its way");
    expect(told(roofExample, "let-out", 0.5)).toEqual([]);
    const stage = evolve(plan).stages[4];
    const way = stage?.problems.filter((p) => writePhrase(p.says, "metric").includes("leads through the ladder")) ?? [];
    expect(way).toHaveLength(1);
    expect(way[0]?.between[0]).toBeGreaterThan(0.4);
  });

  it("comes down on the ground and goes no deeper", () => {
    const plan = withStage(crossingExample, "across", { path: [[500, 10.66, 9.5]] });
    const [drift] = at(plan, "across", 1);
    // On level ground at 0 the litter lies with the yoke a metre of bridle and half a metre of litter above it.
    const standing = drift?.drift?.goesTo ?? [0, 0, 0];
    expect(standing[2]).toBeGreaterThan(1.49);
    expect(standing[2]).toBeLessThanOrEqual(1.5);
    const [, last = 0] = evolve(plan).stages[3]?.moments ?? [];
    expect(evolve(plan).moments[last]?.yoke).toEqual(standing);
    // The moment by itself shows the same, with the main lines slack and the load's weight on the ground, less what taglines lift.
    const { load, lines, ledger } = evaluateAt(plan, { stage: 3, along: 1 });
    expect(load.yoke).toEqual(standing);
    for (const line of lines.filter(({ role }) => role === "main")) expect(line.tensionsN.raise[0]).toBe(0);
    expect(load.groundN?.[2]).toBeGreaterThan(0.8 * (load.weightN ?? 0));
    expect(ledger.find((c) => c.id === "holding")?.status).toBe("over");
    expect(told(plan, "across", 1)).toEqual([
      expect.stringMatching(/4\d\d\.\d.m aside, .*, and come down on the ground\./),
    ]);
  });

  it("may stand on a roof where its way does", () => {
    const off = { tether: use({ on: false }) };
    const plan = withStage(roofExample, "to-roof", { path: [[0.8, 10.4, 11.4]], lines: off });
    expect(told(plan, "to-roof", 1).join()).toContain("nothing holds the load on its way");
    expect(told(plan, "to-roof", 1).join()).not.toContain("leads through");
  });
});

describe("a line that keeps its length", () => {
  it("is told by how much it is too long or too short, and where the load goes", () => {
    const tether = (lengthM: number) =>
      withStage(roofExample, "beside-wall", { lines: { tether: use({ drive: "length", lengthM }) } });
    expect(told(tether(5.5), "beside-wall", 0.7)[0]).toMatch(
      /^over nothing holds the load .*Tether is made fast at 5\.50.m, and 1\.5\d.m is needed: 3\.9\d.m too long\.$/,
    );
    expect(told(tether(1), "beside-wall", 0.7)[0]).toMatch(
      /made fast at 1\.00.m, and 1\.5\d.m is needed: 0\.5\d.m too short\.$/,
    );
    const plan = tether(5.5);
    const { moments, stages } = evolve(plan);
    const [first = 0, last = 0] = stages[2]?.moments ?? [];
    expect(moments.slice(first, last + 1).every((m) => m.holds === "drifts")).toBe(true);
  });

  it("is told where the tackle goes no further", () => {
    const { tether } = roofExample.rig;
    if (!tether) throw new Error("no tether");
    const plan = { ...roofExample, rig: { ...roofExample.rig, tether: { ...tether, lengthMaxM: 3 } } };
    expect(told(plan, "to-roof", 1)[0]).toMatch(
      /^over nothing holds the load .*The tackle of Tether runs out at 3\.00.m, and 5\.80.m is needed: 2\.80.m too short\.$/,
    );
  });
});

describe("what is not known at a moment", () => {
  it.each([
    [
      "a pull that is not given",
      withStage(crossingExample, "raise", { lines: { "tag-west": use({ drive: "tension" }) } }),
      "unknown No force can be worked out: the pull on West tagline is not given.",
    ],
    [
      "a tether that rides nothing",
      {
        ...crossingExample,
        rig: {
          ...crossingExample.rig,
          tether: roofExample.rig.tether && { ...roofExample.rig.tether, rides: ["none"] },
        },
      },
      "unknown Tether rides no main line that is on the load.",
    ],
    [
      "a load without mass",
      {
        ...crossingExample,
        rig: {
          ...crossingExample.rig,
          load: {
            ...crossingExample.rig.load,
            parts: crossingExample.rig.load.parts.map((p) => ({ ...p, massKg: 0 })),
          },
        },
      },
      "unknown No force can be worked out: nothing with a mass is on the ropes.",
    ],
  ] as const)("is told: %s", (_, plan, says) => {
    expect(told(plan, "raise", 0.5)).toEqual([says]);
    expect(evolve(plan).stages[2]?.worst.status).not.toBe("within");
  });

  it("is not told again where the stage as written tells it: a mass", () => {
    const parts = crossingExample.rig.load.parts.map((p) => ({ ...p, massKg: null }));
    const plan = { ...crossingExample, rig: { ...crossingExample.rig, load: { ...crossingExample.rig.load, parts } } };
    expect(told(plan, "raise", 0.5)).toEqual([]);
  });
});
