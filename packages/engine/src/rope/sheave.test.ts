import { describe, expect, it } from "vitest";
import { capstanRatio, frictionOfEfficiency, sheaveRatio, sheaveResultant, tackleAdvantage } from "./sheave.ts";

describe("sheaves", () => {
  it("lose what their efficiency says over half a turn, nothing straight through, and the same over two quarter turns as over one half", () => {
    expect(sheaveRatio(0.9, Math.PI)).toBeCloseTo(0.9, 14);
    expect(sheaveRatio(0.9, 0)).toBe(1);
    expect(sheaveRatio(0.9, Math.PI / 2) ** 2).toBeCloseTo(0.9, 14);
  });

  // Efficiency and friction of a half turn, from the reference table (derived there from the capstan equation).
  it.each([
    [0.95, 0.0163],
    [0.9, 0.0335],
    [0.8, 0.071],
    [0.66, 0.1323],
    [0.5, 0.2206],
  ])("of efficiency %f have a friction of %f", (efficiency, friction) => {
    expect(frictionOfEfficiency(efficiency)).toBeCloseTo(friction, 4);
    expect(1 / capstanRatio(frictionOfEfficiency(efficiency), Math.PI)).toBeCloseTo(efficiency, 14);
  });

  // 2·sin(δ/2) for a deflection δ: training table of directional pulleys; equal to 2·cos(γ/2) of the angle γ between the ropes.
  it.each([
    [20, 0.3473],
    [45, 0.7654],
    [60, 1],
    [90, Math.SQRT2],
    [120, 1.7321],
    [180, 2],
  ])("as a directional at a deflection of %i° carry %f times the tension", (degrees, factor) => {
    const wrap = (degrees * Math.PI) / 180;
    expect(sheaveResultant(1, 1, wrap)).toBeCloseTo(factor, 4);
    expect(sheaveResultant(1, 1, wrap)).toBeCloseTo(2 * Math.cos((Math.PI - wrap) / 2), 12);
  });

  it("carry unequal tensions as vectors add", () => {
    const [a, b, wrap] = [700, 500, 1.1];
    expect(sheaveResultant(a, b, wrap)).toBeCloseTo(Math.hypot(a - b * Math.cos(wrap), b * Math.sin(wrap)), 9);
  });
});

describe("the capstan equation", () => {
  it("meets published exercises", () => {
    // 100 kg held over three quarters of a turn at µ = 0.2, g = 9.81 (exercise page, printed 382.26 N).
    expect((100 * 9.81) / capstanRatio(0.2, (3 * Math.PI) / 2)).toBeCloseTo(382.26, 2);
    // 1000 N held, one and a half turns at µ = 0.25 (printed 94.78 N to 10550.7 N).
    expect(1000 / capstanRatio(0.25, 3 * Math.PI)).toBeCloseTo(94.78, 2);
    expect(1000 * capstanRatio(0.25, 3 * Math.PI)).toBeCloseTo(10550.7, 1);
    // µ = 0.25, two and a half turns, 2000 N (printed 39.4 N); µ = 0.3, one and two turns (printed 6.586 and 43.38).
    expect(2000 / capstanRatio(0.25, 5 * Math.PI)).toBeCloseTo(39.4, 1);
    expect(capstanRatio(0.3, 2 * Math.PI)).toBeCloseTo(6.586, 3);
    expect(capstanRatio(0.3, 4 * Math.PI)).toBeCloseTo(43.38, 2);
  });
});

describe("tackleAdvantage", () => {
  // Tension method, from the reference table.
  it.each([
    [0.95, 1.95, 2.8525, 4.5244],
    [0.9, 1.9, 2.71, 4.0951],
    [0.8, 1.8, 2.44, 3.3616],
    [0.66, 1.66, 2.0956, 2.5728],
    [0.5, 1.5, 1.75, 1.9375],
  ])("at efficiency %f gives the table's 2:1, 3:1 and 5:1", (efficiency, two, three, five) => {
    expect(tackleAdvantage(2, efficiency)).toBeCloseTo(two, 4);
    expect(tackleAdvantage(3, efficiency)).toBeCloseTo(three, 4);
    expect(tackleAdvantage(5, efficiency)).toBeCloseTo(five, 4);
  });

  it("meets two handbooks, with the lead line off the upper block", () => {
    // Pipeline Rules of Thumb Handbook, p. 6: 4 parts, efficiency 0.917; prints 3.25, exact 3.2361.
    expect(0.917 * tackleAdvantage(4, 0.917)).toBeCloseTo(3.2361, 4);
    expect(Math.abs(0.917 * tackleAdvantage(4, 0.917) - 3.25) / 3.25).toBeLessThan(0.01);
    // Wire Rope Users Manual, 4th edition, p. 88: 4 parts, factor 1.09 a sheave; prints 0.309.
    expect(1 / (tackleAdvantage(4, 1 / 1.09) / 1.09)).toBeCloseTo(0.309, 3);
  });
});
