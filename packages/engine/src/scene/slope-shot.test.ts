import { describe, expect, it } from "vitest";
import { heightBetweenShots, slopeShot } from "./slope-shot.ts";

const degrees = (d: number): number => (d * Math.PI) / 180;

describe("slopeShot", () => {
  // Reference data §9, computed apart from this code: d, θ, σd, σθ, h ± σ, r ± σ; printed to 0.1 mm.
  it.each([
    [30, 45, 0.3, 0.25, 21.2132, 0.2314, 21.2132, 0.2314],
    [30, 70, 0.3, 0.25, 28.1908, 0.2854, 10.2606, 0.1602],
    [30, 45, 0.02, 0.1, 21.2132, 0.0396, 21.2132, 0.0396],
    [30, 70, 0.1, 0.1, 28.1908, 0.0957, 10.2606, 0.0599],
    [25, 60, 1, 0.5, 21.6506, 0.8729, 12.5, 0.5345],
  ])("%d m at %d° ± %d m, %d°", (d, angle, errorM, errorDeg, h, hError, r, rError) => {
    const got = slopeShot({
      distanceM: d,
      elevationRad: degrees(angle),
      distanceErrorM: errorM,
      elevationErrorRad: degrees(errorDeg),
    });
    for (const [value, expected] of [
      [got.heightM, h],
      [got.heightErrorM, hError],
      [got.horizontalM, r],
      [got.horizontalErrorM, rError],
    ] as const) {
      expect(Math.abs(value - expected)).toBeLessThan(5.1e-5);
    }
  });
  it("105 ft at 47° is 76.8 ft high", () => {
    // Published worked example, reference data §9.
    const got = slopeShot({
      distanceM: 105 * 0.3048,
      elevationRad: degrees(47),
      distanceErrorM: 0,
      elevationErrorRad: 0,
    });
    expect(Math.abs(got.heightM / 0.3048 - 76.8)).toBeLessThan(0.05);
  });
  it("errors are those of a small change in the readings", () => {
    const shot = { distanceM: 40, elevationRad: 0.9, distanceErrorM: 0, elevationErrorRad: 0 };
    const step = 1e-6;
    const at = (change: Partial<typeof shot>) => slopeShot({ ...shot, ...change });
    const byAngle = at({ elevationErrorRad: step });
    expect(byAngle.heightErrorM).toBeCloseTo(Math.abs(at({ elevationRad: 0.9 + step }).heightM - at({}).heightM), 10);
    expect(byAngle.horizontalErrorM).toBeCloseTo(
      Math.abs(at({ elevationRad: 0.9 + step }).horizontalM - at({}).horizontalM),
      10,
    );
    const byDistance = at({ distanceErrorM: step });
    expect(byDistance.heightErrorM).toBeCloseTo(Math.abs(at({ distanceM: 40 + step }).heightM - at({}).heightM), 12);
  });
  it("a wall from its foot and its top", () => {
    const shot = (elevationDeg: number) => ({
      distanceM: 20,
      elevationRad: degrees(elevationDeg),
      distanceErrorM: 0.3,
      elevationErrorRad: 0,
    });
    const got = heightBetweenShots(shot(-30), shot(30));
    expect(got.heightM).toBeCloseTo(20, 9);
    expect(got.heightErrorM).toBeCloseTo(0.15 * Math.SQRT2, 9);
  });
});
