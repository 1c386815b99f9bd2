import fc from "fast-check";
import { expect, it } from "vitest";
import { placeOf, whenAt } from "./when-at.ts";

it("finds the moment at a place, and the place of a moment", () => {
  expect(whenAt(0, 4)).toEqual({ stage: 0, along: 0 });
  expect(whenAt(1, 4)).toEqual({ stage: 3, along: 1 });
  expect(whenAt(0.625, 4)).toEqual({ stage: 2, along: 0.5 });
  expect(whenAt(-1, 4)).toEqual({ stage: 0, along: 0 });
  expect(whenAt(7, 4)).toEqual({ stage: 3, along: 1 });
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 40 }), fc.double({ min: 0, max: 1, noNaN: true }), (count, place) => {
      expect(placeOf(whenAt(place, count), count)).toBeCloseTo(place, 12);
    }),
    { seed: 3011 },
  );
});
