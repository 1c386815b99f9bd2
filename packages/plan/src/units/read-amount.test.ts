import { describe, expect, it } from "vitest";
import type { Quantity, UnitSystem } from "./quantity.ts";
import { readAmount } from "./read-amount.ts";

const value = (text: string, quantity: Quantity, system: UnitSystem = "metric"): number | null => {
  const read = readAmount(text, quantity, system);
  if (!read.ok) throw new Error(read.problem);
  return read.value;
};
const problem = (text: string, quantity: Quantity, system: UnitSystem = "metric"): string => {
  const read = readAmount(text, quantity, system);
  if (read.ok) throw new Error(`${text} was read as ${read.value}`);
  return read.problem;
};

/** Exact conversions: NIST Special Publication 811, 2008, appendix B.8 (foot, inch, pound, pound-force, mile per hour, knot). */
describe("what people write", () => {
  it.each<[string, Quantity, UnitSystem, number]>([
    ["18 ft 6 in", "length", "metric", 5.6388],
    ["18' 6\"", "length", "metric", 5.6388],
    ["18'-6\"", "length", "imperial", 5.6388],
    ["18'6", "length", "imperial", 5.6388],
    ["18′ 6″", "length", "metric", 5.6388],
    ["18 ft 6 1/2 in", "length", "imperial", 5.6515],
    ["18ft6in", "length", "metric", 5.6388],
    ["6 1/2 in", "length", "imperial", 0.1651],
    ['6-1/2"', "length", "imperial", 0.1651],
    ["6½ in", "length", "imperial", 0.1651],
    ["1/2 in", "diameter", "metric", 0.0127],
    ["5.6 m", "length", "imperial", 5.6],
    ["5,6 m", "length", "imperial", 5.6],
    ["0,125 m", "length", "metric", 0.125],
    ["560 cm", "length", "metric", 5.6],
    ["12.5", "diameter", "metric", 0.0125],
    ["5.6", "length", "metric", 5.6],
    ["10", "length", "imperial", 3.048],
    ["−2.5 m", "length", "metric", -2.5],
    ["-3 ft 6 in", "length", "metric", -1.0668],
    ["300 lb", "mass", "metric", 136.077711],
    ["1,000 lbf", "force", "metric", 4448.2216152605],
    ["1 000 N", "force", "metric", 1000],
    ["4.4 kN", "force", "imperial", 4400],
    ["4.4kn", "force", "metric", 4400],
    ["1.234,5 N", "force", "metric", 1234.5],
    ["70°", "angle", "metric", (70 * Math.PI) / 180],
    ["70 deg", "angle", "metric", (70 * Math.PI) / 180],
    ["70", "angle", "imperial", (70 * Math.PI) / 180],
    ["1.2 rad", "angle", "metric", 1.2],
    ["1:12", "angle", "metric", Math.atan(1 / 12)],
    ["1 in 12", "angle", "metric", Math.atan(1 / 12)],
    ["5 %", "angle", "metric", Math.atan(0.05)],
    ["5\u202f%", "angle", "metric", Math.atan(0.05)],
    ["25 mph", "speed", "metric", 11.176],
    ["12 kn", "speed", "metric", (12 * 1852) / 3600],
    ["36 km/h", "speed", "metric", 10],
    ["70 %", "ratio", "metric", 0.7],
    ["0.7", "ratio", "metric", 0.7],
    ["10", "count", "metric", 10],
    ["12 kV", "voltage", "metric", 12],
    ["5 lb/100 ft", "linearMass", "metric", (5 * 0.45359237) / 30.48],
    ["76 g/m", "linearMass", "imperial", 0.076],
    ["0.8 m²", "area", "imperial", 0.8],
    ["0.8 m2", "area", "imperial", 0.8],
    ["8 ft^2", "area", "metric", 8 * 0.3048 ** 2],
    ["60 MN·m²", "bendingStiffness", "metric", 60e6],
    ["2 kN·m", "moment", "metric", 2000],
  ])("%s as %s (%s)", (text, quantity, system, expected) => {
    expect(value(text, quantity, system)).toBeCloseTo(expected, 9);
  });

  it.each(["", "  ", "?", "unknown", "Unknown"])("takes “%s” for not known", (text) => {
    expect(value(text, "force")).toBeNull();
  });

  it.each<[string, Quantity]>([
    ["about five", "length"],
    ["5 kN", "length"],
    ["5 m", "mass"],
    ["6 Bft", "speed"],
    ["18-6", "length"],
    ["5..6 m", "length"],
    ["1,00,0 m", "length"],
    ["6 in 18 ft", "length"],
    ["18 ft 14 in", "length"],
    ["18 ft 12 in", "length"],
    ["5 m 6", "length"],
    ["1/0 in", "length"],
    ["--5 m", "length"],
    ["5 m -", "length"],
    ["1e400", "length"],
    ["Infinity", "length"],
    ["NaN", "length"],
    ["3 4", "count"],
  ])("refuses “%s” as %s with what was got", (text, quantity) => {
    expect(problem(text, quantity)).toContain(`“${text}”`);
  });

  it("refuses what could be read two ways, and names both", () => {
    expect(problem("5,625 m", "length")).toContain("5.625 or 5625");
    expect(value("5,625 ft", "length")).toBeCloseTo(5625 * 0.3048, 9);
  });

  it("names the unit that does not fit", () => {
    expect(problem("5 kN", "length")).toContain("“kn”");
  });
});
