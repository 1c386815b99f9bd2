import { describe, expect, it } from "vitest";
import { STANDARD_GRAVITY_MS2 } from "../base/constants.ts";
import type { AerialDevice, AerialPlace } from "./device.ts";
import { poseAerial } from "./pose-aerial.ts";
import { type MassCentre, vehicleWeights } from "./vehicle-weights.ts";

const DEVICE: AerialDevice = {
  kind: "ladder",
  pivotHeightM: 2.4,
  pivotSetbackM: 0.6,
  lengthMinM: 9,
  lengthMaxM: 25,
  elevationMinRad: 0,
  elevationMaxRad: 1.3,
  beamWidthM: 0.9,
  beamDepthM: 0.6,
  platform: null,
  outline: { frontM: 8, rearM: 3, leftM: 1.25, rightM: 1.25, heightM: 3.4 },
  jacks: [],
  riggingPoints: [],
  tipRating: { source: "", rows: [] },
  sections: [
    { lengthM: 9, massKg: 1000, bendingStiffnessNm2: 1e7 },
    { lengthM: 9, massKg: 600, bendingStiffnessNm2: 1e7 },
    { lengthM: 9, massKg: 400, bendingStiffnessNm2: 1e7 },
  ],
  massKg: 18_000,
};
/** Front to the north. */
const PLACE: AerialPlace = { turntableX: 10, turntableY: 20, groundZM: 0, headingRad: 0 };
const CENTRE: MassCentre = { forwardM: 1.2, rightM: -0.1 };

const sums = (bearingRad: number, elevationRad: number, lengthM: number) => {
  const posed = poseAerial(DEVICE, PLACE, { bearingRad, elevationRad, lengthM });
  const weights = vehicleWeights(DEVICE, CENTRE, PLACE, posed);
  if (weights === null) throw new Error("all is known");
  const down = weights.reduce((s, w) => s - w.forceN[2], 0);
  const centre = (axis: 0 | 1): number => weights.reduce((s, w) => s - w.forceN[2] * w.at[axis], 0) / down;
  return { down, east: centre(0) - 10, north: centre(1) - 20 };
};

describe("vehicleWeights", () => {
  it("weighs the whole vehicle in every pose, and bedded has its centre where it was entered", () => {
    for (const [bearing, elevation, length] of [
      [0, 0, 9],
      [2, 1.2, 9],
      [4, 0.7, 25],
    ] as const)
      expect(sums(bearing, elevation, length).down).toBeCloseTo(18_000 * STANDARD_GRAVITY_MS2, 6);
    const bedded = sums(0, 0, 9);
    expect(bedded.north).toBeCloseTo(1.2, 9);
    expect(bedded.east).toBeCloseTo(-0.1, 9);
  });

  it("moves the centre by what the ladder's centre moves, weight for weight: by hand, run out to 25 m over the rear", () => {
    // Sections of 9 m run out by 8 m each: middles at 4.5, 12.5 and 20.5 m; bedded all at 4.5 m.
    const bedded = 4.5;
    const out = (1000 * 4.5 + 600 * 12.5 + 400 * 20.5) / 2000;
    // Pivot 0.6 m behind the turntable as the ladder looks: bedded to the south of it, over the rear to the north.
    const moved = 0.6 - out - (bedded - 0.6);
    expect(sums(Math.PI, 0, 25).north).toBeCloseTo(1.2 + (2000 / 18_000) * moved, 9);
  });

  it("is not known without mass, centre or sections", () => {
    const posed = poseAerial(DEVICE, PLACE, { bearingRad: 0, elevationRad: 0.5, lengthM: 12 });
    expect(vehicleWeights(DEVICE, null, PLACE, posed)).toBeNull();
    expect(vehicleWeights({ ...DEVICE, massKg: null }, CENTRE, PLACE, posed)).toBeNull();
    expect(vehicleWeights({ ...DEVICE, sections: null }, CENTRE, PLACE, posed)).toBeNull();
    // The sections cannot make a ladder of 40 m.
    const torn = poseAerial(DEVICE, PLACE, { bearingRad: 0, elevationRad: 0.5, lengthM: 40 });
    expect(vehicleWeights(DEVICE, CENTRE, PLACE, torn)).toBeNull();
  });
});
