import { describe, expect, it } from "vitest";
import { evaluate } from "../evaluate.ts";
import { crossingExample } from "../examples/crossing.ts";
import type { Plan } from "../schema/plan.ts";
import { lowestLimit } from "./lowest-limit.ts";

const maker = { value: 12, source: "maker" };
const policy = { value: 9, source: "policy" };

describe("the lowest of maker's and policy's limit", () => {
  it("is the lower of two, and the maker's where the policy sets none", () => {
    expect(lowestLimit(maker, policy, 5)).toBe(policy);
    expect(lowestLimit({ ...maker, value: 8 }, policy, 5).source).toBe("maker");
    expect(lowestLimit(maker, { ...policy, value: null }, 5)).toBe(maker);
  });

  it("is not known while the maker's is not, unless the policy's is gone over already", () => {
    const none = { ...maker, value: null };
    expect(lowestLimit(none, policy, 5).value).toBeNull();
    expect(lowestLimit(none, policy, 9).value).toBeNull();
    expect(lowestLimit(none, policy, null).value).toBeNull();
    expect(lowestLimit(none, policy, 9.1)).toBe(policy);
  });
});

describe("wind and slope with the maker's limit not known", () => {
  const { device } = crossingExample.aerial;
  const statusOf = (id: string, gustMS: number, slopeRad: number): string | undefined => {
    const plan: Plan = {
      ...crossingExample,
      aerial: { ...crossingExample.aerial, device: { ...device, maxWindMS: null, maxSlopeRad: null } },
      scene: {
        ...crossingExample.scene,
        wind: { ...crossingExample.scene.wind, gustMS },
        parking: crossingExample.scene.parking.map((p) => ({ ...p, slopeRad, downhillBearingRad: 0 })),
      },
    };
    return evaluate(plan).ledger.find((c) => c.id === id)?.status;
  };

  it("are unknown below the policy's limit and over above it", () => {
    // Policy: 8.94 m/s (20 mph, 29 CFR 1926.1431(k)(8)) and a slope of 5 %.
    expect(statusOf("wind", 4, 0)).toBe("unknown");
    expect(statusOf("wind", 10, 0)).toBe("over");
    expect(statusOf("slope", 4, 0.01)).toBe("unknown");
    expect(statusOf("slope", 4, 0.07)).toBe("over");
  });
});
