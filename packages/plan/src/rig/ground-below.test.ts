import { describe, expect, it } from "vitest";
import { evaluate } from "../evaluate.ts";
import { momentPlan } from "../evolve/moment-plan.ts";
import { crossingExample } from "../examples/crossing.ts";
import { letGoAt } from "../let-go/let-go-at.ts";
import { letOuts } from "../let-outs.ts";
import type { Plan } from "../schema/plan.ts";
import { writePhrase } from "../units/write-amount.ts";

/** Just off the ground: with the yoke at 1.5 m the litter stands (a metre of bridle, half a metre of litter, level ground at 0). */
const plan = momentPlan(crossingExample, { stage: 2, along: 0.05 });
const STANDING_M = 1.5;
const inAir = evaluate(plan);

/** The same rig on main lines as long as they are there, with so much paid out, m. */
function paidOut(moreM: number, taglineN = 0): Plan {
  const lengthOf = (id: string): number => inAir.lines.find((l) => l.id === id)?.unstretchedM ?? Number.NaN;
  const { rig } = plan;
  return {
    ...plan,
    rig: {
      ...rig,
      load: { ...rig.load, drive: "length" },
      mainLines: rig.mainLines.map((m) => ({ ...m, lengthM: lengthOf(m.id) + moreM })),
      taglines: rig.taglines.map((t) => ({ ...t, drive: "tension" as const, tensionN: taglineN })),
    },
  };
}

describe("ropes so long that the load comes down", () => {
  it("let it hang while it is in the air", () => {
    expect(inAir.holding.state).toBe("held");
    const { load } = evaluate(paidOut(0.2));
    expect(load.groundN).toBeNull();
    expect(load.yoke[2]).toBeLessThan(inAir.load.yoke[2] - 0.15);
    expect(load.yoke[2]).toBeGreaterThan(STANDING_M);
  });

  it.each([2, 20])("stand it on the ground, %d m of rope too much: slack, its weight on the ground", (moreM) => {
    const { load, lines, holding } = evaluate(paidOut(moreM));
    expect(load.yoke[2]).toBeLessThanOrEqual(STANDING_M);
    expect(load.yoke[2]).toBeGreaterThan(STANDING_M - 0.01);
    for (const { tensionsN } of lines) expect(Math.max(...(tensionsN.raise ?? []), ...(tensionsN.lower ?? []))).toBe(0);
    // Statics: the ground bears all the weight, that of the rope that hangs at the yoke with it, and the wind.
    const [x = 0, y = 0, z = 0] = load.groundN ?? [];
    expect(z).toBeCloseTo((load.weightN ?? Number.NaN) + (load.ropesN ?? Number.NaN), 4);
    expect(x).toBeCloseTo(-(load.windN?.[0] ?? Number.NaN), 4);
    expect(y).toBeCloseTo(-(load.windN?.[1] ?? Number.NaN), 4);
    expect(holding).toMatchObject({ state: "drifts", goesTo: load.yoke });
    expect(letOuts(paidOut(moreM, 150))).toEqual([]);
    const gone = letGoAt(paidOut(moreM), null, "main-a");
    expect(gone.outcome).toBe("unknown");
    expect(writePhrase(gone.says, "metric")).toContain("stands on what is below");
  });

  it("bear less where ropes are only a little too long, or taglines pull, and keep it from sliding", () => {
    const slack = evaluate(paidOut(2)).load.groundN?.[2] ?? Number.NaN;
    const airM = inAir.load.yoke[2] - STANDING_M;
    const taut = evaluate(paidOut(airM + 0.03)).load.groundN?.[2] ?? Number.NaN;
    expect(taut).toBeLessThan(0.95 * slack);
    const [x = 0, y = 0] = evaluate(paidOut(2, 150)).load.groundN ?? [];
    // Two crews of one pull each: what is left over between them the ground keeps.
    expect(Math.hypot(x, y)).toBeGreaterThan(0);
    expect(Math.hypot(x, y)).toBeLessThan(300);
  });
});
