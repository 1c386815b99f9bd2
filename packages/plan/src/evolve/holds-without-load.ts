import type { Check } from "../check.ts";

/** Rules that hold of the vehicle and the ladder alone. */
const STAND_RULES: ReadonlySet<string> = new Set([
  "reach",
  "elevation",
  "wind",
  "jacks",
  "parking",
  "lock-out",
  "power-lines-looked-for",
  "example-data",
]);

/** Does a check say anything while nothing is on the ropes? Those of the vehicle, the ladder and what they come near. */
export const holdsWithoutLoad = (c: Pick<Check, "id" | "rule">): boolean =>
  STAND_RULES.has(c.rule) ||
  c.id.startsWith("clearance/ladder/") ||
  c.id === "ground/ladder" ||
  /^power-line\/power\/(ladder|vehicle)\//.test(c.id);
