import type { StandPick } from "@gantline/plan";

export const ASPECT_WORDS: Readonly<Record<StandPick, string>> = {
  steepest: "steepest",
  shortest: "shortest",
  leastUsed: "least used",
  lowestTip: "lowest tip load",
  clearest: "most clearance",
  leastRope: "least rope",
  roomiest: "most room to be parked off",
};
