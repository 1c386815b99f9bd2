import fc from "fast-check";
import { expect, it } from "vitest";
import type { Quantity, UnitSystem } from "./quantity.ts";
import { readAmount } from "./read-amount.ts";
import { writeAmount } from "./write-amount.ts";

/** Half of the last place that is written, in SI, for values of at most `size`. */
const PLACES: readonly [Quantity, number, number, number][] = [
  ["length", 90_000, 0.06, 0.0128],
  ["diameter", 0.2, 0.000051, 0.00013],
  ["force", 5e5, 501, 2.3],
  ["mass", 60_000, 0.51, 0.23],
  ["angle", 7, 0.001, 0.001],
  ["speed", 80, 0.051, 0.023],
  ["moment", 5e6, 501, 0.7],
  ["pressure", 5e6, 501, 24],
  ["area", 50, 0.0051, 0.0051],
  ["voltage", 800, 0.51, 0.51],
  ["linearMass", 2, 0.00051, 0.00075],
  ["stiffness", 5e5, 501, 2.3],
  ["bendingStiffness", 5e8, 5.1e5, 3e6],
  ["ratio", 60, 0.0051, 0.0051],
  ["count", 50, 0.051, 0.051],
];

it.each(PLACES)("reads back what was written: %s", (quantity, size, metricPlace, imperialPlace) => {
  fc.assert(
    fc.property(
      fc.double({ min: -size, max: size, noNaN: true }),
      fc.constantFrom<UnitSystem>("metric", "imperial"),
      (x, system) => {
        const read = readAmount(writeAmount({ value: x, quantity }, system), quantity, system);
        if (!read.ok) throw new Error(read.problem);
        expect(Math.abs((read.value ?? Number.NaN) - x)).toBeLessThanOrEqual(
          system === "metric" ? metricPlace : imperialPlace,
        );
      },
    ),
    { seed: 20_240_611, numRuns: 500 },
  );
});

it("answers any text with a finite number, null or a sentence", () => {
  const scraps = fc
    .array(
      fc.constantFrom(
        "1",
        "0",
        "12",
        ",",
        ".",
        "-",
        "/",
        " ",
        "ft",
        "in",
        "'",
        '"',
        "%",
        ":",
        "kN",
        "m",
        "°",
        "e",
        "½",
        "x",
      ),
      { maxLength: 9 },
    )
    .map((parts) => parts.join(""));
  fc.assert(
    fc.property(
      fc.oneof(fc.string(), scraps),
      fc.constantFrom(...PLACES.map(([quantity]) => quantity)),
      fc.constantFrom<UnitSystem>("metric", "imperial"),
      (text, quantity, system) => {
        const read = readAmount(text, quantity, system);
        if (read.ok) expect(read.value === null || Number.isFinite(read.value)).toBe(true);
        else expect(read.problem).toMatch(/\.$/);
      },
    ),
    { seed: 7, numRuns: 3000 },
  );
});
