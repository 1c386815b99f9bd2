import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { distance, site } from "../base/vector.ts";
import { exampleLadder, examplePlace, examplePlatform, examplePoint } from "./example-device.ts";
import { poseAerial } from "./pose-aerial.ts";
import { poseForRiggingPoint } from "./pose-for-rigging-point.ts";
import {
  poseForTip,
  poseForTipHoldingBearing,
  poseForTipHoldingElevation,
  poseForTipHoldingLength,
} from "./pose-for-tip.ts";
import { clampPose, wrapBearing } from "./pose-limits.ts";
import { riggingPointAt } from "./rigging-point-at.ts";

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const poses = fc.record({ bearingRad: number(0, 6.28), elevationRad: number(-0.15, 1.36), lengthM: number(10, 30) });
const offsets = fc.record({ alongM: number(0, 3), lateralM: number(-1, 1), dropM: number(-0.5, 1.5) });
const places = fc.tuple(number(-25, 25), number(-25, 25), number(0, 30)).map(([x, y, z]) => site(x, y, z));
const angleApart = (a: number, b: number): number => Math.abs(Math.atan2(Math.sin(a - b), Math.cos(a - b)));

describe("poseForRiggingPoint", () => {
  it("finds the pose that put a point where it is, on a ladder and on a platform", () => {
    fc.assert(
      fc.property(poses, offsets, fc.boolean(), (pose, offset, onPlatform) => {
        const device = onPlatform ? examplePlatform : exampleLadder;
        const point = { ...examplePoint, ...offset, on: onPlatform ? ("platform" as const) : ("ladder" as const) };
        const posed = poseAerial(device, examplePlace, pose);
        const wanted = riggingPointAt(posed, point);
        // The reversed pose is another answer where the point lies behind or beside the axis: leave those out.
        const outward = (wanted[0] - 3) * Math.sin(pose.bearingRad) + (wanted[1] + 2) * Math.cos(pose.bearingRad);
        fc.pre(outward > 0.05);
        const found = poseForRiggingPoint(device, examplePlace, point, wanted);
        expect(found.missM).toBeLessThan(1e-9);
        expect(angleApart(found.pose.bearingRad, pose.bearingRad)).toBeLessThan(1e-9);
        expect(found.pose.elevationRad).toBeCloseTo(pose.elevationRad, 9);
        expect(found.pose.lengthM).toBeCloseTo(pose.lengthM, 8);
        expect(found.within).toBe(true);
      }),
      { seed: 20, numRuns: 500 },
    );
  });

  it("is exact for every place in the open, whatever the limits", () => {
    fc.assert(
      fc.property(places, offsets, (wanted, offset) => {
        fc.pre(Math.hypot(wanted[0] - 3, wanted[1] + 2) > 1.5);
        const found = poseForRiggingPoint(exampleLadder, examplePlace, { ...examplePoint, ...offset }, wanted);
        fc.pre(found.pose.lengthM > offset.alongM);
        expect(found.missM).toBeLessThan(1e-9);
        expect(distance(found.reached, wanted)).toBe(found.missM);
      }),
      { seed: 21, numRuns: 500 },
    );
  });

  it("with something held, no neighbouring pose in the plane comes nearer", () => {
    const kinds = fc.constantFrom("lengthM" as const, "elevationRad" as const, "bearingRad" as const);
    fc.assert(
      fc.property(places, poses, offsets, kinds, number(-0.02, 0.02), (wanted, held, offset, kind, step) => {
        const point = { ...examplePoint, ...offset };
        const found = poseForRiggingPoint(exampleLadder, examplePlace, point, wanted, { [kind]: held[kind] });
        expect(found.pose[kind]).toBe(held[kind]);
        fc.pre(found.pose.lengthM > 0);
        const miss = (pose: typeof found.pose): number =>
          distance(riggingPointAt(poseAerial(exampleLadder, examplePlace, pose), point), wanted);
        if (kind !== "elevationRad")
          expect(miss({ ...found.pose, elevationRad: found.pose.elevationRad + step })).toBeGreaterThan(
            found.missM - 1e-9,
          );
        if (kind !== "lengthM")
          expect(miss({ ...found.pose, lengthM: found.pose.lengthM + step })).toBeGreaterThan(found.missM - 1e-9);
      }),
      { seed: 22, numRuns: 500 },
    );
  });

  it("with the tip and one value held, no pose at all with that value comes nearer", () => {
    fc.assert(
      fc.property(places, poses, poses, (tip, held, other) => {
        fc.pre(Math.hypot(tip[0] - 3, tip[1] + 2) > 1);
        const miss = (pose: typeof held): number => distance(poseAerial(exampleLadder, examplePlace, pose).tip, tip);
        const length = poseForTipHoldingLength(exampleLadder, examplePlace, tip, held.lengthM);
        expect(miss({ ...other, lengthM: held.lengthM })).toBeGreaterThan(length.missM - 1e-9);
        const elevation = poseForTipHoldingElevation(exampleLadder, examplePlace, tip, held.elevationRad);
        expect(miss({ ...other, elevationRad: held.elevationRad })).toBeGreaterThan(elevation.missM - 1e-9);
        const bearing = poseForTipHoldingBearing(exampleLadder, examplePlace, tip, held.bearingRad);
        expect(miss({ ...other, bearingRad: held.bearingRad })).toBeGreaterThan(bearing.missM - 1e-9);
      }),
      { seed: 23, numRuns: 500 },
    );
  });

  it("gives finite numbers on the axis, at the pivot and nearer than the point's offsets", () => {
    const point = { ...examplePoint, lateralM: 0.8, dropM: 0.6, alongM: 1 };
    for (const wanted of [site(3, -2, 10), site(3, -2, 3), site(3.1, -2, 3), site(3, -2.6, 3), site(3, -1.4, 3)]) {
      const found = poseForRiggingPoint(exampleLadder, examplePlace, point, wanted);
      for (const value of [...Object.values(found.pose), ...found.reached, found.missM])
        expect(Number.isFinite(value)).toBe(true);
    }
    expect(poseForTip(exampleLadder, examplePlace, site(3, -2, 20)).pose.bearingRad).toBe(examplePlace.headingRad);
  });

  it("says which limits a pose breaks, and clamps to them", () => {
    const far = poseForTip(exampleLadder, examplePlace, site(60, -2, 3));
    expect(far.within).toBe(false);
    expect(far.breaches.map((b) => b.code)).toEqual(["tooLong"]);
    const steep = poseForTip(exampleLadder, examplePlace, site(3, -2, 11));
    expect(steep.breaches.map((b) => b.code)).toEqual(["tooSteep", "tooShort"]);
    const clamped = clampPose(exampleLadder, { bearingRad: -Math.PI / 2, elevationRad: 2, lengthM: 3 });
    expect(clamped).toEqual({ bearingRad: 1.5 * Math.PI, elevationRad: 1.36, lengthM: 10 });
    expect(wrapBearing(-1e-20)).toBe(0);
  });
});
