import { describe, expect, it } from "vitest";
import { asSite, cross, site } from "../base/vector.ts";
import { exampleLadder, examplePlace, examplePlatform, examplePoint } from "./example-device.ts";
import { beamAxes, fromBeam, poseAerial, toBeam } from "./pose-aerial.ts";
import { riggingPointAt } from "./rigging-point-at.ts";
import { toVehiclePoint, vehiclePoint } from "./vehicle-point.ts";

const near = (got: readonly number[], want: readonly number[], digits = 9): void => {
  expect(got).toEqual(want.map((w) => expect.closeTo(w, digits)));
};

/** By hand from the conventions: x east, y north, z up, bearings clockwise from north. */
describe("poseAerial", () => {
  it("puts the pivot behind the turntable and the tip out along the bearing", () => {
    const place = { turntableX: 10, turntableY: 20, groundZM: 1, headingRad: 0 };
    const posed = poseAerial(exampleLadder, place, { bearingRad: Math.PI / 2, elevationRad: Math.PI / 6, lengthM: 20 });
    near(posed.pivot, [10 - 0.6, 20, 3.5]);
    near(posed.tip, [10 - 0.6 + 20 * Math.cos(Math.PI / 6), 20, 3.5 + 10]);
  });

  it("has axial × normal = lateral, lateral to the right looking out, normal up when level", () => {
    const level = beamAxes(0, 0);
    near(level.axial, [0, 1, 0]);
    near(level.normal, [0, 0, 1]);
    near(level.lateral, [1, 0, 0]);
    const { axial, normal, lateral } = beamAxes(2.1, 0.9);
    near(cross(axial, normal), lateral, 12);
  });

  it("reaches 52 ft with 61.1 ft of ladder at 31.7°, as in the domed roof example", () => {
    // Reference data GEO1: a thermodynamics course page's ladder over a domed roof, printed to three figures.
    const flat = { ...exampleLadder, pivotSetbackM: 0 };
    const origin = { turntableX: 0, turntableY: 0, groundZM: 0, headingRad: 0 };
    const tip = poseAerial(flat, origin, {
      bearingRad: 0,
      elevationRad: (31.7 * Math.PI) / 180,
      lengthM: 61.1 * 0.3048,
    }).tip;
    expect(Math.abs(tip[1] / 0.3048 - 52)).toBeLessThan(0.05);
  });

  it("takes vectors into beam axes and back", () => {
    const axes = beamAxes(0.3, 1.1);
    near(fromBeam(axes, toBeam(axes, asSite([3, -4, 5]))), [3, -4, 5], 12);
  });
});

describe("riggingPointAt", () => {
  it("moves a ladder point with the beam", () => {
    const posed = poseAerial(exampleLadder, examplePlace, { bearingRad: 0, elevationRad: Math.PI / 2, lengthM: 20 });
    const at = riggingPointAt(posed, { ...examplePoint, alongM: 2, lateralM: 0.3, dropM: 0.5 });
    // Upright: back is down, and "below the beam" points ahead, north.
    near(at, [posed.tip[0] + 0.3, posed.tip[1] + 0.5, posed.tip[2] - 2]);
  });

  it("keeps a platform point level", () => {
    const posed = poseAerial(examplePlatform, examplePlace, { bearingRad: Math.PI, elevationRad: 1, lengthM: 20 });
    const at = riggingPointAt(posed, { ...examplePoint, on: "platform", alongM: 1.2, lateralM: 0.3, dropM: 0.5 });
    near(at, [posed.tip[0] - 0.3, posed.tip[1] - 1.2, posed.tip[2] - 0.5]);
  });
});

describe("vehiclePoint", () => {
  it("turns forward and right with the heading", () => {
    const place = { turntableX: 1, turntableY: 2, groundZM: 3, headingRad: Math.PI / 2 };
    near(vehiclePoint(place, { forwardM: 5, rightM: 1, upM: 0.5 }), [6, 1, 3.5]);
    const back = toVehiclePoint(place, site(6, 1, 3.5));
    near([back.forwardM, back.rightM, back.upM], [5, 1, 0.5]);
  });
});
