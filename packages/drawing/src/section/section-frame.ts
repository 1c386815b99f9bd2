import { type SiteVector, site } from "@gantline/engine";
import { fromSection, type Plan, planSectionFrame, toSection } from "@gantline/plan";
import type { WorldPoint } from "../primitives.ts";

/**
 * The vertical plane the section is drawn in: through the turntable's centre along the ladder's bearing.
 * Across is the level distance from the turntable's centre, m, positive the way the ladder points; up is height on the site, m.
 */
export interface DrawnSection {
  /** A site point seen square onto the plane. */
  readonly toSection: (p: SiteVector) => WorldPoint;
  /** The site point in the plane. */
  readonly fromSection: (p: WorldPoint) => SiteVector;
  /** How far a site point lies to the right of the plane looking out along the ladder: on the reader's side of the sheet, m. */
  readonly before: (p: SiteVector) => number;
  readonly origin: SiteVector;
  readonly bearingRad: number;
}

export function sectionFrame(plan: Plan): DrawnSection {
  const frame = planSectionFrame(plan);
  return {
    toSection: (p) => {
      const { acrossM, upM } = toSection(frame, p);
      return [acrossM, upM];
    },
    fromSection: ([acrossM, upM]) => fromSection(frame, acrossM, upM),
    before: (p) => toSection(frame, p).rightM,
    origin: site(frame.originX, frame.originY, 0),
    bearingRad: plan.aerial.pose.bearingRad,
  };
}
