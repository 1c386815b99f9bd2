import { poseAerial, poseBreaches, riggingPointAt } from "@gantline/engine";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { crossingExample } from "../examples/crossing.ts";
import { EXAMPLE_DEVICES } from "../library/devices.ts";
import { type Plan, planSchema } from "../schema/plan.ts";
import { moveHandle } from "./move-handle.ts";
import { fromSection, planSectionFrame, toSection } from "./section-frame.ts";
import { surfaceBelow } from "./surface-below.ts";

const SEED = { seed: 3011, numRuns: 400 };
const handles = [
  "tip",
  "vehicle",
  "heading",
  "load",
  ...crossingExample.rig.taglines.map((one) => `tagline:${one.id}`),
];
const view = fc.constantFrom("section" as const, "plan" as const);
const near = fc.double({ min: -60, max: 60, noNaN: true });
const place = fc.tuple(near, near);
const anyPlace = fc.tuple(fc.double(), fc.double());
const device = fc.constantFrom(...EXAMPLE_DEVICES);
const withDevice = (one: (typeof EXAMPLE_DEVICES)[number]): Plan => ({
  ...crossingExample,
  aerial: { ...crossingExample.aerial, device: one },
});
const tipOf = (plan: Plan) => poseAerial(plan.aerial.device, plan.aerial.place, plan.aerial.pose).tip;
/** The middle of the two tip eyes of the crossing's ladder. */
const hanging = (plan: Plan) => {
  const posed = poseAerial(plan.aerial.device, plan.aerial.place, plan.aerial.pose);
  const points = plan.aerial.device.riggingPoints
    .filter((one) => plan.rig.mainLines.some((line) => line.tip.pointId === one.id))
    .map((one) => riggingPointAt(posed, one));
  return [0, 1].map((axis) => points.reduce((sum, one) => sum + (one[axis] ?? 0) / points.length, 0)) as [
    number,
    number,
  ];
};
const plumb = (plan: Plan): Plan => {
  const [x, y] = hanging(plan);
  return { ...plan, rig: { ...plan.rig, load: { ...plan.rig.load, positionM: [x, y, 8], drive: "position" } } };
};

