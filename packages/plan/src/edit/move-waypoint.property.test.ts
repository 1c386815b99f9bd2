import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { momentPlan } from "../evolve/moment-plan.ts";
import { roofExample } from "../examples/roof.ts";
import { type Plan, planSchema } from "../schema/plan.ts";
import { moveHandle } from "./move-handle.ts";
import { planSectionFrame, toSection } from "./section-frame.ts";

const SEED = { seed: 3011, numRuns: 200 };
const near = fc.double({ min: -60, max: 60, noNaN: true });
const place = fc.tuple(near, near);
const { stages } = roofExample.evolution;
const MOVED_LADDER = stages.findIndex((stage) => stage.action === "moveLadder");
/** The last stage moves the ladder; one more after it, drawn in another section than the first. */
const turned: Plan = {
  ...roofExample,
  evolution: {
    ...roofExample.evolution,
    stages: [
      ...stages.map((stage, index) =>
        index === MOVED_LADDER ? { ...stage, pose: { ...roofExample.aerial.pose, bearingRad: 0.6 } } : stage,
      ),
      { ...stages[1]!, id: "after", path: [[1, 2, 3]] },
    ],
  },
};
const waypoints = turned.evolution.stages.flatMap((stage, i) => stage.path.map((_, j) => `waypoint:${i}:${j}`));
const moment = fc.record({
  stage: fc.nat(turned.evolution.stages.length - 1),
  along: fc.constantFrom(0, 0.3, 1),
});
const waypointOf = (plan: Plan, id: string) => {
  const [, i, j] = id.split(":").map(Number);
  const at = id === "start" ? plan.evolution.startM : plan.evolution.stages[i ?? -1]?.path[j ?? -1];
  if (at === undefined) throw new Error(id);
  return at;
};

describe("moving a way point", () => {
  it("goes where it is drawn to in the section of the moment, and keeps its distance from the plane", () => {
    fc.assert(
      fc.property(fc.constantFrom("start", ...waypoints), moment, place, (id, when, to) => {
        const frame = planSectionFrame(momentPlan(turned, when));
        const before = toSection(frame, waypointOf(turned, id));
        const moved = moveHandle(turned, "section", id, to, when);
        const after = toSection(frame, waypointOf(moved, id));
        expect(after.acrossM).toBeCloseTo(to[0], 9);
        expect(after.upM).toBeCloseTo(to[1], 9);
        expect(after.rightM).toBeCloseTo(before.rightM, 9);
        expect(planSchema.safeParse(moved).success).toBe(true);
      }),
      SEED,
    );
  });

  it("keeps its height in the plan view, and moves nothing else", () => {
    fc.assert(
      fc.property(fc.constantFrom("start", ...waypoints), place, (id, to) => {
        const moved = moveHandle(turned, "plan", id, to);
        expect(waypointOf(moved, id)).toEqual([to[0], to[1], waypointOf(turned, id)[2]]);
        for (const other of ["start", ...waypoints].filter((one) => one !== id))
          expect(waypointOf(moved, other)).toBe(waypointOf(turned, other));
        expect({ ...moved, evolution: turned.evolution }).toEqual(turned);
      }),
      SEED,
    );
  });

  it("returns the same plan for a way point that is not there", () => {
    for (const id of ["waypoint:0:99", "waypoint:99:0", "waypoint:a:0", "waypoint:1"])
      expect(moveHandle(turned, "plan", id, [1, 2])).toBe(turned);
  });
});

describe("moving the tip at a moment", () => {
  const tip = (stage: number, along: number) => moveHandle(turned, "section", "tip", [8, 20], { stage, along });

  it("changes the stand's pose before the ladder has moved, the stage's own after it", () => {
    expect(tip(2, 0.5).aerial.pose).not.toEqual(turned.aerial.pose);
    expect(tip(2, 0.5).evolution).toBe(turned.evolution);
    for (const moved of [tip(MOVED_LADDER, 1), tip(MOVED_LADDER + 1, 0.5)]) {
      expect(moved.aerial).toBe(turned.aerial);
      const { pose } = moved.evolution.stages[MOVED_LADDER]!;
      expect(pose?.bearingRad).toBeCloseTo(0.6, 9);
      expect(pose?.lengthM).not.toBe(turned.aerial.pose.lengthM);
    }
  });

  it("leaves the ladder alone while it is on its way, and the load wherever a stage wants it", () => {
    expect(tip(MOVED_LADDER, 0.5)).toBe(turned);
    expect(moveHandle(turned, "section", "load", [1, 2], { stage: 2, along: 0.5 })).toBe(turned);
  });
});
