import type { AerialForces, TravelCase } from "../evaluation.ts";
import type { Situation } from "../situation.ts";

/** The travel case in which a figure is largest, and that figure; null where nothing was solved. */
export function worstCase(
  situation: Situation,
  figure: (felt: AerialForces) => number | null,
): { readonly value: number; readonly travel: TravelCase; readonly felt: AerialForces } | null {
  let worst: { value: number; travel: TravelCase; felt: AerialForces } | null = null;
  for (const travel of situation.cases) {
    const felt = situation.felt[travel];
    const value = felt ? figure(felt) : null;
    if (felt && value !== null && (worst === null || value > worst.value)) worst = { value, travel, felt };
  }
  return worst;
}

/** Why no force is known, for the rules that need one. */
export const NOT_SOLVED = ["Not known: no balance of forces was found for this plan."];
