import { describe, expect, it } from "vitest";
import { arithmeticGeometricMean } from "./arithmetic-geometric-mean.ts";

describe("arithmeticGeometricMean", () => {
  it("gives Gauss's constant: 1/agm(1, √2) = 0.8346268416740731 (OEIS A014549, from memory)", () => {
    expect(1 / arithmeticGeometricMean(1, Math.SQRT2)).toBeCloseTo(0.8346268416740731, 15);
  });

  it("is between its two numbers, the same either way round, and of equals the same again", () => {
    expect(arithmeticGeometricMean(3, 3)).toBe(3);
    for (const [a, b] of [
      [1, 1e-12],
      [5, 7],
      [1e-3, 1e3],
    ] as const) {
      const mean = arithmeticGeometricMean(a, b);
      expect(mean).toBe(arithmeticGeometricMean(b, a));
      expect(mean).toBeGreaterThan(Math.sqrt(a * b));
      expect(mean).toBeLessThan(0.5 * (a + b));
    }
  });

  it("gives the complete elliptic integral that Simpson's rule gives", () => {
    for (const k of [0.1, 0.5, 0.7, 0.9]) {
      const n = 400;
      let sum = 0;
      for (let i = 0; i <= n; i++) {
        const weight = i === 0 || i === n ? 1 : i % 2 ? 4 : 2;
        sum += weight / Math.sqrt(1 - (k * Math.sin((Math.PI * i) / (2 * n))) ** 2);
      }
      const integral = (sum * Math.PI) / (2 * n) / 3;
      expect(Math.PI / (2 * arithmeticGeometricMean(1, Math.sqrt(1 - k * k)))).toBeCloseTo(integral, 12);
    }
  });
});
