/** What a number measures; decides how it is written in either unit system. Values are SI. */
export type Quantity =
  | "length"
  | "diameter"
  | "force"
  | "mass"
  | "angle"
  | "speed"
  | "moment"
  | "pressure"
  | "area"
  | "voltage"
  | "linearMass"
  | "stiffness"
  | "bendingStiffness"
  | "ratio"
  | "count"
  | "time";

export type UnitSystem = "metric" | "imperial";

/** A number that knows what it measures. */
export interface Amount {
  readonly value: number;
  readonly quantity: Quantity;
}

/** A sentence with numbers in it, written out only once the reader's units are known. */
export type Phrase = readonly (string | Amount)[];

/** Exact by definition, except where said. */
export const FOOT_M = 0.3048;
export const INCH_M = 0.0254;
export const POUND_KG = 0.45359237;
export const POUND_FORCE_N = 4.4482216152605;
export const MILE_PER_HOUR_MS = 0.44704;
export const KNOT_MS = 1852 / 3600;
export const DEGREE_RAD = Math.PI / 180;

/** The unit a bare number is taken to be in, and how the entry field is labelled. */
export const ENTRY_UNIT: Readonly<Record<Quantity, Readonly<Record<UnitSystem, string>>>> = {
  length: { metric: "m", imperial: "ft" },
  diameter: { metric: "mm", imperial: "in" },
  force: { metric: "kN", imperial: "lbf" },
  mass: { metric: "kg", imperial: "lb" },
  angle: { metric: "°", imperial: "°" },
  speed: { metric: "m/s", imperial: "mph" },
  moment: { metric: "kN·m", imperial: "lbf·ft" },
  pressure: { metric: "kPa", imperial: "psf" },
  area: { metric: "m²", imperial: "ft²" },
  voltage: { metric: "kV", imperial: "kV" },
  linearMass: { metric: "g/m", imperial: "lb/100 ft" },
  stiffness: { metric: "kN", imperial: "lbf" },
  bendingStiffness: { metric: "MN·m²", imperial: "kip·ft²" },
  ratio: { metric: "", imperial: "" },
  count: { metric: "", imperial: "" },
  time: { metric: "s", imperial: "s" },
};

/** The quantity told by the unit at the end of a field's name; null where the name ends in none. */
export function quantityOfField(field: string): Quantity | null {
  const endings: readonly (readonly [RegExp, Quantity])[] = [
    [/Nm2$/, "bendingStiffness"],
    [/linearMassKgM$/, "linearMass"],
    [/diameterM$/, "diameter"],
    [/(static|dynamic)StiffnessN$/, "stiffness"],
    [/M2$/, "area"],
    [/MS$/, "speed"],
    [/Rad$/, "angle"],
    [/Kg$/, "mass"],
    [/Kv$/, "voltage"],
    [/Pa$/, "pressure"],
    [/N$/, "force"],
    [/(M|turntableX|turntableY)$/, "length"],
  ];
  return endings.find(([ending]) => ending.test(field))?.[1] ?? null;
}
