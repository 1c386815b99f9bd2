import { describe, expect, it } from "vitest";
import type { Check } from "../check.ts";
import { evaluate } from "../evaluate.ts";
import { crossingExample } from "../examples/crossing.ts";
import type { Device } from "../schema/aerial.ts";
import type { Plan } from "../schema/plan.ts";
import type { LimitName } from "../schema/policy.ts";
import { writePhrase } from "../units/write-amount.ts";

const crossing = crossingExample;
const without = (name: LimitName): Plan => ({
  ...crossing,
  policy: { ...crossing.policy, [name]: { value: null, source: "test" } },
});
const withDevice = (change: Partial<Device>): Plan => ({
  ...crossing,
  aerial: { ...crossing.aerial, device: { ...crossing.aerial.device, ...change } },
});
const withTagline = (change: Partial<Plan["rig"]["taglines"][number]>): Plan => ({
  ...crossing,
  rig: { ...crossing.rig, taglines: crossing.rig.taglines.map((l, i) => (i === 1 ? { ...l, ...change } : l)) },
});
const { device } = crossing.aerial;
const check = (plan: Plan, id: string): Check => {
  const found = evaluate(plan).ledger.find((c) => c.id === id);
  if (!found) throw new Error(`no check ${id}`);
  return found;
};
const says = (plan: Plan, id: string): string => writePhrase(check(plan, id).says, "metric");

describe("a check that is unknown names what is missing, and nothing else", () => {
  const basis = device.riggingPoints.map((p) => ({ ...p, ratingBasis: null }));
  const rating = device.riggingPoints.map((p) => ({ ...p, ratingN: null }));
  const noStrength = {
    ...crossing,
    gear: crossing.gear.map((g) => ("strengthN" in g ? { ...g, strengthN: null } : g)),
  };
  const noBasis = {
    ...crossing,
    gear: crossing.gear.map((g) => ("strengthBasis" in g ? { ...g, strengthBasis: null } : g)),
  };
  const noKnot = {
    ...crossing,
    gear: crossing.gear.map((g) => (g.kind === "knot" ? { ...g, efficiency: null } : g)),
  };
  const noFriction = {
    ...crossing,
    gear: crossing.gear.map((g) => (g.kind === "sheave" ? { ...g, efficiency: null } : g)),
  };
  const coincident = device.jacks.map((j) => ({ ...j, forwardM: 0, rightM: 0 }));

  it.each([
    ["component-strength/main-a/rope", without("strengthFactor"), "No factor is set for a breaking strength."],
    [
      "component-strength/main-a/tip.sling",
      without("basketFactor"),
      'what is left of its strength: no figure for "basket hitch"',
    ],
    ["component-strength/main-a/knot", noKnot, "what is left of its strength"],
    ["component-strength/main-a/rope", noStrength, "Its strength is not known"],
    ["component-strength/main-a/rope", noBasis, "working load or a breaking strength"],
    ["component-strength/main-a/brake", noFriction, "the efficiency of a sheave is missing"],
    ["rigging-point-rating/tip-left", withDevice({ riggingPoints: basis }), "working load or a breaking strength"],
    ["rigging-point-rating/tip-left", withDevice({ riggingPoints: rating }), "No rating is known for this point"],
    ["sharing", without("shareMax"), "No largest share is set."],
    ["jack-reach/front-left", without("jackReachMin"), "No least reach is set."],
    ["tipping", withDevice({ tipRating: { ...device.tipRating, rows: [] } }), "Ask the maker's manual."],
    ["tipping", withDevice({ jacks: coincident }), "The jacks enclose no ground."],
    ["tip-rating/resultant", noFriction, "Not known: the efficiency of a sheave is missing."],
    ["tagline-hands/tag-east", without("pullPerPersonN"), "No pull per person is set."],
  ] as const)("%s: %#", (id, plan, expected) => {
    expect(check(plan, id).status).toBe("unknown");
    expect(says(plan, id)).toContain(expected);
  });

  it("tipping is not blamed on the lever arm while the rating is missing", () => {
    expect(says(withDevice({ tipRating: { ...device.tipRating, rows: [] } }), "tipping")).not.toContain(
      "tipping moment",
    );
  });
});

describe("a tagline that its crew cannot hold", () => {
  const pulled = { drive: "tension", tensionN: 900 } as const;

  it("with nobody on it wants hands: turns round a post hold nothing by themselves", () => {
    const found = check(withTagline({ ...pulled, people: 0 }), "tagline-hands/tag-east");
    expect(found.status).toBe("over");
    expect(writePhrase(found.says, "metric")).toContain("Nobody holds it: put hands on it.");
    expect(writePhrase(found.says, "metric")).not.toContain("turn");
  });

  it("with one is told the half turns by the capstan equation, T ÷ hold = e^(µβ), µ = 0.14", () => {
    // 900 N held by 222 N: β = ln(900 ÷ 222) ÷ 0.14 = 10.0 rad = 1.59 turns, so 2 by half turns.
    expect(says(withTagline({ ...pulled, people: 1 }), "tagline-hands/tag-east")).toContain(" 2 would do.");
  });
});

describe("a rope is chosen from the cache by the ratio that is judged as close", () => {
  it("leaves as much over with no close ratio set as with the 0.9 it stands for", () => {
    const lengths = (value: number | null): readonly (number | undefined)[] =>
      evaluate({ ...crossing, policy: { ...crossing.policy, closeRatio: { value, source: "test" } }, gear: near })
        .ledger.filter((c) => c.rule === "rope-length")
        .map((c) => c.limit?.value);
    const needed = evaluate(crossing).lines.find((l) => l.id === "main-a")?.neededM ?? Number.NaN;
    // The longest line's need is 95 % of the shorter rope: close, so the longer one is taken.
    const near = crossing.gear.map((g) =>
      g.kind === "rope" ? { ...g, lengthsM: [needed / 0.95, 3 * needed, 3 * needed, 3 * needed] } : g,
    );
    expect(lengths(null)).toEqual(lengths(0.9));
    expect(lengths(1)).not.toEqual(lengths(0.9));
  });
});
