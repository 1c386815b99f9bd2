import type { When } from "../evolve/evolution-types.ts";
import { momentPlan } from "../evolve/moment-plan.ts";
import type { Plan } from "../schema/plan.ts";
import { roomBelowM } from "./load-falls.ts";
import { letGoMoments } from "./sweep-cuts.ts";

/** Of each stage with something on the ropes the moment at which the load has most room to fall, the most first; a plan without stages: as it is. */
export function roomiestMoments(plan: Plan): readonly (When | null)[] {
  const ofStage = new Map<number, { readonly when: When; readonly roomM: number }>();
  for (const when of letGoMoments(plan)) {
    const roomM = roomBelowM(momentPlan(plan, when));
    if (roomM > (ofStage.get(when.stage)?.roomM ?? Number.NEGATIVE_INFINITY)) ofStage.set(when.stage, { when, roomM });
  }
  if (ofStage.size === 0) return [null];
  return [...ofStage.values()].sort((a, b) => b.roomM - a.roomM).map(({ when }) => when);
}

/** The moment of the evolution at which the load, as it is wanted, has most room to fall; null: the plan's one position. */
export const roomiestMoment = (plan: Plan): When | null => roomiestMoments(plan)[0] ?? null;
