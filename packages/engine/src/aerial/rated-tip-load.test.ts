import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { RatingRow } from "./device.ts";
import { ratedTipLoad } from "./rated-tip-load.ts";

const row = (e0: number, e1: number, l0: number, l1: number, value: number | null): RatingRow => ({
  elevationMinRad: (e0 * Math.PI) / 180,
  elevationMaxRad: (e1 * Math.PI) / 180,
  lengthMinM: l0,
  lengthMaxM: l1,
  ratedTipLoadN: value,
});
/** Invented, in the shape makers print: elevation bands with whole degrees and gaps between them. */
const table = {
  source: "invented",
  rows: [
    row(0, 45, 10, 20, 2000),
    row(46, 60, 10, 20, 3000),
    row(61, 75, 10, 20, 4000),
    row(0, 45, 20, 30, 1000),
    row(46, 60, 20, 30, 2500),
    row(61, 75, 20.5, 30, null),
  ],
};
const at = (degrees: number, lengthM: number) => ratedTipLoad(table, (degrees * Math.PI) / 180, lengthM);

describe("ratedTipLoad", () => {
  it("reads the band a pose lies in", () => {
    expect(at(30, 15)).toMatchObject({ ratedTipLoadN: 2000, where: "inside" });
    expect(at(50, 25)).toMatchObject({ ratedTipLoadN: 2500, where: "inside" });
  });
  it("takes the lower value on a shared boundary, also within rounding of it", () => {
    expect(at(30, 20)).toMatchObject({ ratedTipLoadN: 1000, where: "boundary" });
    expect(at(30, 20 - 1e-9)).toMatchObject({ ratedTipLoadN: 1000, where: "boundary" });
    expect(at(30, 20 - 1e-5)).toMatchObject({ ratedTipLoadN: 2000, where: "inside" });
    expect(at(30, 30 + 1e-9)).toMatchObject({ ratedTipLoadN: 1000, where: "inside" });
  });
  it("takes the lower neighbour in a gap, along either direction or both", () => {
    expect(at(45.5, 15)).toMatchObject({ ratedTipLoadN: 2000, where: "between" });
    expect(at(60.5, 15)).toMatchObject({ ratedTipLoadN: 3000, where: "between" });
    expect(at(45.5, 20)).toMatchObject({ ratedTipLoadN: 1000, where: "between" });
  });
  it("does not know where a band or a neighbour has no value", () => {
    expect(at(70, 25).ratedTipLoadN).toBeNull();
    expect(at(60.5, 25).ratedTipLoadN).toBeNull();
    expect(at(70, 20.2).ratedTipLoadN).toBeNull();
    expect(at(60.5, 20.2).ratedTipLoadN).toBeNull();
  });
  it("does not know outside every band, and does not carry a band on past the table's end", () => {
    for (const [e, l] of [
      [-5, 15],
      [80, 15],
      [30, 9],
      [30, 31],
      [45.5, 31],
      [80, 35],
    ] as const) {
      expect(at(e, l)).toMatchObject({ ratedTipLoadN: null, where: "outside", rows: [] });
    }
    expect(ratedTipLoad({ source: "", rows: [] }, 0.5, 20).ratedTipLoadN).toBeNull();
  });
  it("looks to all four corners where both directions lie in a gap", () => {
    const four = {
      source: "invented",
      rows: [row(0, 40, 10, 19, 9), row(41, 70, 10, 19, 8), row(0, 40, 20, 30, 7), row(41, 70, 20, 30, 6)],
    };
    expect(ratedTipLoad(four, (40.5 * Math.PI) / 180, 19.5)).toMatchObject({ ratedTipLoadN: 6, where: "between" });
    expect(ratedTipLoad({ ...four, rows: four.rows.slice(1) }, (40.5 * Math.PI) / 180, 19.5).ratedTipLoadN).toBeNull();
  });
  it("keeps zero as a value and counts negative or non-finite ones as missing", () => {
    const one = (value: number) =>
      ratedTipLoad({ source: "", rows: [row(0, 45, 10, 20, value)] }, 0.3, 15).ratedTipLoadN;
    expect(one(0)).toBe(0);
    expect(one(-1)).toBeNull();
    expect(one(Number.NaN)).toBeNull();
    expect(one(Number.POSITIVE_INFINITY)).toBeNull();
  });
});

describe("ratedTipLoad, any table", () => {
  const bands = fc.tuple(
    fc.integer({ min: 0, max: 7 }),
    fc.integer({ min: 1, max: 3 }),
    fc.integer({ min: 0, max: 7 }),
    fc.integer({ min: 1, max: 3 }),
  );
  const rows = fc.array(
    fc
      .tuple(bands, fc.option(fc.integer({ min: 0, max: 5000 }), { nil: null }))
      .map(([[e, de, l, dl], value]) => row(e * 10, (e + de) * 10, l * 3, (l + dl) * 3, value)),
    { maxLength: 6 },
  );
  const elevation = fc.double({ min: -0.3, max: 1.9, noNaN: true });
  const length = fc.double({ min: 0, max: 32, noNaN: true });

  it("never makes a number from a missing or outside value, nor one the table does not hold", () => {
    fc.assert(
      fc.property(rows, elevation, length, (rows, e, l) => {
        const answer = ratedTipLoad({ source: "", rows }, e, l);
        const holding = rows.filter(
          (r) => r.elevationMinRad <= e && e <= r.elevationMaxRad && r.lengthMinM <= l && l <= r.lengthMaxM,
        );
        if (holding.some((r) => r.ratedTipLoadN === null)) expect(answer.ratedTipLoadN).toBeNull();
        if (answer.rows.length === 0 || answer.rows.some((r) => r.ratedTipLoadN === null))
          expect(answer.ratedTipLoadN).toBeNull();
        if (answer.ratedTipLoadN !== null) {
          expect(answer.ratedTipLoadN).toBe(Math.min(...answer.rows.map((r) => r.ratedTipLoadN ?? -1)));
          for (const r of holding) expect(answer.ratedTipLoadN).toBeLessThanOrEqual(r.ratedTipLoadN ?? -1);
        }
        // Outside the table's whole reach nothing is known.
        const reach = (of: (r: RatingRow) => number, pick: (...v: number[]) => number): number => pick(...rows.map(of));
        const outside =
          e < reach((r) => r.elevationMinRad, Math.min) - 1e-5 ||
          e > reach((r) => r.elevationMaxRad, Math.max) + 1e-5 ||
          l < reach((r) => r.lengthMinM, Math.min) - 1e-5 ||
          l > reach((r) => r.lengthMaxM, Math.max) + 1e-5;
        if (rows.length === 0 || outside) expect(answer).toMatchObject({ ratedTipLoadN: null, where: "outside" });
      }),
      { seed: 31, numRuns: 2000 },
    );
  });

  it("does not depend on the order of the rows", () => {
    fc.assert(
      fc.property(rows, elevation, length, (rows, e, l) => {
        const one = ratedTipLoad({ source: "", rows }, e, l);
        const other = ratedTipLoad({ source: "", rows: [...rows].reverse() }, e, l);
        expect([other.ratedTipLoadN, other.where]).toEqual([one.ratedTipLoadN, one.where]);
      }),
      { seed: 32, numRuns: 500 },
    );
  });
});
