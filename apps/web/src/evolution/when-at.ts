import type { When } from "@gantline/plan";

/** The place of a moment in the whole evolution, 0 to 1; every stage takes the same width. */
export const placeOf = (when: When, count: number): number => (when.stage + when.along) / count;

/** The moment at a place of the whole evolution; a place beyond its ends is the end. */
export function whenAt(place: number, count: number): When {
  const stage = Math.min(count - 1, Math.max(0, Math.floor(place * count)));
  return { stage, along: Math.min(1, Math.max(0, place * count - stage)) };
}
