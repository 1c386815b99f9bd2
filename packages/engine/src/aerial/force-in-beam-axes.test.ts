import { describe, expect, it } from "vitest";
import { add, scale, site, subtract, unit } from "../base/vector.ts";
import { exampleLadder } from "./example-device.ts";
import { forceInBeamAxes } from "./force-in-beam-axes.ts";
import { beamAxes, poseAerial } from "./pose-aerial.ts";

const degrees = (d: number): number => (d * Math.PI) / 180;

/**
 * Reference data, fixture TIP: 200 kg on one line over a tip sheave of efficiency 0.9 (not scaled by wrap), the return
 * parallel to the ladder; computed by an independent solver. Columns: elevation, return tension, resultant, axial, transverse.
 */
const tipCases = [
  [0, 1961.33, 2773.739, 1961.33, 1961.33],
  [0, 1765.197, 2638.7, 1765.197, 1961.33],
  [0, 2179.256, 2931.888, 2179.256, 1961.33],
  [30, 1961.33, 3397.123, 2941.995, 1698.562],
  [30, 1765.197, 3228.757, 2745.862, 1698.562],
  [30, 2179.256, 3587.507, 3159.921, 1698.562],
  [45, 1961.33, 3624.065, 3348.2, 1386.87],
  [45, 1765.197, 3443.68, 3152.067, 1386.87],
  [45, 2179.256, 3826.311, 3566.125, 1386.87],
  [60, 1961.33, 3788.999, 3659.892, 980.665],
  [60, 1765.197, 3599.907, 3463.759, 980.665],
  [60, 2179.256, 3999.896, 3877.817, 980.665],
  [70, 1961.33, 3863.066, 3804.377, 670.814],
  [70, 1765.197, 3670.071, 3608.244, 670.814],
  [70, 2179.256, 4077.856, 4022.303, 670.814],
  [75, 1961.33, 3889.101, 3855.829, 507.63],
  [75, 1765.197, 3694.735, 3659.696, 507.63],
  [75, 2179.256, 4105.261, 4073.755, 507.63],
  [80, 1961.33, 3907.733, 3892.863, 340.581],
  [80, 1765.197, 3712.386, 3696.73, 340.581],
  [80, 2179.256, 4124.873, 4110.789, 340.581],
] as const;

describe("forceInBeamAxes", () => {
  it.each(tipCases)("at %i° with %d N returning", (elevation, returnN, resultantN, axial, transverse) => {
    const axes = beamAxes(1.2, degrees(elevation));
    const got = forceInBeamAxes({ axes }, add(site(0, 0, -1961.33), scale(axes.axial, -returnN)));
    // Printed to 0.001 N from inputs of the same grain.
    expect(Math.abs(got.resultantN - resultantN)).toBeLessThan(2e-3);
    expect(Math.abs(got.compressionN - axial)).toBeLessThan(2e-3);
    expect(Math.abs(-got.normalN - transverse)).toBeLessThan(2e-3);
    expect(got.lateralN).toBeCloseTo(0, 9);
    expect(got.offPlaneRad).toBeCloseTo(0, 12);
    expect(got.offAxisRad).toBeCloseTo(Math.atan2(transverse, axial), 6);
  });

  it("finds the sideways part of a line to a directional beside the ladder", () => {
    // Reference data, fixture SIDE: ladder 28 m at 70° along +x, pivot at 2.5 m, directional at (0, 2.4, 1.0), T 1961.33 N.
    const device = { ...exampleLadder, pivotSetbackM: 0, pivotHeightM: 2.5 };
    const place = { turntableX: 0, turntableY: 0, groundZM: 0, headingRad: 0 };
    const posed = poseAerial(device, place, { bearingRad: Math.PI / 2, elevationRad: degrees(70), lengthM: 28 });
    expect(posed.tip).toEqual([9.576564, 0, 28.811393].map((v) => expect.closeTo(v, 6)));
    const line = subtract(site(0, 2.4, 1.0), posed.tip);
    expect(Math.hypot(...line)).toBeCloseTo(29.511763, 6);
    const got = forceInBeamAxes(posed, scale(unit(line), 1961.33));
    // +y lies to the left of a ladder that points along +x.
    expect(got.lateralN).toBeCloseTo(-159.5022, 4);
    expect(got.offPlaneRad).toBeCloseTo(-Math.asin(159.5022 / 1961.33), 7);
  });

  it("knows straight compression, straight pull, straight sideways and nothing", () => {
    const axes = beamAxes(0.7, 0.5);
    expect(forceInBeamAxes({ axes }, scale(axes.axial, -10)).offAxisRad).toBeCloseTo(0, 12);
    expect(forceInBeamAxes({ axes }, scale(axes.axial, 10))).toMatchObject({
      offAxisRad: expect.closeTo(Math.PI, 12),
      compressionN: expect.closeTo(-10, 12),
    });
    expect(forceInBeamAxes({ axes }, scale(axes.lateral, 10)).offPlaneRad).toBeCloseTo(Math.PI / 2, 6);
    expect(Object.values(forceInBeamAxes({ axes }, site(0, 0, 0)))).toEqual([0, 0, 0, 0, 0, 0]);
  });
});
