import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Quantity, UnitSystem } from "./quantity.ts";
import { readAmount } from "./read-amount.ts";
import { writeEntry } from "./write-entry.ts";

describe("writeEntry", () => {
  it.each<[number | null, Quantity, UnitSystem, string]>([
    [null, "length", "metric", ""],
    [5.6, "length", "metric", "5.6 m"],
    [5.6388, "length", "imperial", "18 ft 6 in"],
    [-1.0668, "length", "imperial", "−3 ft 6 in"],
    [0.1651, "length", "imperial", "6.5 in"],
    [0.0125, "diameter", "metric", "12.5 mm"],
    [(70 * Math.PI) / 180, "angle", "metric", "70°"],
    [0.7, "ratio", "metric", "0.7"],
    [-0, "force", "metric", "0 kN"],
  ])("%s as %s (%s) is “%s”", (value, quantity, system, expected) => {
    expect(writeEntry(value, quantity, system)).toBe(expected);
  });

  it("is read back as the same value, within what an entry can hold", () => {
    const sizes: readonly [Quantity, number, number][] = [
      ["length", 1e5, 0.00013],
      ["diameter", 1, 2e-6],
      ["force", 1e6, 0.06],
      ["mass", 1e5, 5e-5],
      ["angle", 14, 1e-6],
      ["speed", 100, 5e-5],
      ["pressure", 1e7, 0.06],
      ["area", 100, 5e-5],
      ["voltage", 1000, 5e-5],
      ["linearMass", 3, 1e-6],
      ["stiffness", 1e6, 0.06],
      ["bendingStiffness", 1e9, 60],
      ["ratio", 100, 5e-5],
    ];
    fc.assert(
      fc.property(
        fc.constantFrom(...sizes),
        fc.double({ min: -1, max: 1, noNaN: true }),
        fc.constantFrom<UnitSystem>("metric", "imperial"),
        ([quantity, size, within], part, system) => {
          const read = readAmount(writeEntry(part * size, quantity, system), quantity, system);
          if (!read.ok) throw new Error(read.problem);
          expect(Math.abs((read.value ?? Number.NaN) - part * size)).toBeLessThanOrEqual(within);
        },
      ),
      { seed: 11, numRuns: 2000 },
    );
  });
});
