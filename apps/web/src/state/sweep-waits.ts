import type { Plan } from "@gantline/plan";
import type { Desk } from "./desk.ts";

/**
 * Does the sweep wait while something is in hand? It does, so that the drawings have the machine to themselves; but not for
 * a way point in hand, which changes nothing but the evolution.
 */
export const sweepWaits = ({ moveBase, history: { present } }: Pick<Desk, "moveBase" | "history">): boolean =>
  moveBase !== null &&
  (Object.keys(present) as (keyof Plan)[]).some((k) => k !== "evolution" && present[k] !== moveBase[k]);
