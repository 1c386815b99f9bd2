import { describe, expect, it } from "vitest";
import { evaluate } from "../evaluate.ts";
import { EXAMPLES } from "../examples/all-examples.ts";
import { crossingExample } from "../examples/crossing.ts";
import { faultExample } from "../examples/fault.ts";
import { roofExample } from "../examples/roof.ts";
import type { Stage } from "../schema/evolution.ts";
import type { Plan } from "../schema/plan.ts";
import { writePhrase } from "../units/write-amount.ts";
import { evaluateAt } from "./evaluate-at.ts";
import { evolve } from "./evolve.ts";
import { momentPlan, stageStart } from "./moment-plan.ts";

const withStage = (plan: Plan, id: string, change: Partial<Stage>): Plan => ({
  ...plan,
  evolution: {
    ...plan.evolution,
    stages: plan.evolution.stages.map((s) => (s.id === id ? { ...s, ...change } : s)),
  },
});
/** The plan with one stage alone, begun where that stage begins. */
const withStages = (plan: Plan, index: number): Plan => {
  const [x, y, z] = stageStart(plan, index);
  return { ...plan, evolution: { startM: [x, y, z], stages: plan.evolution.stages.slice(index, index + 1) } };
};
const frictionless = (plan: Plan): Plan => ({
  ...plan,
  gear: plan.gear.map((g) => (g.kind === "sheave" ? { ...g, efficiency: 1 } : g)),
});
const saysOf = (plan: Plan, stage: number): string =>
  evolve(plan)
    .stages[stage]?.problems.map((p) => writePhrase(p.says, "metric"))
    .join(" ") ?? "";

describe("evolve", () => {
  it.each([
    ["crossing", crossingExample],
    ["roof", roofExample],
  ])("carries the %s example from ground to ground with nothing over at any moment", (_, plan) => {
    const evolution = evolve(plan);
    expect(evolution.stages.length).toBeGreaterThanOrEqual(6);
    expect(evolution.stages.flatMap((s) => s.problems)).toEqual([]);
    expect(evolution.ledger.filter((c) => c.counts && c.status === "over")).toEqual([]);
    expect(
      evolution.ledger.filter((c) => c.counts && c.status === "unknown").every((c) => c.rule === "example-data"),
    ).toBe(true);
    expect(evolution.moments.every((m) => m.holds === "held")).toBe(true);
  });

  it.each([
    ["crossing", crossingExample],
    ["roof", roofExample],
  ])("closes the work of every stage of the %s example to one in a thousand", (_, plan) => {
    // Virtual work: what goes in at brakes and hands is what the load gains and what the sheaves take. On a level way that
    // is next to nothing beside what the lines hand to each other, some hundreds of newtons over the way.
    let checked = 0;
    for (const { work, pathM } of evolve(plan).stages) {
      if (work === null || pathM === 0) continue;
      const size = Math.abs(work.putInJ) + Math.abs(work.gainedJ) + Math.abs(work.frictionJ) + 100 * pathM;
      expect(Math.abs(work.putInJ - work.gainedJ - work.frictionJ)).toBeLessThan(1e-3 * size);
      checked++;
    }
    expect(checked).toBeGreaterThanOrEqual(3);
  });

  it("draws the rescuer in by the tether, and lets go of it at plumb", () => {
    const { series, stages } = evolve(roofExample);
    const pulls = series.find((s) => s.id === "tension/tether")?.values ?? [];
    const [first, last] = stages.find((s) => s.stage.id === "beside-wall")?.moments ?? [0, 0];
    expect(Math.min(...pulls.slice(first, last + 1).map((v) => v ?? 0))).toBeGreaterThan(100);
    const plumb = stages.find((s) => s.stage.id === "to-roof")?.moments[1] ?? 0;
    expect(pulls[plumb]).toBeLessThan(20);
  });

  it.each(EXAMPLES.map((e) => [e.key, e.plan] as const))(
    "finds every worst ratio of %s within one per cent of a sweep ten times finer",
    (_, plan) => {
      const evolution = evolve(plan);
      const found = new Map(evolution.ledger.map((c) => [c.id, c.ratio]));
      for (const [index, { stage, moments, pathM }] of evolution.stages.entries()) {
        if (pathM === 0 || stage.action === "moveLadder") continue;
        const steps = (moments[1] - moments[0]) * 10;
        for (let k = 0; k <= steps; k++) {
          for (const check of evaluate(momentPlan(plan, { stage: index, along: k / steps })).ledger) {
            if (check.ratio === null || check.rule === "attendant-check") continue;
            const worst = found.get(check.id) ?? null;
            expect(check.ratio, `${check.id} at ${index + 1}, ${k / steps}`).toBeLessThanOrEqual(
              (worst ?? Number.NaN) * 1.01 + 1e-9,
            );
          }
        }
      }
    },
  );

  it("gives the same tensions for a stage run backwards over frictionless sheaves", () => {
    const plan = frictionless(crossingExample);
    const index = 2;
    const way = [plan.evolution.startM, ...(plan.evolution.stages[index]?.path ?? [])];
    const back = [...way].reverse();
    const reversed: Plan = {
      ...plan,
      evolution: {
        startM: back[0] ?? plan.evolution.startM,
        stages: [{ ...(plan.evolution.stages[index] as Stage), path: back.slice(1), motion: "lower", action: "lower" }],
      },
    };
    for (const along of [0, 0.2, 0.5, 0.83, 1]) {
      const up = evaluate(momentPlan(plan, { stage: index, along }));
      const down = evaluate(momentPlan(reversed, { stage: 0, along: 1 - along }));
      for (const [i, line] of up.lines.entries()) {
        for (const [k, tension] of line.tensionsN.raise.entries())
          expect(down.lines[i]?.tensionsN.lower[k]).toBeCloseTo(tension, 6);
      }
    }
  });

  it("has no number that is not finite, and no stage where there is none", () => {
    for (const { plan } of EXAMPLES) {
      const text = JSON.stringify(evolve(plan), (_, v) =>
        typeof v === "number" && !Number.isFinite(v) ? "NOT FINITE" : v,
      );
      expect(text).not.toContain("NOT FINITE");
    }
    const none = evolve({ ...crossingExample, evolution: { ...crossingExample.evolution, stages: [] } });
    expect([none.stages, none.moments]).toEqual([[], []]);
  });
});

