import { STANDARD_GRAVITY_MS2, tackleAdvantage } from "@gantline/engine";
import { describe, expect, it } from "vitest";
import { evaluateAt } from "../evolve/evaluate-at.ts";
import { momentPlan } from "../evolve/moment-plan.ts";
import { crossingExample } from "../examples/crossing.ts";
import { sumLoad } from "../rig/sum-load.ts";
import type { TechniqueId, TechniqueRow } from "./let-go-plan-types.ts";
import { techniques } from "./techniques.ts";
import { techniquesCsv } from "./techniques-csv.ts";

const WHEN = { stage: 3, along: 0.5 };

describe("techniques side by side", () => {
  const rows = techniques(crossingExample, WHEN);
  const row = (id: TechniqueId, attendant = false): TechniqueRow => {
    const found = rows.find((r) => r.id === id && r.attendant === attendant);
    if (!found) throw new Error(`no ${id}`);
    return found;
  };

  it("are five, each with an attendant and without", () => {
    expect(rows).toHaveLength(10);
    expect(new Set(rows.map((r) => `${r.id} ${r.attendant}`)).size).toBe(10);
  });

  it("come from the same pipeline: the plan's own technique is what evaluate says of it", () => {
    const { felt } = evaluateAt(crossingExample, WHEN);
    const worst = Math.max(...Object.values(felt).map((f) => f.inBeam.resultantN));
    expect(row("two-tension").figures?.tipInBeam.resultantN).toBeCloseTo(worst, 6);
  });

  it("with a heavier load more at the tip, in the same ratio", () => {
    const without = sumLoad(momentPlan(crossingExample, WHEN)).massKg ?? Number.NaN;
    for (const id of ["two-tension", "tackle-at-tip"] as const) {
      const ratio = (row(id, true).figures?.tipInBeam.resultantN ?? 0) / (row(id).figures?.tipInBeam.resultantN ?? 1);
      // The wind is the same, and the pulls that hold the load against it: about, not just.
      expect(ratio).toBeCloseTo((without + 100) / without, 1);
    }
  });

  it("a tackle at the tip puts the load and its lead on it, and is a single rope", () => {
    const weightN = (sumLoad(momentPlan(crossingExample, WHEN)).massKg ?? Number.NaN) * STANDARD_GRAVITY_MS2;
    const found = row("tackle-at-tip");
    // Tension method with sheave efficiency, reference page: lead W ÷ (1 + η + η² + η³); at the tip, raising, a further 1/η^(θ/π).
    const lead = weightN / tackleAdvantage(4, 0.93);
    const tip = found.figures?.tipInBeam.resultantN ?? Number.NaN;
    expect(tip).toBeGreaterThan(weightN);
    expect(tip).toBeLessThan((weightN + lead / 0.93) * 1.02);
    expect(found.worst?.outcome).toBe("falls");
  });

  it("a slack belay takes a harder blow than two ropes in tension", () => {
    const [even, slack] = [row("two-tension"), row("main-and-slack-belay")];
    const peak = ({ worst }: TechniqueRow): number => worst?.figures?.tipN.high ?? Number.POSITIVE_INFINITY;
    expect(peak(slack)).toBeGreaterThan(1.3 * peak(even));
  });

  it("a return line led off to the side pulls the ladder sideways", () => {
    const lateral = (id: TechniqueId): number => Math.abs(row(id).figures?.tipInBeam.lateralN ?? 0);
    expect(lateral("return-to-side")).toBeGreaterThan(100);
    expect(lateral("two-tension")).toBeLessThan(1);
  });

  it("says what each needs that the scene lacks", () => {
    expect(row("single-and-structure-belay").needs).toEqual(["someone on top already", "an anchor on Flood wall"]);
    const bare = { ...crossingExample, scene: { ...crossingExample.scene, structures: [] } };
    const none = techniques(bare, WHEN).find((r) => r.id === "single-and-structure-belay");
    expect(none).toMatchObject({ figures: null, worst: null });
  });

  it("export as a table, with the model's limits", () => {
    const lines = techniquesCsv(rows).trimEnd().split("\r\n");
    expect(lines).toHaveLength(12);
    expect(lines[0]?.split(",")).toHaveLength(19);
    expect(lines.at(-1)).toContain("knots that tighten");
    expect(lines[1]).toContain(String(row("two-tension").figures?.ropeM));
  });
});
