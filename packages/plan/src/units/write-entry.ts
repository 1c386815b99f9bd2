import { ENTRY_UNIT, FOOT_M, INCH_M, type Quantity, type UnitSystem } from "./quantity.ts";
import { readAmount } from "./read-amount.ts";

/** Decimals that are tried for a number that fits no shorter text. */
const MOST_DECIMALS = 4;

/**
 * How does a value stand in an entry field: with its unit, as short as it can be and still be read back as the same value?
 *
 * Where no short text is exact (5.6 m in feet), it is written to four decimals of the entry unit, or to a hundredth of an inch.
 * `null` (not known) is an empty field.
 */
export function writeEntry(value: number | null, quantity: Quantity, system: UnitSystem): string {
  if (value === null || !Number.isFinite(value)) return "";
  if (quantity === "length" && system === "imperial") return feetAndInches(value);
  const unit = ENTRY_UNIT[quantity][system];
  const one = readAmount(`1 ${unit}`, quantity, system);
  const inUnit = value / (one.ok ? (one.value ?? 1) : 1);
  return `${shortest(inUnit, MOST_DECIMALS)}${unit === "" || unit === "°" ? unit : ` ${unit}`}`;
}

function feetAndInches(metres: number): string {
  const sign = metres < 0 ? "−" : "";
  const inches = Number((Math.abs(metres) / INCH_M).toFixed(2));
  const feet = Math.floor(inches / (FOOT_M / INCH_M));
  const rest = inches - feet * 12;
  if (rest < 0.005) return `${feet === 0 ? "" : sign}${feet} ft`;
  return `${sign}${feet > 0 ? `${feet} ft ` : ""}${shortest(rest, 2)} in`;
}

/** Trailing zeros dropped; without "-0". */
function shortest(value: number, decimals: number): string {
  const rounded = Number(value.toFixed(decimals));
  return rounded === 0 ? "0" : String(rounded).replace("-", "−");
}
