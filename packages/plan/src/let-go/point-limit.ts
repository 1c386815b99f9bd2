import { allowedOf, divisorOf } from "../rules/let-go-peak-check.ts";
import type { Plan } from "../schema/plan.ts";

/** What a rigging point may get when a line goes, N: its rating over the policy's factor, as its check has it; null: not known. */
export function pointLimitN({ aerial, policy }: Plan, pointId: string): number | null {
  const point = aerial.device.riggingPoints.find((p) => p.id === pointId);
  return allowedOf(point?.ratingN ?? null, divisorOf(policy, point?.ratingBasis ?? null));
}
