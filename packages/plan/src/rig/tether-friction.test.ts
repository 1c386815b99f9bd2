import { addScaled, norm, type SiteVector, site, subtract, unit, ZERO } from "@gantline/engine";
import { describe, expect, it } from "vitest";
import { assess } from "../assess.ts";
import type { TravelCase } from "../evaluation.ts";
import { momentPlan } from "../evolve/moment-plan.ts";
import { roofExample } from "../examples/roof.ts";
import type { Plan } from "../schema/plan.ts";
import { sheaveOf } from "./rig-state.ts";

const withSheaves = (efficiency: number): Plan => ({
  ...roofExample,
  gear: roofExample.gear.map((g) => (g.kind === "sheave" ? { ...g, efficiency } : g)),
});
const at = (plan: Plan, along: number) => {
  const { state, load } = assess(momentPlan(plan, { stage: 2, along }));
  if (!state?.tether) throw new Error("not solved");
  return { state, tether: state.tether, load };
};
const toward = (from: SiteVector, to: SiteVector): SiteVector => unit(subtract(to, from));
/** Angle between two directions by their cosine (independent of the code's own), rad. */
const turn = (a: SiteVector, b: SiteVector): number => Math.acos(a[0] * b[0] + a[1] * b[1] + a[2] * b[2]);

describe("the pull of the tether, with friction", () => {
  const CASES = (["raise", "lower"] as const).flatMap((travel, k) =>
    [0, 0.4, 0.8, 1].map((along) => [travel, along, k] as const),
  );

  it.each(CASES)(
    "balances its pulley where it rides, %s at %s: rope tensions by the capstan equation, T₂ = T₁ e^(µθ)",
    (travel: TravelCase, along, k) => {
      const efficiency = 0.9;
      const mu = -Math.log(efficiency) / Math.PI;
      const { state, tether } = at(withSheaves(efficiency), along);
      const rider = tether.ridesAt?.[k] as SiteVector;
      const sense = travel === "raise" ? 1 : -1;
      let sum = ZERO;
      for (const m of state.mains) {
        const [yoke, sheave, base] = [state.yoke, sheaveOf(m), m.nodes[3]?.at as SiteVector];
        const before =
          (m.tensionsN[travel][0] ?? 0) * Math.exp(sense * mu * turn(toward(yoke, sheave), toward(sheave, rider)));
        const after = before * Math.exp(sense * mu * turn(toward(sheave, rider), toward(rider, base)));
        sum = addScaled(sum, toward(rider, sheave), before);
        sum = addScaled(sum, toward(rider, base), after);
        expect(m.tensionsN[travel][1]).toBeCloseTo(before, 6);
        expect(m.tensionsN[travel][2]).toBeCloseTo(after, 6);
      }
      sum = addScaled(sum, toward(rider, state.yoke), tether.tensionsN[travel]);
      // The pulley rests to 1e-7 m, on ropes of some hundred newtons and metres.
      expect(norm(sum)).toBeLessThan(1e-3);
    },
  );

  it.each(CASES)("holds the load up with it, %s at %s", (travel: TravelCase, along, k) => {
    const { state, tether, load } = at(withSheaves(0.9), along);
    const rider = tether.ridesAt?.[k] as SiteVector;
    let sum = site(0, 0, -(load.weightN ?? 0) - state.ropesAtYokeN);
    for (const m of state.mains) sum = addScaled(sum, toward(state.yoke, sheaveOf(m)), m.tensionsN[travel][0] ?? 0);
    sum = addScaled(sum, toward(state.yoke, rider), tether.tensionsN[travel]);
    // What is left, a newton or two, is the push of the wind across (2 m/s), which the load's drift takes up.
    expect(Math.abs(sum[1])).toBeLessThan(0.05);
    expect(Math.abs(sum[2])).toBeLessThan(0.05);
  });

  it("is the same both ways without friction, and a band about that with it", () => {
    const smooth = at(withSheaves(1), 0.8).tether;
    expect(smooth.tensionsN.raise).toBeCloseTo(smooth.tensionsN.lower, 3);
    const rough = at(withSheaves(0.9), 0.8).tether;
    expect(Math.abs(rough.tensionsN.raise - rough.tensionsN.lower)).toBeGreaterThan(0.5);
    expect(rough.tensionN).toBe(Math.max(rough.tensionsN.raise, rough.tensionsN.lower));
  });
});
