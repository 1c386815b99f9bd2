import { describe, expect, it } from "vitest";
import { angleBetween, bearingOf, bearingVector, cross, site, unit, ZERO } from "./vector.ts";

describe("site vectors", () => {
  it("have no direction when they have no length", () => {
    expect(unit(ZERO)).toEqual(ZERO);
    expect(unit(site(0, 1e-310, 0))).toEqual(ZERO);
    expect(unit(site(0, 0, -1e-100))[2]).toBeCloseTo(-1, 12);
  });

  it("turn right-handed: east × north is up", () => {
    expect(cross(site(1, 0, 0), site(0, 1, 0))).toEqual(site(0, 0, 1));
  });

  it("measure bearings clockwise from north", () => {
    expect(bearingOf(site(1, 0, 0))).toBeCloseTo(Math.PI / 2, 12);
    expect(bearingOf(site(-1, 0, 0))).toBeCloseTo(1.5 * Math.PI, 12);
    expect(bearingVector(Math.PI / 2)[0]).toBeCloseTo(1, 12);
  });

  it("measure small and straight angles without losing figures", () => {
    expect(angleBetween(site(1, 0, 0), site(1, 1e-9, 0))).toBeCloseTo(1e-9, 18);
    expect(angleBetween(site(1, 0, 0), site(-1, 1e-9, 0))).toBeCloseTo(Math.PI - 1e-9, 15);
  });
});
