import { describe, expect, it } from "vitest";
import { clearance } from "../scene/clearance.ts";
import { polyline } from "../scene/solids.ts";
import { ladderSolid, platformSolid, vehicleSolid } from "./aerial-solids.ts";
import { exampleLadder, examplePlace, examplePlatform } from "./example-device.ts";
import { poseAerial } from "./pose-aerial.ts";
import { vehiclePoint } from "./vehicle-point.ts";

const close = (values: readonly number[]) => values.map((v) => expect.closeTo(v, 9));

/** By hand from the example devices' sizes. */
describe("solids of the aerial device", () => {
  it("the ladder reaches from pivot to tip, its depth square to it", () => {
    const posed = poseAerial(exampleLadder, examplePlace, { bearingRad: 0, elevationRad: 0, lengthM: 20 });
    const { min, max } = ladderSolid(exampleLadder, posed).bounds;
    expect(min).toEqual(close([2.5, posed.pivot[1], 3 - 0.35]));
    expect(max).toEqual(close([3.5, posed.tip[1], 3 + 0.35]));
  });

  it("the platform stays level at any elevation, ahead of the hinge", () => {
    const posed = poseAerial(examplePlatform, examplePlace, {
      bearingRad: Math.PI / 2,
      elevationRad: 1.1,
      lengthM: 20,
    });
    const bounds = platformSolid(examplePlatform, posed)?.bounds;
    const [x, y, z] = posed.tip;
    expect(bounds?.min).toEqual(close([x - 0.3, y - 1.1, z - 0.4]));
    expect(bounds?.max).toEqual(close([x + 2, y + 1.1, z + 0.7]));
    expect(platformSolid(exampleLadder, posed)).toBeNull();
  });

  it("the vehicle stands on its outline, turned with its heading", () => {
    const solid = vehicleSolid(exampleLadder, examplePlace);
    const from = (forwardM: number, rightM: number, upM: number): number =>
      clearance(solid, polyline([vehiclePoint(examplePlace, { forwardM, rightM, upM })])).distanceM;
    expect([from(9, 0, 1), from(-5, 1, 1), from(0, -2.25, 1), from(0, 3.25, 1), from(1, 0, 5)]).toEqual(
      close([2, 1, 1, 2, 1.5]),
    );
    expect(from(6.9, 1.2, 0.1)).toBe(0);
    expect(solid.bounds.min[2]).toBe(examplePlace.groundZM);
    expect(solid.bounds.max[2]).toBe(4);
  });
});
