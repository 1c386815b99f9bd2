import type { Plan } from "./schema/plan.ts";

/** Jack reach as entered; a jack of unknown reach is taken at full reach here, and the ledger says that it is unknown. */
export function knownReach(plan: Plan): Record<string, number> {
  return Object.fromEntries(plan.aerial.device.jacks.map((j) => [j.id, plan.aerial.jackReach[j.id] ?? 1]));
}
