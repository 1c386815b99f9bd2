import type { TravelCase } from "@gantline/plan";

/** At rest, friction can act either way: both ends of the band are worked. */
export const CASE_WORD: Readonly<Record<TravelCase, string>> = { raise: "raising", lower: "lowering" };
