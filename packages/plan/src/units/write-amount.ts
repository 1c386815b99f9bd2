import {
  type Amount,
  DEGREE_RAD,
  FOOT_M,
  INCH_M,
  MILE_PER_HOUR_MS,
  type Phrase,
  POUND_FORCE_N,
  POUND_KG,
  type Quantity,
  type UnitSystem,
} from "./quantity.ts";

const THIN = "\u202f";

/** A ratio no more than this over 1 is at its limit, as a check judges it. */
export const OVER_BY = 1e-9;

/** Round half away from zero at so many decimals, without "-0". */
function fixed(value: number, decimals: number): string {
  const text = value.toFixed(decimals);
  return Number(text) === 0 ? (0).toFixed(decimals) : text.replace("-", "−");
}

/** Three figures that matter, no exponent. */
function threeFigures(value: number): string {
  const size = Math.abs(value);
  return fixed(value, size >= 100 ? 0 : size >= 10 ? 1 : 2);
}

function feetAndInches(metres: number): string {
  const sign = metres < 0 ? "−" : "";
  const inches = Math.round(Math.abs(metres) / INCH_M);
  const feet = Math.floor(inches / 12);
  const rest = inches - feet * 12;
  return `${inches === 0 ? "" : sign}${feet}${THIN}ft${rest > 0 ? ` ${rest}${THIN}in` : ""}`;
}

const METRIC: Readonly<Record<Quantity, (v: number) => string>> = {
  length: (v) => `${fixed(v, Math.abs(v) >= 100 ? 1 : 2)}${THIN}m`,
  diameter: (v) => `${fixed(v * 1000, 1)}${THIN}mm`,
  force: (v) => `${threeFigures(v / 1000)}${THIN}kN`,
  mass: (v) => `${fixed(v, Math.abs(v) < 10 ? 1 : 0)}${THIN}kg`,
  angle: (v) => `${fixed(v / DEGREE_RAD, 1)}°`,
  speed: (v) => `${fixed(v, 1)}${THIN}m/s`,
  moment: (v) => `${threeFigures(v / 1000)}${THIN}kN·m`,
  pressure: (v) => `${threeFigures(v / 1000)}${THIN}kPa`,
  area: (v) => `${fixed(v, 2)}${THIN}m²`,
  voltage: (v) => `${threeFigures(v)}${THIN}kV`,
  linearMass: (v) => `${fixed(v * 1000, 0)}${THIN}g/m`,
  stiffness: (v) => `${threeFigures(v / 1000)}${THIN}kN`,
  bendingStiffness: (v) => `${threeFigures(v / 1e6)}${THIN}MN·m²`,
  ratio: (v) => fixed(v, 2),
  count: (v) => fixed(v, Number.isInteger(v) ? 0 : 1),
  time: (v) => `${fixed(v, 1)}${THIN}s`,
};

const IMPERIAL: Readonly<Record<Quantity, (v: number) => string>> = {
  ...METRIC,
  length: feetAndInches,
  diameter: (v) => `${fixed(v / INCH_M, 2)}${THIN}in`,
  force: (v) => `${fixed(v / POUND_FORCE_N, 0)}${THIN}lbf`,
  mass: (v) => `${fixed(v / POUND_KG, 0)}${THIN}lb`,
  speed: (v) => `${fixed(v / MILE_PER_HOUR_MS, 1)}${THIN}mph`,
  moment: (v) => `${fixed(v / (POUND_FORCE_N * FOOT_M), 0)}${THIN}lbf·ft`,
  pressure: (v) => `${fixed((v / POUND_FORCE_N) * FOOT_M ** 2, 0)}${THIN}psf`,
  area: (v) => `${fixed(v / FOOT_M ** 2, 1)}${THIN}ft²`,
  linearMass: (v) => `${fixed((v / POUND_KG) * FOOT_M * 100, 1)}${THIN}lb/100${THIN}ft`,
  stiffness: (v) => `${fixed(v / POUND_FORCE_N, 0)}${THIN}lbf`,
  bendingStiffness: (v) => `${threeFigures(v / (POUND_FORCE_N * FOOT_M ** 2) / 1000)}${THIN}kip·ft²`,
};

/**
 * A number as people in this unit system write it, with its unit.
 * A value that is not finite is a fault upstream; it is written "unknown", so that no NaN reaches a screen or paper.
 */
export function writeAmount(amount: Amount | null, system: UnitSystem): string {
  if (amount === null || !Number.isFinite(amount.value)) return "unknown";
  return (system === "metric" ? METRIC : IMPERIAL)[amount.quantity](amount.value);
}

/**
 * A ratio as a percentage of its limit: "63 %", "over 9900 %" at the cap, "—" where there is none. What is over never reads
 * as 100 %.
 */
export function writeRatio(ratio: number | null): string {
  if (ratio === null || !Number.isFinite(ratio)) return "—";
  if (ratio >= 99) return "over 9900\u202f%";
  const percent = Math.round(ratio * 100);
  return `${ratio > 1 + OVER_BY && percent <= 100 ? 101 : percent}\u202f%`;
}

/** A sentence with its numbers in the reader's units. */
export function writePhrase(phrase: Phrase, system: UnitSystem): string {
  return phrase.map((part) => (typeof part === "string" ? part : writeAmount(part, system))).join("");
}
