import { describe, expect, it } from "vitest";
import { evaluate } from "../evaluate.ts";
import { EXAMPLES } from "../examples/all-examples.ts";
import { asReal } from "../fuzz/as-real.ts";
import type { Plan } from "../schema/plan.ts";

/** What rests on no force and on no place of the load. */
const WITHOUT_WIND =
  /^(sharing|tip-height|rope-length\/.*|ground\/ladder|clearance\/ladder\/.*|power-line\/power\/(ladder|vehicle)\/.*|jack-(reach|ground)\/.*|non-structural-point\/.*|tagline-standing\/.*|reach|elevation|sling-angle|persons|parking|slope|ground-slope|ground-level|lock-out|power-lines-looked-for)$/;

const calm = (plan: Plan, gustMS: number | null): Plan => ({
  ...plan,
  scene: { ...plan.scene, wind: { ...plan.scene.wind, gustMS } },
});

describe("with the push of the wind not known", () => {
  it.each(EXAMPLES.map((e) => [e.key, asReal(e.plan)] as const))(
    "every check of the %s example that rests on a force is unknown, the others are as without wind",
    (_, plan) => {
      const without = new Map(evaluate(calm(plan, 0)).ledger.map((c) => [c.id, c]));
      const ledger = evaluate(calm(plan, null)).ledger.filter((c) => c.counts);
      const good = ledger.filter((c) => c.status === "within" || c.status === "close");
      expect(good.length).toBeGreaterThan(15);
      for (const check of good) {
        expect(check.id).toMatch(WITHOUT_WIND);
        expect(check.ratio).toBe(without.get(check.id)?.ratio);
      }
      for (const check of ledger.filter((c) => !WITHOUT_WIND.test(c.id))) {
        expect(check.status, check.id).toBe("unknown");
        expect(check.ratio, check.id).toBeNull();
        expect(check.says.length, check.id).toBeGreaterThan(0);
      }
    },
  );

  it("what is over without it stays over", () => {
    const plan = asReal(EXAMPLES[0]?.plan as Plan);
    const parts = plan.rig.load.parts.map((p) => ({ ...p, massKg: 400 }));
    const heavy = calm({ ...plan, rig: { ...plan.rig, load: { ...plan.rig.load, parts } } }, null);
    const still = evaluate({ ...calm(heavy, 0) }).ledger.filter((c) => c.status === "over" && c.counts);
    const now = new Map(evaluate(heavy).ledger.map((c) => [c.id, c]));
    expect(still.map((c) => c.id)).toContain("tip-rating/resultant");
    for (const check of still) {
      expect(now.get(check.id)?.status, check.id).toBe("over");
      expect(now.get(check.id)?.ratio, check.id).toBe(check.ratio);
    }
  });

  it("ropes of set lengths share as the wind leaves the load: that is unknown too", () => {
    const plan = asReal(EXAMPLES[0]?.plan as Plan);
    const { lines } = evaluate(plan);
    const lengthOf = (id: string): number => lines.find((l) => l.id === id)?.unstretchedM ?? Number.NaN;
    const hung: Plan = {
      ...plan,
      rig: {
        ...plan.rig,
        tether: null,
        taglines: [],
        load: { ...plan.rig.load, drive: "length" },
        mainLines: plan.rig.mainLines.map((l) => ({ ...l, lengthM: lengthOf(l.id) })),
      },
    };
    const sharing = (p: Plan) => evaluate(p).ledger.find((c) => c.id === "sharing")?.status;
    expect(sharing(calm(hung, 0))).toBe("within");
    expect(sharing(calm(hung, null))).toBe("unknown");
  });
});
