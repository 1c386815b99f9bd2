import { describe, expect, it } from "vitest";
import type { Check } from "../check.ts";
import { evaluate } from "../evaluate.ts";
import type { Evaluation } from "../evaluation.ts";
import { EXAMPLES } from "../examples/all-examples.ts";
import { crossingExample } from "../examples/crossing.ts";
import { asReal } from "../fuzz/as-real.ts";
import type { Plan } from "../schema/plan.ts";

/** What rests on forces. */
const ON_FORCES =
  /^(tip-rating\/.*|rigging-point-rating\/.*|off-plane|tipping|stability|jack-pressure\/.*|component-strength\/.*|paired-points|tagline-hands\/.*|tether\/.*)$/;

const withRopes = (plan: Plan, linearMassKgM: number | null): Plan => ({
  ...plan,
  gear: plan.gear.map((g) => (g.kind === "rope" ? { ...g, linearMassKgM } : g)),
});
const byId = ({ ledger }: Evaluation) => new Map(ledger.map((c) => [c.id, c]));
const isGood = ({ status }: Check): boolean => status === "within" || status === "close";

describe("with the weight of rope not known", () => {
  it.each(EXAMPLES.map((e) => [e.key, asReal(e.plan)] as const))(
    "no check of the %s example that rests on a force is good, and the ledger says what is missing",
    (_, plan) => {
      const ledger = byId(evaluate(withRopes(plan, null)));
      const resting = [...ledger.values()].filter((c) => c.counts && ON_FORCES.test(c.id));
      expect(resting.length).toBeGreaterThan(20);
      for (const check of resting) expect(isGood(check), check.id).toBe(false);
      expect(String(ledger.get("tip-rating/resultant")?.says[0])).toContain("Main A");
      expect(ledger.get("missing-data/rope-weight.rope-12")).toMatchObject({ status: "unknown", counts: true });
      expect(ledger.get("sharing")?.status).toBe("within");
    },
  );

  it("what is over without it stays over", () => {
    const parts = crossingExample.rig.load.parts.map((p) => ({ ...p, massKg: 400 }));
    const heavy = { ...crossingExample, rig: { ...crossingExample.rig, load: { ...crossingExample.rig.load, parts } } };
    const [none, unknown] = [byId(evaluate(withRopes(heavy, 0))), byId(evaluate(withRopes(heavy, null)))];
    const over = [...none.values()].filter((c) => c.status === "over" && ON_FORCES.test(c.id));
    expect(over.map((c) => c.id)).toContain("tip-rating/resultant");
    for (const check of over) expect(unknown.get(check.id)?.ratio, check.id).toBe(check.ratio);
  });

  it("tells what hangs at the yoke: half of what runs from there, by hand", () => {
    const { load, lines } = evaluate(withRopes(crossingExample, 0.1));
    const half = lines.reduce((sum, { nodes: [a, b] }) => {
      if (!a || !b) throw new Error("a line without ends");
      return sum + (0.1 * 9.80665 * Math.hypot(...a.at.map((x, i) => x - (b.at[i] ?? 0)))) / 2;
    }, 0);
    expect(load.ropesN).toBeCloseTo(half, 9);
    expect(evaluate(withRopes(crossingExample, null)).load.ropesN).toBeNull();
  });

  it("weighs on the tip: twice the rope, more on it by what hangs", () => {
    const tip = (massKgM: number): number =>
      evaluate(withRopes(crossingExample, massKgM)).felt.raise?.inBeam.resultantN ?? 0;
    const [none, once, twice] = [tip(0), tip(0.1), tip(0.2)];
    expect(once).toBeGreaterThan(none + 20);
    // All but proportional: the pulls by hand, and where the sheaves hang, change a little with it.
    expect((twice - none) / (once - none)).toBeCloseTo(2, 1);
  });
});