describe("a stage that cannot be carried out", () => {
  it("says that nobody is on rope while the ladder moves", () => {
    const evolution = evolve(faultExample);
    expect(evolution.worst.status).toBe("over");
    expect(evolution.ledger.filter((c) => c.rule === "stage").every((c) => c.status === "over")).toBe(true);
    expect(saysOf(faultExample, 3)).toContain("A person is on the ropes while the ladder moves.");
    expect(saysOf(faultExample, 3)).toContain("West tagline is made fast while the ladder moves");
  });

  it("tells a waypoint inside a wall, and works the rest", () => {
    const plan = withStage(crossingExample, "across", {
      path: [
        [0, 10.66, 5],
        [1.55, 10.66, 9.3],
      ],
    });
    expect(saysOf(plan, 3)).toContain('Way point 1 lies inside "Flood wall".');
    const evolution = evolve(plan);
    expect(evolution.ledger.find((c) => c.id === "clearance/load/load/flood-wall")?.status).toBe("over");
    expect(evolution.stages[4]?.work).not.toBeNull();
  });

  it("tells a line that is not rigged and a part that is not there", () => {
    const plan = withStage(crossingExample, "raise", {
      aboard: ["casualty", "piano"],
      lines: { "tag-north": { on: true, drive: "asNeeded", tensionN: null, lengthM: null } },
    });
    const says = saysOf(plan, 2);
    expect(says).toContain('Line "tag-north" is used in this stage but is not rigged.');
    expect(says).toContain('"piano" is aboard, but no part of the load has this id.');
  });

  it("does not know a stage whose load has an unknown mass", () => {
    const parts = crossingExample.rig.load.parts.map((p) => (p.id === "casualty" ? { ...p, massKg: null } : p));
    const plan = { ...crossingExample, rig: { ...crossingExample.rig, load: { ...crossingExample.rig.load, parts } } };
    const evolution = evolve(plan);
    expect(evolution.ledger.find((c) => c.id === "stage/raise/1")?.status).toBe("unknown");
    expect(saysOf(plan, 2)).toContain("The mass of Casualty is not known");
    expect(evolution.stages[0]?.problems).toEqual([]);
  });

  it("says what pull is missing where nothing holds the load on its way", () => {
    const off = { on: false, drive: "asNeeded", tensionN: null, lengthM: null } as const;
    const says = saysOf(withStage(crossingExample, "across", { lines: { "tag-west": off, "tag-east": off } }), 3);
    expect(says).toMatch(/nothing holds the load on its way; it would go .* aside/);
    expect(says).toMatch(/Missing: a pull toward bearing/);
  });

  it.each([
    ["with nothing on the ropes", roofExample.evolution.stages.findIndex((s) => s.aboard.length === 0)],
    ["with a load", roofExample.evolution.stages.findIndex((s) => s.aboard.length > 0)],
    ["with the ladder moving", roofExample.evolution.stages.findIndex((s) => s.action === "moveLadder")],
  ])("judges a single moment by the checks the sweep has in its stage: %s", (_, stage) => {
    const alone = { ...roofExample, evolution: { ...roofExample.evolution, stages: [] } };
    const plan = withStages(roofExample, stage);
    const swept = evolve(plan).ledger.filter((c) => c.rule !== "stage");
    const one = evaluateAt(roofExample, { stage, along: 0.5 }).ledger.filter((c) => c.rule !== "attendant-check");
    expect(one.length).toBeGreaterThan(5);
    expect(one.map((c) => c.id).filter((id) => !swept.some((c) => c.id === id))).toEqual([]);
    expect(evaluateAt(alone, { stage: 0, along: 0 }).ledger).toEqual(evaluate(alone).ledger);
  });

  it("tells the rope that must run free while the empty ladder moves", () => {
    const stow = evolve(roofExample).stages.at(-1);
    expect(stow?.freeRope.map((r) => r.lineId)).toEqual(["main-a", "main-b"]);
    for (const { changeM } of stow?.freeRope ?? []) expect(changeM).toBeLessThan(-5);
  });
});
