import type { When } from "@gantline/plan";

/** "62 % along". */
export const percentAlong = ({ along }: When): string => `${Math.round(along * 100)}\u202f% along`;

/** "stage 3, 62 % along". */
export const stageAndPercent = (when: When): string => `stage ${when.stage + 1}, ${percentAlong(when)}`;
