import type { StandCandidate } from "@gantline/engine";
import { aspectCost } from "./stand-front.ts";
import type { FoundStands, StandAspect } from "./stand-types.ts";
import type { Spot, StandTrier, TriedStand } from "./try-stands.ts";

/** Places looked at by the search's own checks, which take microseconds, and of these so many at the moments that matter. */
const LOOKED_AT = 1500;
const TRIED = 12;
/** Less gain than this share is not looked for. */
const GAIN = 0.01;
/** Parts of R3, the sequence that fills space most evenly. */
const PARTS = [0.8191725, 0.6710436, 0.5497005] as const;

/**
 * Does a stand anywhere hold that is better by an aspect than one that holds? Places and heights spread evenly over all
 * parking ground, the same whatever bars some of them; of those that vehicle and ladder allow and that are likely better, the
 * ones that would be better by least are tried first, as they most likely hold. `null`: none of these.
 */
export function betterElsewhere(
  trier: StandTrier,
  own: readonly FoundStands[],
  now: TriedStand,
  aspect: StandAspect,
  ended: () => boolean,
): TriedStand | null {
  const question = own[0]?.asked.question;
  if (!question) return null;
  const { parking, target } = question;
  const corners = parking.flatMap((p) => p.outline);
  const [xs, ys] = [corners.map((c) => c[0]), corners.map((c) => c[1])];
  const between = (all: readonly number[], share: number): number => {
    const low = Math.min(...all);
    return low + (Math.max(...all) - low) * share;
  };
  const cost = aspectCost(now.figures, aspect);
  const likelyNow = trier.likely(now.candidate, aspect);
  const below = likelyNow - GAIN * Math.abs(likelyNow);
  const likely: { readonly candidate: StandCandidate & Spot; readonly cost: number }[] = [];
  for (let n = 1; n <= LOOKED_AT; n++) {
    const [a = 0, b = 0, c = 0] = PARTS.map((part) => (n * part) % 1);
    const z = target.minZM + (target.maxZM - target.minZM) * c;
    const placed = trier.place({ turntable: [between(xs, a), between(ys, b)], point: [target.xM, target.yM, z] });
    if (!placed) continue;
    const of = trier.likely(placed.candidate, aspect);
    if (of < below) likely.push({ candidate: placed.candidate, cost: of });
  }
  likely.sort((a, b) => b.cost - a.cost);
  for (const { candidate } of likely.slice(0, TRIED)) {
    if (ended()) return null;
    const tried = trier.try(candidate, aspect, cost - GAIN * Math.abs(cost));
    if (tried) return tried;
  }
  return null;
}
