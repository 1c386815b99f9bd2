import { tackleAdvantage } from "@gantline/engine";
import { gearOf } from "../rig/gear-of.ts";
import type { Plan } from "../schema/plan.ts";
import type { Tagline, Tether } from "../schema/rig.ts";

/** What a tagline's crew can hold, by the policy's pull for each person, N; null: not known. */
export const tagHandsHoldN = ({ policy }: Plan, { people }: Pick<Tagline, "people">): number | null =>
  policy.pullPerPersonN.value === null ? null : policy.pullPerPersonN.value * people;

/** The same at the tether, by the tackle that its crew pulls on; the tackle's sheaves as the pulley that rides, without loss where that is not known. */
export function tetherHandsHoldN(plan: Plan, tether: Pick<Tether, "people" | "parts" | "pulley">): number | null {
  const heldN = tagHandsHoldN(plan, tether);
  return heldN === null
    ? null
    : heldN * tackleAdvantage(tether.parts, gearOf(plan, "sheave", tether.pulley)?.efficiency ?? 1);
}
