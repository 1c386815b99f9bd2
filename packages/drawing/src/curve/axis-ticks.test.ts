import { type Quantity, writeAmount } from "@gantline/plan";
import fc from "fast-check";
import { all, create } from "mathjs";
import { describe, expect, it } from "vitest";
import { axisFor } from "./axis-ticks.ts";

const math = create(all ?? {});
const SEED = 20261125;

/** What mathjs calls the SI unit and the unit of the axis. */
const UNITS: readonly (readonly [Quantity, "metric" | "imperial", string, string])[] = [
  ["length", "metric", "m", "m"],
  ["length", "imperial", "m", "ft"],
  ["force", "metric", "N", "kN"],
  ["force", "imperial", "N", "lbf"],
  ["mass", "imperial", "kg", "lbm"],
  ["angle", "metric", "rad", "deg"],
  ["speed", "imperial", "m/s", "mi/hour"],
  ["pressure", "imperial", "N/m^2", "lbf/ft^2"],
  ["moment", "imperial", "N m", "lbf ft"],
];

describe("axis of a curve", () => {
  // Source: mathjs's own conversions.
  it.each(UNITS)("writes %s in %s as mathjs converts %s to %s", (quantity, system, si, unit) => {
    const { ticks } = axisFor([0, 7.3, 812], quantity, system, 6);
    expect(ticks.length).toBeGreaterThan(2);
    for (const tick of ticks) expect(Number(tick.text)).toBeCloseTo(math.unit(tick.value, si).toNumber(unit), 6);
  });

  it("steps by 1, 2 or 5 times a power of ten, holds every value and keeps to its number of ticks", () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -200, max: 90_000, noNaN: true }), { minLength: 0, maxLength: 6 }),
        fc.constantFrom("length" as const, "force" as const, "ratio" as const),
        fc.constantFrom("metric" as const, "imperial" as const),
        fc.integer({ min: 3, max: 9 }),
        (values, quantity, system, most) => {
          const { low, high, ticks } = axisFor(values, quantity, system, most);
          expect(high).toBeGreaterThan(low);
          for (const v of values) {
            expect(v).toBeGreaterThanOrEqual(low - 1e-9 * (high - low));
            expect(v).toBeLessThanOrEqual(high + 1e-9 * (high - low));
          }
          expect(ticks.length).toBeGreaterThanOrEqual(2);
          expect(ticks.length).toBeLessThanOrEqual(most + 2);
          const figures = ticks.map((t) => Number(t.text.replace("−", "-")));
          const step = (figures[1] ?? 0) - (figures[0] ?? 0);
          expect(["1", "2", "5"]).toContain(
            step
              .toExponential(6)
              .split("e")[0]
              ?.replace(/\.?0+$/, ""),
          );
        },
      ),
      { seed: SEED, numRuns: 500 },
    );
  });

  it("starts from zero, unless what is drawn lies far from it", () => {
    expect(axisFor([400, 900], "force", "metric", 5).low).toBe(0);
    expect(axisFor([46, 52], "length", "metric", 5).low).toBeGreaterThan(40);
    expect(axisFor([], "length", "metric", 5)).toMatchObject({ low: 0, high: 1 });
  });

  it("has the unit in which amounts are written beside it", () => {
    for (const quantity of ["length", "force", "mass", "time"] as const)
      for (const system of ["metric", "imperial"] as const)
        expect(writeAmount({ value: 4000, quantity }, system)).toContain(axisFor([1], quantity, system, 5).unit);
  });
});