describe("moveHandle", () => {
  it("leaves a plan the schema takes, its pose within the device's limits, wherever anything is moved", () => {
    fc.assert(
      fc.property(device, view, fc.constantFrom(...handles), fc.oneof(place, anyPlace), (one, where, handle, to) => {
        const moved = moveHandle(withDevice(one), where, handle, to);
        expect(planSchema.safeParse(moved).error?.issues).toBeUndefined();
        if (handle === "tip" && to.every(Number.isFinite)) expect(poseBreaches(one, moved.aerial.pose)).toEqual([]);
      }),
      SEED,
    );
  });

  it("returns the same plan for an unknown handle or a place that is not finite", () => {
    expect(moveHandle(crossingExample, "plan", "tagline:nobody", [1, 2])).toBe(crossingExample);
    expect(moveHandle(crossingExample, "plan", "roof", [1, 2])).toBe(crossingExample);
    expect(moveHandle(crossingExample, "section", "tip", [Number.NaN, 2])).toBe(crossingExample);
    expect(moveHandle(crossingExample, "section", "heading", [1, 2])).toBe(crossingExample);
  });

  it("brings the tip where it is drawn to, when the ladder can reach it", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.2, max: 1.2, noNaN: true }),
        fc.double({ min: 12, max: 28, noNaN: true }),
        (elevationRad, lengthM) => {
          const there = {
            ...crossingExample,
            aerial: { ...crossingExample.aerial, pose: { ...crossingExample.aerial.pose, elevationRad, lengthM } },
          };
          const seen = toSection(planSectionFrame(there), tipOf(there));
          const moved = moveHandle(crossingExample, "section", "tip", [seen.acrossM, seen.upM]);
          expect(moved.aerial.pose.elevationRad).toBeCloseTo(elevationRad, 9);
          expect(moved.aerial.pose.lengthM).toBeCloseTo(lengthM, 9);
          expect(moved.aerial.pose.bearingRad).toBeCloseTo(crossingExample.aerial.pose.bearingRad, 9);
        },
      ),
      SEED,
    );
  });

  it("keeps the tip's height in the plan view, as long as the limits let it", () => {
    const heightM = tipOf(crossingExample)[2];
    fc.assert(
      fc.property(place, (to) => {
        const { device: machine, pose } = moveHandle(crossingExample, "plan", "tip", to).aerial;
        const height = tipOf({ ...crossingExample, aerial: { ...crossingExample.aerial, pose } })[2];
        const held =
          pose.elevationRad === machine.elevationMaxRad &&
          (pose.lengthM === machine.lengthMinM || pose.lengthM === machine.lengthMaxM);
        if (!held) expect(height).toBeCloseTo(heightM, 6);
      }),
      SEED,
    );
  });

  it("keeps a plumb load plumb and at its height when tip or vehicle move; leaves one that is drawn aside", () => {
    fc.assert(
      fc.property(view, fc.constantFrom("tip", "vehicle"), place, (where, handle, to) => {
        const moved = moveHandle(plumb(crossingExample), where, handle, to);
        const [x, y] = hanging(moved);
        expect(moved.rig.load.positionM[0]).toBeCloseTo(x, 6);
        expect(moved.rig.load.positionM[1]).toBeCloseTo(y, 6);
        expect(moved.rig.load.positionM[2]).toBe(8);
        expect(moveHandle(crossingExample, where, handle, to).rig.load).toBe(crossingExample.rig.load);
      }),
      SEED,
    );
  });

  it("keeps what the view does not show", () => {
    fc.assert(
      fc.property(place, (to) => {
        const frame = planSectionFrame(crossingExample);
        const before = toSection(frame, crossingExample.rig.load.positionM);
        const inSection = toSection(frame, moveHandle(crossingExample, "section", "load", to).rig.load.positionM);
        expect(inSection.acrossM).toBeCloseTo(to[0], 9);
        expect(inSection.upM).toBeCloseTo(to[1], 9);
        expect(inSection.rightM).toBeCloseTo(before.rightM, 9);
        expect(moveHandle(crossingExample, "plan", "load", to).rig.load.positionM).toEqual([to[0], to[1], before.upM]);
      }),
      SEED,
    );
  });

  it("stands a tagline handler on what is below, hands at the height they had", () => {
    const onWall = moveHandle(crossingExample, "plan", "tagline:tag-west", [0, 12]);
    expect(onWall.rig.taglines[0]?.handler).toEqual([0, 12, 8.1]);
    const inYard = moveHandle(onWall, "plan", "tagline:tag-west", [0, -14]);
    // The yard falls 1 in 100 (0.01 rad) southward from its first corner, which is at y = −14.
    expect(inYard.rig.taglines[0]?.handler[2]).toBeCloseTo(1.1, 9);
    const up = moveHandle(inYard, "plan", "tagline:tag-west", [0, 0]);
    expect(up.rig.taglines[0]?.handler[2]).toBeCloseTo(1.1 + 14 * Math.tan(0.01), 9);
  });

  it("sets the vehicle on the ground that is drawn there", () => {
    const moved = moveHandle(crossingExample, "plan", "vehicle", [2, -4]);
    expect(moved.aerial.place).toMatchObject({
      turntableX: 2,
      turntableY: -4,
      headingRad: crossingExample.aerial.place.headingRad,
    });
    expect(moved.aerial.place.groundZM).toBeCloseTo(10 * Math.tan(0.01), 9);
    expect(moveHandle(crossingExample, "plan", "vehicle", [60, -4]).aerial.place.groundZM).toBe(0);
    expect(moveHandle(crossingExample, "plan", "heading", [10, 3]).aerial.place.headingRad).toBeCloseTo(
      Math.PI / 2,
      12,
    );
  });
});

describe("the section's frame", () => {
  it("is undone by its inverse", () => {
    fc.assert(
      fc.property(near, near, near, near, (bearingRad, x, y, z) => {
        const frame = planSectionFrame({
          ...crossingExample,
          aerial: { ...crossingExample.aerial, pose: { ...crossingExample.aerial.pose, bearingRad } },
        });
        const seen = toSection(frame, [x, y, z]);
        const back = fromSection(frame, seen.acrossM, seen.upM, seen.rightM);
        expect(Math.hypot(back[0] - x, back[1] - y, back[2] - z)).toBeLessThan(1e-9);
      }),
      SEED,
    );
  });
});

it("finds the highest thing to stand on", () => {
  expect(surfaceBelow(crossingExample.scene, [0, 12])).toBe(7);
  expect(surfaceBelow(crossingExample.scene, [50, 50])).toBe(0);
});
