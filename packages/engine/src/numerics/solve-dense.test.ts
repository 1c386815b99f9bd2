import { Matrix, solve } from "ml-matrix";
import { describe, expect, it } from "vitest";
import { seededRandom } from "./seeded-random.ts";
import { solveDense } from "./solve-dense.ts";

describe("solveDense", () => {
  it("agrees with ml-matrix on random matrices, rows out of order and pivots of zero among them", () => {
    const random = seededRandom(7);
    for (let n = 1; n <= 12; n++) {
      for (let trial = 0; trial < 20; trial++) {
        const rows = Array.from({ length: n }, () =>
          Array.from({ length: n }, () => (random() < 0.2 ? 0 : random() - 0.5)),
        );
        for (let i = 0; i < n; i++) rows[i]![(i + 1) % n]! += 3;
        const b = Array.from({ length: n }, () => random() - 0.5);
        const expected = solve(new Matrix(rows), Matrix.columnVector(b)).to1DArray();
        const x = Float64Array.from(b);
        expect(solveDense(Float64Array.from(rows.flat()), x, n)).toBe(true);
        for (let i = 0; i < n; i++) expect(x[i]).toBeCloseTo(expected[i]!, 11);
      }
    }
  });

  it("says so when there is no answer", () => {
    expect(solveDense(Float64Array.from([1, 2, 2, 4]), Float64Array.from([1, 1]), 2)).toBe(false);
    expect(solveDense(Float64Array.from([Number.NaN]), Float64Array.from([1]), 1)).toBe(false);
    expect(solveDense(new Float64Array(0), new Float64Array(0), 0)).toBe(true);
  });
});
