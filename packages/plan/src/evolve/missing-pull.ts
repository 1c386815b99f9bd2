import {
  add,
  addScaled,
  type HoldingHand,
  pullsToHold,
  type SiteVector,
  scale,
  site,
  subtract,
  unit,
  ZERO,
} from "@gantline/engine";
import type { Situation } from "../situation.ts";

/** Of the load's weight: less than this is nothing to ask for. */
const LEAST = 5e-3;

/**
 * Which further pull would hold the load where it is wanted?
 *
 * What main lines and taglines as they are used leave over there, the other way round; the tether is left out, as where its
 * pulley would ride is not known while the load is not held: what is missing is then what it or another line must pull. Tip
 * sheaves stand where they are with the load where it hangs. null: not known, or nothing is missing.
 */
export function missingPullN({ load, laid, state }: Situation): SiteVector | null {
  const total = laid.mains.reduce((sum, m) => sum + m.line.share, 0);
  if (load.weightN === null || !(total > 0)) return null;
  const at = load.wanted;
  const mains = laid.mains.map((m, i) => ({
    toward: state?.mains[i]?.nodes[1]?.at ?? m.pointAt,
    share: m.line.share / total,
  }));
  const hands: HoldingHand[] = laid.tags.map(({ handsAt, line }) => ({
    toward: handsAt,
    tensionN: line.drive === "tension" ? (line.tensionN ?? 0) : null,
  }));
  const forceN = add(site(0, 0, -load.weightN - (state?.ropesAtYokeN ?? 0)), load.windN ?? ZERO);
  const pulls = pullsToHold(at, mains, hands, forceN);
  if (!(pulls.residualN > LEAST * load.weightN)) return null;
  const along = (sum: SiteVector, toward: SiteVector, newtons: number): SiteVector =>
    addScaled(sum, unit(subtract(toward, at)), newtons);
  const byMains = mains.reduce((sum, m) => along(sum, m.toward, pulls.mainN * m.share), forceN);
  return scale(
    hands.reduce((sum, h, i) => along(sum, h.toward, pulls.handsN[i] ?? 0), byMains),
    -1,
  );
}
