import { describe, expect, it } from "vitest";
import { evaluate } from "../evaluate.ts";
import { crossingExample } from "../examples/crossing.ts";
import type { Plan } from "../schema/plan.ts";
import type { Scene } from "../schema/scene.ts";
import { writePhrase } from "../units/write-amount.ts";

type Ground = Scene["parking"][number];
const [yard] = crossingExample.scene.parking as [Ground];
/** 5 % is the policy's limit of the example: a planning default, no source. */
const LIMIT = 0.05;
const onGrounds = (parking: Ground[], limitRad: number | null = Math.atan(LIMIT)): Plan => ({
  ...crossingExample,
  scene: { ...crossingExample.scene, parking },
  policy: { ...crossingExample.policy, slopeMaxRad: { value: limitRad, source: "test" } },
});
const fallen = (share: number, over: Partial<Ground> = {}): Ground => ({
  ...yard,
  slopeRad: Math.atan(share),
  ...over,
});
const found = (plan: Plan) => evaluate(plan).ledger.find((c) => c.id === "ground-slope");

describe("slope of the ground", () => {
  it.each([
    [0.01, "within"],
    [0.048, "close"],
    [0.051, "over"],
  ] as const)("%f is %s", (share, status) => {
    const check = found(onGrounds([fallen(share)]));
    expect(check?.status).toBe(status);
    // Ratio by hand: the angle over the limit's angle.
    expect(check?.ratio).toBeCloseTo(Math.atan(share) / Math.atan(LIMIT), 9);
    expect(check?.counts).toBe(true);
  });

  it("does not depend on how the vehicle faces, as the slope along and across it does", () => {
    // 6 % seen at 45° is 4.2 % along and across: by trigonometry 6 ÷ √2. The crossing's vehicle looks south.
    const plan = onGrounds([fallen(0.06, { downhillBearingRad: Math.PI / 4 })]);
    const ledger = evaluate(plan).ledger;
    expect(ledger.find((c) => c.id === "slope")?.status).toBe("within");
    expect(ledger.find((c) => c.id === "ground-slope")?.status).toBe("over");
  });

  it("is that of the ground under a jack where it stands on another, and names it", () => {
    // The turntable stands at (0, 3), the jacks on either side of x = 0: the east ones on the second ground.
    const rectangle = (x: number, width: number): [number, number][] => [
      [x, -14],
      [x + width, -14],
      [x + width, 7],
      [x, 7],
    ];
    const west = fallen(0.01, { id: "west", name: "West", outline: rectangle(-7, 8) });
    const east = fallen(0.07, { id: "east", name: "East", outline: rectangle(1, 6) });
    const check = found(onGrounds([west, east]));
    expect(check?.status).toBe("over");
    expect(writePhrase(check?.says ?? [], "metric")).toContain('on "East"');
  });

  it("is unknown where no ground is drawn under the turntable, and not judged where the policy sets no limit", () => {
    expect(found(onGrounds([]))?.status).toBe("unknown");
    expect(found(onGrounds([fallen(0.01)], null))).toBeUndefined();
  });
});
