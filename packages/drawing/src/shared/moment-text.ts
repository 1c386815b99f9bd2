import type { Plan, When } from "@gantline/plan";

/** " Stage 3, Up beside the wall, 62 % along.", or nothing where no moment is drawn. */
export function momentText(plan: Plan, when: When | undefined): string {
  const stage = when && plan.evolution.stages[when.stage];
  return stage ? ` Stage ${when.stage + 1}, ${stage.name}, ${percentAlong(when)}.` : "";
}

/** "stage 3, 62 % along". */
export const stageAndPercent = (when: When): string => `stage ${when.stage + 1}, ${percentAlong(when)}`;

/** "62 % along". */
export const percentAlong = (when: When): string => `${Math.round(when.along * 100)}\u202f% along`;
