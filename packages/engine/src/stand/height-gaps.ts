import { codeOf, type Finding } from "./finding.ts";
import { HEIGHT_PARTS } from "./stand-steps.ts";

const RATING = codeOf("rating");

/** What a pose came to, as one number: 0 passes; else what it misses most, of which thing or by which field of the table. */
export function outcomeOf({ miss, check, thing, limit }: Finding): number {
  if (miss === 0) return 0;
  return check * 1e9 + (check === RATING ? Math.min(limit, 9e8) : thing + 1);
}

/** What heights over several places to hang from came to, and the looks between them. */
export interface HeightGaps {
  /** Notes what a pose came to at a height, counted from the highest. */
  note(tip: number, height: number, finding: Finding): void;
  /** Forgets all: every place is taken to fail alike at every height. */
  clear(): void;
  /**
   * Looks between neighbouring heights that fail in different ways: halved, down to a 64th, until one passes.
   *
   * @param tryAt judges one place at one height, counted in 64ths from the highest; gives its outcome
   */
  look(tryAt: (tip: number, part: number) => number): void;
}

/** Between a height that is too high for one reason and one that is too low for another, there may be one that will do. */
export function heightGaps(tips: number, heights: number): HeightGaps {
  const outcomes = new Float64Array(tips * heights);

  function halve(
    tryAt: (tip: number, part: number) => number,
    tip: number,
    high: number,
    ofHigh: number,
    low: number,
    ofLow: number,
  ): void {
    if (low - high < 2) return;
    const middle = (high + low) >> 1;
    const outcome = tryAt(tip, middle);
    if (outcome === 0) return;
    if (outcome !== ofHigh) halve(tryAt, tip, high, ofHigh, middle, outcome);
    if (outcome !== ofLow) halve(tryAt, tip, middle, outcome, low, ofLow);
  }

  return {
    note(tip, height, finding) {
      outcomes[tip * heights + height] = outcomeOf(finding);
    },
    clear() {
      outcomes.fill(-1);
    },
    look(tryAt) {
      for (let tip = 0; tip < tips; tip++) {
        for (let z = 1; z < heights; z++) {
          const ofHigh = outcomes[tip * heights + z - 1] as number;
          const ofLow = outcomes[tip * heights + z] as number;
          if (ofHigh !== ofLow) halve(tryAt, tip, (z - 1) * HEIGHT_PARTS, ofHigh, z * HEIGHT_PARTS, ofLow);
        }
      }
    },
  };
}
