import type { When } from "@gantline/plan";

/** "62 % along". */
export const percentAlong = ({ along }: When): string => `${Math.round(along * 100)}\u202f% along`;
