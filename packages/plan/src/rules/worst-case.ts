import type { FeltForces, TravelCase } from "../evaluation.ts";
import type { Situation } from "../situation.ts";
import type { Phrase } from "../units/quantity.ts";

/**
 * The travel case in which a figure of the ladder's forces is largest, and that figure; null where nothing was solved, or
 * where the efficiency of a tip sheave is not known: the tension beyond it could be anything.
 */
export function worstCase(
  situation: Situation,
  figure: (felt: FeltForces) => number | null,
): { readonly value: number; readonly travel: TravelCase; readonly felt: FeltForces } | null {
  if (situation.laid.mains.some((m) => m.efficiencies[0] === null)) return null;
  let worst: { value: number; travel: TravelCase; felt: FeltForces } | null = null;
  for (const travel of situation.cases) {
    const felt = situation.felt[travel];
    const value = felt ? figure(felt) : null;
    if (felt && value !== null && (worst === null || value > worst.value)) worst = { value, travel, felt };
  }
  return worst;
}

/** Why no force is known, for the rules that need one. */
export const notSolved = ({ holding }: Situation): Phrase =>
  holding.state === "unsolved" ? holding.says : ["Not known: the efficiency of a sheave is missing."];
