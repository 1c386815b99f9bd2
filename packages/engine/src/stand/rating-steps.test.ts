import { expect, test } from "vitest";
import { poseGapToRated, ratedAt, ratingSteps } from "./rating-steps.ts";

/** Invented: two bands of length by two of elevation. */
const table = {
  source: "invented",
  rows: [
    { elevationMinRad: 0, elevationMaxRad: 0.5, lengthMinM: 10, lengthMaxM: 20, ratedTipLoadN: 3000 },
    { elevationMinRad: 0, elevationMaxRad: 0.5, lengthMinM: 20, lengthMaxM: 30, ratedTipLoadN: 1000 },
    { elevationMinRad: 0.5, elevationMaxRad: 1, lengthMinM: 10, lengthMaxM: 20, ratedTipLoadN: 5000 },
    { elevationMinRad: 0.5, elevationMaxRad: 1, lengthMinM: 20, lengthMaxM: 30, ratedTipLoadN: 2990 },
  ],
};
const steps = ratingSteps(table);
const gap = (elevationRad: number, lengthM: number, neededN: number): number =>
  poseGapToRated(steps, { elevationRad, lengthM }, neededN, 30);

/** Bands end 1e-6 beyond their edges. */
const EDGE = 5;

test("the way to a pose that is rated for a load, in shares of a right angle and of the length, by subtraction", () => {
  expect(gap(0.3, 15, 2500)).toBe(0);
  // 10 N short in the upper band at 26 m, 2,000 N short in the lower: the way is the same, 6 m shorter.
  expect(gap(0.7, 26, 3000)).toBeCloseTo(6 / 30, EDGE);
  expect(gap(0.3, 26, 3000)).toBeCloseTo(6 / 30, EDGE);
  // Shorter by 6 m and steeper by 0.2 rad.
  expect(gap(0.3, 26, 4000)).toBeCloseTo(6 / 30 + 0.2 / (Math.PI / 2), EDGE);
  expect(gap(0.7, 26, 5001)).toBe(Number.MAX_VALUE);
});

test("is nothing just where the table allows the load", () => {
  for (let elevationRad = 0.05; elevationRad < 1; elevationRad += 0.1) {
    for (let lengthM = 10.5; lengthM < 30; lengthM += 1) {
      for (const neededN of [500, 2000, 2995, 4000]) {
        const allowed = ratedAt(steps, elevationRad, lengthM) >= neededN;
        expect(gap(elevationRad, lengthM, neededN) === 0).toBe(allowed);
      }
    }
  }
});
