import type { StandFit, Status } from "@gantline/plan";

export const FIT_STATUS: Readonly<Record<StandFit, Status>> = { fits: "within", unknown: "unknown", fails: "over" };

export const FIT_WORDS: Readonly<Record<StandFit, string>> = {
  fits: "Nothing over in the whole evolution",
  unknown: "Nothing over, but not all is known",
  fails: "Something is over",
};
