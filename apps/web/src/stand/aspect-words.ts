import type { StandAspect } from "@gantline/plan";

export const ASPECT_WORDS: Readonly<Record<StandAspect, string>> = {
  steepest: "steepest",
  shortest: "shortest",
  leastUsed: "least used",
  lowestTip: "lowest tip load",
  clearest: "most clearance",
  leastRope: "least rope",
};
