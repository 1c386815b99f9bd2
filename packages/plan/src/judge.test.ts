import { describe, expect, it } from "vitest";
import {
  amount,
  judge,
  judgeDistance,
  type Question,
  RATIO_CAP,
  ratioOf,
  statusOf,
  tell,
  worstFirst,
} from "./judge.ts";
import { STARTING_POLICY } from "./library/policies.ts";

const question = (demand: number | null, limit: number | null): Question => ({
  id: "q",
  rule: "q",
  demand: demand === null ? null : amount(demand, "force"),
  limit: limit === null ? null : amount(limit, "force"),
  words: () => ({
    subject: "Q",
    question: "?",
    reading: ["read"],
    ifOver: ["over"],
    ifUnknown: ["unknown"],
    working: { formula: "a ÷ b", terms: [], limitSource: "test" },
  }),
});

describe("judge", () => {
  it.each([
    [50, 100, "within"],
    [90, 100, "within"],
    [90.1, 100, "close"],
    [100, 100, "close"],
    [100.1, 100, "over"],
    [1, 0, "over"],
    [0, 0, "within"],
    [null, 100, "unknown"],
    [50, null, "unknown"],
  ] as const)("finds %s of %s %s", (demand, limit, status) => {
    expect(judge(STARTING_POLICY, question(demand, limit)).status).toBe(status);
  });

  it("puts what is missing before all that cannot be told for want of it", () => {
    const of = (rule: string) => ({ ...judge(STARTING_POLICY, { ...question(null, 1), id: rule, rule }) });
    const rows = [of("clearances"), of("missing-data"), judge(STARTING_POLICY, question(2, 1))].sort(worstFirst);
    expect(rows.map((r) => r.rule)).toEqual(["q", "missing-data", "clearances"]);
  });

  it("holds the ratio to its cap and never gives a number that is not finite", () => {
    expect(ratioOf(amount(1, "force"), amount(0, "force"))).toBe(RATIO_CAP);
    expect(ratioOf(amount(1e9, "force"), amount(1e-9, "force"))).toBe(RATIO_CAP);
    expect(ratioOf(amount(Number.NaN, "force"), amount(1, "force"))).toBeNull();
    expect(ratioOf(amount(1, "force"), amount(Number.POSITIVE_INFINITY, "force"))).toBeNull();
  });

  it("cannot be loosened past 1 by a policy", () => {
    const lax = { ...STARTING_POLICY, closeRatio: { value: 5, source: "" } };
    expect(statusOf(1.01, lax)).toBe("over");
    expect(statusOf(0.95, { ...STARTING_POLICY, closeRatio: { value: null, source: "" } })).toBe("close");
  });

  it("says why when it cannot be told, and what to do when it is over", () => {
    expect(tell(judge(STARTING_POLICY, question(null, 1))).says).toEqual(["unknown"]);
    expect(tell(judge(STARTING_POLICY, question(2, 1))).says).toEqual(["read", " ", "over"]);
  });

  it.each([
    [0, 0],
    [null, 0],
    [0.5, 0],
  ])("finds over what touches where %s is to be kept", (wanted, apart) => {
    const found = judgeDistance(STARTING_POLICY, true, question(wanted, apart));
    expect([found.status, found.ratio]).toEqual(["over", RATIO_CAP]);
    expect(tell(found).says).toEqual(["read", " ", "over"]);
  });

  it("judges a distance by what is to be kept where nothing touches, and not where the place is not known", () => {
    expect(judgeDistance(STARTING_POLICY, false, question(0, 0.3)).status).toBe("within");
    expect(judgeDistance(STARTING_POLICY, false, question(0.5, 0.3)).status).toBe("over");
    expect(judgeDistance(STARTING_POLICY, false, question(null, 0.3)).status).toBe("unknown");
    expect(judgeDistance(STARTING_POLICY, true, question(0.5, null)).status).toBe("unknown");
  });
});
