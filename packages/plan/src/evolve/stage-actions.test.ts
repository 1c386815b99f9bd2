import { describe, expect, it } from "vitest";
import { EXAMPLES } from "../examples/all-examples.ts";
import { crossingExample } from "../examples/crossing.ts";
import type { Stage } from "../schema/evolution.ts";
import type { Plan } from "../schema/plan.ts";
import { writePhrase } from "../units/write-amount.ts";
import { writtenProblems } from "./stage-problems.ts";

const RAISE = 2;
const raised = (change: Partial<Stage>): Plan => ({
  ...crossingExample,
  evolution: {
    ...crossingExample.evolution,
    stages: crossingExample.evolution.stages.map((s, i) => (i === RAISE ? { ...s, ...change } : s)),
  },
});
const found = (plan: Plan, stage = RAISE): string[] =>
  writtenProblems(plan, stage, []).map((p) => `${p.status} ${p.field} ${writePhrase(p.says, "metric")}`);
/** The way goes from 1.5 m up to 9.3 m, 5 cm aside. */
const on = { on: true, tensionN: null, lengthM: null } as const;

describe("what is done in a stage", () => {
  it.each(EXAMPLES.map((e) => [e.key, e.plan] as const))("fits its way in the %s example", (_, plan) => {
    const says = plan.evolution.stages.flatMap((_, i) => found(plan, i));
    expect(says.filter((s) => s.includes("Entered as") || s.includes("is entered as"))).toEqual([]);
  });

  it.each([
    ["lower", "Entered as lowering, but its way ends 7.80"],
    ["hold", "Entered as holding, but the load goes a way of 7.80"],
    ["package", "Entered as packaging, but the load goes a way of 7.80"],
    ["rig", "Entered as rigging or striking lines, but the load goes a way of 7.80"],
  ] as const)("is told where %s contradicts it", (action, says) => {
    expect(found(raised({ action }))).toEqual([
      expect.stringContaining(`over evolution.stages[${RAISE}].action ${says}`),
    ]);
  });

  it("is told where a load that is raised comes down", () => {
    const down = crossingExample.evolution.stages.map((s) =>
      s.id === "lower" ? { ...s, action: "raise" as const } : s,
    );
    const plan = { ...crossingExample, evolution: { ...crossingExample.evolution, stages: down } };
    expect(found(plan, 4)).toEqual([expect.stringContaining("Entered as raising, but its way ends 7.80")]);
  });

  it("lets an empty yoke be drawn along while lines are rigged", () => {
    const stages = crossingExample.evolution.stages.map((s, i) =>
      i === 5 ? { ...s, path: [[1.6, 10.66, 2.5]] as Stage["path"] } : s,
    );
    expect(found({ ...crossingExample, evolution: { ...crossingExample.evolution, stages } }, 5)).toEqual([]);
  });
});

describe("a main line in a stage", () => {
  const { lines } = crossingExample.evolution.stages[RAISE] as Stage;

  it("is told where a length or a pull is entered for it, as neither is followed", () => {
    const fast = found(raised({ lines: { ...lines, "main-a": { ...on, drive: "length", lengthM: 30 } } }));
    expect(fast).toEqual([
      expect.stringMatching(/^over evolution\.stages\[2\]\.lines Main A is entered as made fast at 30\.00/),
    ]);
    const pulled = found(raised({ lines: { ...lines, "main-a": { ...on, drive: "tension", tensionN: 300 } } }));
    expect(pulled).toEqual([expect.stringMatching(/Main A is entered as pulled steadily with 0\.30.*is not followed/)]);
    expect(found(raised({ lines: { ...lines, "main-a": { ...on, drive: "length" } } }))).toEqual([
      expect.stringContaining("Main A is entered as made fast, which is not followed"),
    ]);
  });

  it("is as needed, or off the load", () => {
    const uses = { "main-a": { ...on, drive: "asNeeded" }, "main-b": { ...on, on: false, drive: "length" } } as const;
    expect(found(raised({ lines: { ...lines, ...uses } }))).toEqual([]);
  });
});
