import { describe, expect, it } from "vitest";
import { tanhLag } from "./tanh-lag.ts";

describe("tanhLag", () => {
  // Bernoulli series x³/3 − 2x⁵/15 + 17x⁷/315 − 62x⁹/2835 + 1382x¹¹/155925 (Abramowitz and Stegun 4.5.64, from memory).
  it.each([1e-100, 1e-8, 1e-3, 0.03, 0.07])("meets the series at %s", (x) => {
    const s = x * x;
    const series = x * s * (1 / 3 - s * (2 / 15 - s * (17 / 315 - s * (62 / 2835 - (s * 1382) / 155925))));
    expect(tanhLag(x) / series - 1).toBeCloseTo(0, 12);
  });

  it.each([0.4, 0.7, 0.999, 1, 1.001, 3, 50])("meets the difference itself at %s", (x) => {
    expect(tanhLag(x) / (x - Math.tanh(x)) - 1).toBeCloseTo(0, 13);
  });

  it("is nothing at 0 and grows without end", () => {
    expect(tanhLag(0)).toBe(0);
    expect(tanhLag(1e6)).toBe(1e6 - 1);
  });
});
