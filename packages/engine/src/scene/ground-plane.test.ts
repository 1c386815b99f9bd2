import { describe, expect, it } from "vitest";
import { groundZAt, slopesUnderVehicle, slopeToward } from "./ground-plane.ts";

/** By hand: a fall of 1 in 10 toward the east. */
const plane = { xM: 5, yM: 0, zM: 2, slopeRad: Math.atan(0.1), downhillBearingRad: Math.PI / 2 };

describe("ground plane", () => {
  it("falls toward its downhill bearing and is level across", () => {
    expect(groundZAt(plane, 15, 0)).toBeCloseTo(1, 12);
    expect(groundZAt(plane, 5, 40)).toBeCloseTo(2, 12);
    expect(groundZAt(plane, -5, 3)).toBeCloseTo(3, 12);
  });
  it("rises along and across a vehicle", () => {
    const north = slopesUnderVehicle(plane, 0);
    expect(north.alongRad).toBeCloseTo(0, 12);
    expect(north.acrossRad).toBeCloseTo(-Math.atan(0.1), 12);
    const west = slopesUnderVehicle(plane, -Math.PI / 2);
    expect(west.alongRad).toBeCloseTo(Math.atan(0.1), 12);
    expect(west.acrossRad).toBeCloseTo(0, 12);
  });
  it("agrees with the heights of two points", () => {
    const bearing = 0.7;
    const rise = groundZAt(plane, 5 + Math.sin(bearing), Math.cos(bearing)) - 2;
    expect(Math.tan(slopeToward(plane, bearing))).toBeCloseTo(rise, 12);
  });
});
