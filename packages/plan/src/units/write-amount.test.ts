import { describe, expect, it } from "vitest";
import { statusOf } from "../judge.ts";
import { STARTING_POLICY } from "../library/policies.ts";
import { FOOT_M, POUND_FORCE_N, POUND_KG, quantityOfField } from "./quantity.ts";
import { writeAmount, writePhrase, writeRatio } from "./write-amount.ts";

const plain = (text: string): string => text.replaceAll("\u202f", " ");

describe("writeAmount", () => {
  it.each([
    [5.6, "length", "metric", "5.60 m"],
    [18.5 * FOOT_M, "length", "imperial", "18 ft 6 in"],
    [12 * FOOT_M, "length", "imperial", "12 ft"],
    [-0.17, "length", "metric", "−0.17 m"],
    [-0.001, "length", "metric", "0.00 m"],
    [4400, "force", "metric", "4.40 kN"],
    [250 * POUND_FORCE_N, "force", "imperial", "250 lbf"],
    [300 * POUND_KG, "mass", "imperial", "300 lb"],
    [Math.PI / 2, "angle", "metric", "90.0°"],
    [8.9408, "speed", "imperial", "20.0 mph"],
    [71820, "pressure", "imperial", "1500 psf"],
  ] as const)("writes %s (%s, %s) as %s", (value, quantity, system, text) => {
    expect(plain(writeAmount({ value, quantity }, system))).toBe(text);
  });

  it("never lets a number that is not finite through", () => {
    expect(writeAmount({ value: Number.NaN, quantity: "force" }, "metric")).toBe("unknown");
    expect(writeAmount({ value: Number.POSITIVE_INFINITY, quantity: "length" }, "imperial")).toBe("unknown");
    expect(writeAmount(null, "metric")).toBe("unknown");
  });

  it("writes ratios as percent, with a word at the cap", () => {
    expect(plain(writeRatio(0.634))).toBe("63 %");
    expect(plain(writeRatio(99))).toBe("over 9900 %");
    expect(plain(writeRatio(0.996))).toBe("100 %");
    expect(plain(writeRatio(1))).toBe("100 %");
    expect(plain(writeRatio(1.26))).toBe("126 %");
    expect(writeRatio(null)).toBe("—");
  });

  it.each([1 + 2e-9, 1.0001, 1.004, 1.0049])("never writes %s, which a check finds over, as 100 %", (ratio) => {
    expect(statusOf(ratio, STARTING_POLICY)).toBe("over");
    expect(plain(writeRatio(ratio))).toBe("101 %");
  });

  it("writes what a check still finds at its limit as 100 %", () => {
    expect(statusOf(1 + 5e-10, STARTING_POLICY)).toBe("close");
    expect(plain(writeRatio(1 + 5e-10))).toBe("100 %");
  });

  it("writes the numbers of a sentence in the reader's units", () => {
    const phrase = ["Needs ", { value: 30.48, quantity: "length" }, "."] as const;
    expect(plain(writePhrase(phrase, "metric"))).toBe("Needs 30.48 m.");
    expect(plain(writePhrase(phrase, "imperial"))).toBe("Needs 100 ft.");
  });
});

describe("quantityOfField", () => {
  it.each([
    ["lengthM", "length"],
    ["turntableX", "length"],
    ["ratingN", "force"],
    ["staticStiffnessN", "stiffness"],
    ["bendingStiffnessNm2", "bendingStiffness"],
    ["padAreaM2", "area"],
    ["gustMS", "speed"],
    ["elevationRad", "angle"],
    ["massKg", "mass"],
    ["linearMassKgM", "linearMass"],
    ["voltageKv", "voltage"],
    ["bearingPa", "pressure"],
    ["people", null],
    ["name", null],
  ])("tells what %s measures", (field, quantity) => {
    expect(quantityOfField(field)).toBe(quantity);
  });
});
