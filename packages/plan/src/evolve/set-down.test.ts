import { describe, expect, it } from "vitest";
import { EXAMPLES } from "../examples/all-examples.ts";
import { crossingExample } from "../examples/crossing.ts";
import { roofExample } from "../examples/roof.ts";
import type { Stage } from "../schema/evolution.ts";
import type { Plan } from "../schema/plan.ts";
import { writePhrase } from "../units/write-amount.ts";
import { evolve } from "./evolve.ts";
import type { Fault } from "./fault.ts";
import { setDownProblems } from "./set-down.ts";

const withStages = (plan: Plan, stages: readonly Stage[], startM = plan.evolution.startM): Plan => ({
  ...plan,
  evolution: { startM, stages: [...stages] },
});
const changed = (plan: Plan, changes: Readonly<Record<string, Partial<Stage>>>): Stage[] =>
  plan.evolution.stages.map((s) => ({ ...s, ...changes[s.id] }));
/** All that is found, as `stage index: status field at, sentence`. */
const found = (plan: Plan): string[] =>
  plan.evolution.stages.flatMap((_, i) => {
    const lines: string[] = [];
    const add = (status: Fault["status"], at: string, says: Fault["says"], along?: number): void => {
      lines.push(`${i}: ${status} ${at} ${along}, ${writePhrase(says, "metric")}`);
    };
    setDownProblems(plan, i, add);
    return lines;
  });

describe("who comes onto the ropes and leaves them", () => {
  it.each(EXAMPLES.map((e) => [e.key, e.plan] as const))("stands on something in the %s example", (_, plan) =>
    expect(found(plan)).toEqual([]),
  );

  it("is not set down where the last stage leaves the casualty in the air", () => {
    // Yoke at 9.3 m, a metre of bridle and half a metre of litter: 7.8 m above the level ground.
    const plan = withStages(crossingExample, crossingExample.evolution.stages.slice(0, 4));
    expect(found(plan)).toEqual([expect.stringMatching(/^3: over path 1, .*ends with Casualty still on.*7\.80/)]);
    const evolution = evolve(plan);
    expect(evolution.stages[3]?.problems).toMatchObject([
      { status: "over", when: { stage: 3, along: 1 }, between: [1, 1] },
    ]);
    expect(evolution.ledger.find((c) => c.id === "stage/across/1")?.status).toBe("over");
    expect(evolution.moments.at(-1)).toMatchObject({ worst: { status: "over" }, problems: ["stage/across/1"] });
  });

  it("may leave an empty litter hanging at the end", () => {
    const four = crossingExample.evolution.stages.slice(0, 4);
    const empty = four.map((s) => ({ ...s, aboard: s.aboard.filter((id) => id !== "casualty") }));
    expect(found(withStages(crossingExample, empty))).toEqual([]);
  });

  it("does not come aboard in mid-air", () => {
    // Rescuer alone up to plumb, yoke at 14 m over the roof at 9 m: 0.6 m of bridle, 1.8 m of load: 2.6 m above it.
    const aboard = ["rescuer", "casualty", "hardware"];
    const plan = withStages(roofExample, changed(roofExample, { "to-roof": { aboard } }));
    expect(found(plan)).toEqual([expect.stringMatching(/^5: over aboard 0, Casualty, seated: on the ropes.*2\.60/)]);
  });

  it("does not begin in the air", () => {
    const startM: Plan["evolution"]["startM"] = [-1.6, 10.66, 9];
    const plan = withStages(
      crossingExample,
      changed(crossingExample, { raise: { path: [[-1.55, 10.66, 9.3]] } }),
      startM,
    );
    expect(found(plan)).toEqual([
      expect.stringMatching(/^1: over aboard 0, Casualty and Basket litter and Bridle.*hangs 7\.50/),
    ]);
    const [, , raise] = changed(crossingExample, {});
    expect(found(withStages(crossingExample, [raise as Stage], startM))).toContainEqual(
      expect.stringMatching(/^0: over aboard 0/),
    );
  });

  it("names both where one takes the other's place in the air", () => {
    const at = { aboard: ["casualty", "hardware"], path: roofExample.evolution.stages[4]?.path ?? [] };
    const plan = withStages(roofExample, changed(roofExample, { "to-roof": at }));
    expect(found(plan).slice(0, 2)).toEqual([
      expect.stringMatching(/^5: over aboard 0, Rescuer with kit: off the ropes/),
      expect.stringMatching(/^5: over aboard 0, Casualty, seated: on the ropes/),
    ]);
  });
});
