import type { UnitSystem } from "@gantline/plan";

export const UNITS_HELP = "  --units metric|imperial   units to write in; metric unless said";

/** The unit system asked for; null where there is none of that name. */
export function readUnits(value: string | boolean | undefined): UnitSystem | null {
  if (value === undefined || value === "metric") return "metric";
  return value === "imperial" ? "imperial" : null;
}
