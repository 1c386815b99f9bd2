import { STANDARD_GRAVITY_MS2 } from "@gantline/engine";
import { describe, expect, it } from "vitest";
import { assess, judgeAll } from "../assess.ts";
import { momentPlan } from "../evolve/moment-plan.ts";
import { crossingExample } from "../examples/crossing.ts";
import { tell } from "../judge.ts";
import type { Plan } from "../schema/plan.ts";
import { endPulls } from "./hanging-tag.ts";

/** Both crews on the litter above the wall, the east one at a place of its own. */
const held = (handler: readonly [number, number, number], plan: Plan = crossingExample) => {
  const rig = {
    ...plan.rig,
    taglines: plan.rig.taglines.map((t) =>
      t.id === "tag-east" ? { ...t, handler: [...handler] as typeof t.handler } : t,
    ),
  };
  return assess(momentPlan({ ...plan, rig }, { stage: 3, along: 0.5 }));
};
const EAST = 1;
const found = (s: ReturnType<typeof held>) => {
  const tag = s.state?.tags[EAST];
  if (!s.state || !tag) throw new Error("nothing solved");
  const checks = judgeAll(s).map(tell);
  const demand = (id: string): number => checks.find((c) => c.id === id)?.demand?.value ?? Number.NaN;
  return { tag, yoke: s.state.yoke, ...endPulls(tag, s.state.yoke), demand };
};

describe("the pull of a tagline at its ends", () => {
  it.each([
    ["far off and lower", [70, 10.6, 1.1]],
    ["near and lower", [16, 10.6, 1.1]],
    ["far off and higher", [70, 10.6, 30]],
  ] as const)("differs by the weight of as much rope as the one is higher: %s", (_, handler) => {
    // Of any rope that hangs by its own weight: T₁ − T₂ = w (z₁ − z₂) (Irvine, Cable Structures, 1981, ch. 1, from memory).
    const { tag, yoke, loadN, handsN, demand } = found(held(handler));
    const weightNM = (tag.laid.rope?.linearMassKgM ?? Number.NaN) * STANDARD_GRAVITY_MS2;
    expect(loadN - handsN).toBeCloseTo(weightNM * (yoke[2] - handler[2]), 6);
    // And the crew holds what comes to it, the knot at the yoke what comes there, the rope the greater.
    expect(demand("tagline-hands/tag-east")).toBe(handsN);
    expect(demand("component-strength/tag-east/knot")).toBe(loadN);
    expect(demand("component-strength/tag-east/connector")).toBe(loadN);
    expect(demand("component-strength/tag-east/rope")).toBe(Math.max(loadN, handsN));
  });

  it("is more than along the straight line at both ends of a long level line", () => {
    const level = held([70, 10.6, 9.5]);
    const { tag, yoke, loadN, handsN } = found(level);
    // Balance of half of the line about its lowest place: the pull there is level, its half of the weight plumb.
    const halfN = ((tag.laid.rope?.linearMassKgM ?? Number.NaN) * STANDARD_GRAVITY_MS2 * (70 - yoke[0])) / 2;
    expect(loadN).toBeCloseTo(Math.hypot(tag.tensionN, halfN), 0);
    expect(handsN).toBeGreaterThan(tag.tensionN + 0.5);
  });

  it("is that along the straight line where it is not known how the line hangs", () => {
    const gear = crossingExample.gear.map((g) => (g.kind === "rope" ? { ...g, linearMassKgM: null } : g));
    const { tag, loadN, handsN } = found(held([16, 10.6, 1.1], { ...crossingExample, gear }));
    expect([loadN, handsN]).toEqual([tag.tensionN, tag.tensionN]);
  });
});
