import { describe, expect, it } from "vitest";
import { crossingExample } from "../examples/crossing.ts";
import type { Plan } from "../schema/plan.ts";
import { letGoAt } from "./let-go-at.ts";
import { gatherLetGo } from "./let-go-evolution.ts";
import { letGoMoments, sweepCuts } from "./sweep-cuts.ts";
import { plumbPlan } from "./testing/plumb-plan.ts";
import { tipGive } from "./tip-give.ts";

const LENGTH_M = 12;
const MASS_KG = 700;
const EI = 4e7;

/** A ladder of one even section. */
function even(plan: Plan): Plan {
  const { aerial } = plan;
  const sections = [{ lengthM: LENGTH_M, massKg: MASS_KG, bendingStiffnessNm2: EI }];
  return {
    ...plan,
    aerial: { ...aerial, pose: { ...aerial.pose, lengthM: LENGTH_M }, device: { ...aerial.device, sections } },
  };
}

describe("a tip that gives, by the ladder's sections", () => {
  it("is for an even ladder 3 EI/L³ with 33/140 of its mass", () => {
    // Cantilever with a force at its end: it bends as (3x² − x³)/2, and ∫ of the square of that is 33/140; worked here by hand, and in textbooks on vibration.
    const give = tipGive(even(crossingExample));
    if ("says" in give) throw new Error(give.says);
    expect(give.stiffnessNM / ((3 * EI) / LENGTH_M ** 3)).toBeCloseTo(1, 9);
    // Sums of 20 slices, and cubics between stations: to some parts in a thousand.
    expect(give.massKg / ((33 / 140) * MASS_KG)).toBeCloseTo(1, 2);
  });

  it("is taken in the cuts of a sweep where asked for, and the answer says so", () => {
    const moments = letGoMoments(crossingExample).filter((_, i) => i === 40 || i === 100);
    const [stiff, gives] = [false, true].map((tipGives) => sweepCuts(crossingExample, moments, { tipGives }) ?? []);
    const mains = (stiff ?? []).flatMap((cut, i) =>
      cut.lineId.startsWith("main") ? [[cut, gives?.[i]] as const] : [],
    );
    expect(mains).toHaveLength(4);
    for (const [one, other] of mains) {
      expect(other).toMatchObject({ when: one.when, lineId: one.lineId, outcome: one.outcome });
      expect(other?.tipN).toBeLessThan(one.tipN ?? 0);
      expect(other?.tipN).toBeGreaterThan(0.9 * (one.tipN ?? 0));
    }
    expect(gatherLetGo(crossingExample, [], [], { tipGives: true }).tip).toBe("gives");
    expect(gatherLetGo(crossingExample, [], []).tip).toBe("stiff");
  });

  it("lowers the blow after slack, and says so where the sections are not entered", () => {
    const plan = plumbPlan({ share: 1 });
    const slackM = { "main-b": 0.5 };
    const peak = (tipGives: boolean): number =>
      letGoAt(plan, null, "main-a", { slackM, tipGives }).figures?.tipN.entered ?? Number.NaN;
    expect(peak(true)).toBeLessThan(peak(false));
    expect(peak(true)).toBeGreaterThan(0.5 * peak(false));
    const { aerial } = plan;
    const bare: Plan = { ...plan, aerial: { ...aerial, device: { ...aerial.device, sections: null } } };
    const unknown = letGoAt(bare, null, "main-a", { tipGives: true });
    expect(unknown.outcome).toBe("unknown");
    expect(JSON.stringify(unknown.says)).toContain("sections are not entered");
  });
});
