import { describe, expect, it } from "vitest";
import { powerLineDistanceM } from "./power-line-distance.ts";

const feet = (m: number | null): number | null => (m === null ? null : m / 0.3048);

describe("powerLineDistanceM", () => {
  // 29 CFR 1926.1408 Table A (upper end of each band is inclusive) and WAC 296-305-04510(4)(c); both read in secondary sources.
  it.each([
    [0.4, 10],
    [50, 10],
    [51, 15],
    [200, 15],
    [201, 20],
    [345, 20],
    [350, 20],
    [351, 25],
    [500, 25],
    [501, 35],
    [750, 35],
    [751, 45],
    [1000, 45],
  ])("keeps %s kV at %s ft or more", (kv, table) => {
    expect(feet(powerLineDistanceM(kv).tableAM)).toBeCloseTo(table, 9);
    expect(feet(powerLineDistanceM(kv).requiredM) ?? 0).toBeGreaterThanOrEqual(table - 1e-9);
  });

  it("takes the fire-service rule where it is larger", () => {
    // 10 ft + 0.4 in × (1000 − 50) = 41.67 ft < 45 ft; at 500 kV: 25 ft exactly equal; at 199 kV 14.97 < 15.
    expect(feet(powerLineDistanceM(200).fireServiceM)).toBeCloseTo(15, 9);
    expect(feet(powerLineDistanceM(345).fireServiceM)).toBeCloseTo(19.833, 3);
    expect(powerLineDistanceM(351).requiredM).toBeCloseTo(25 * 0.3048, 9);
    for (let kv = 1; kv <= 1000; kv += 1) {
      const d = powerLineDistanceM(kv);
      expect(d.requiredM).toBe(Math.max(d.tableAM ?? 0, d.fireServiceM ?? 0));
    }
  });

  it("does not know for a line of unknown or extreme voltage", () => {
    expect(powerLineDistanceM(null).requiredM).toBeNull();
    expect(powerLineDistanceM(1001).requiredM).toBeNull();
  });
});
