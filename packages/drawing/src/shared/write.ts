import { type Quantity, type UnitSystem, writeAmount } from "@gantline/plan";

/** A number in the reader's units. */
export type Write = (value: number | null, quantity: Quantity) => string;

export const writer =
  (system: UnitSystem): Write =>
  (value, quantity) =>
    writeAmount(value === null ? null : { value, quantity }, system);

/** A text cut to so many letters, with an ellipsis. */
export const shortened = (text: string, most: number): string =>
  text.length <= most ? text : `${text.slice(0, most - 1).trimEnd()}…`;
