import { type SiteVector, site } from "@gantline/engine";
import type { Plan } from "../schema/plan.ts";

/**
 * The vertical plane the section is drawn in: through the turntable's centre, along the ladder's bearing.
 * Across is the level distance from the turntable's centre, m, positive the way the ladder points; up is height on the site, m.
 */
export interface SectionFrame {
  readonly originX: number;
  readonly originY: number;
  /** East and north of the unit vector along the ladder's bearing. */
  readonly alongX: number;
  readonly alongY: number;
}

/** The section's frame for a plan, from the ladder's bearing and the turntable's place. */
export function planSectionFrame(plan: Plan): SectionFrame {
  const { place, pose } = plan.aerial;
  return {
    originX: place.turntableX,
    originY: place.turntableY,
    alongX: Math.sin(pose.bearingRad),
    alongY: Math.cos(pose.bearingRad),
  };
}

/** A site point seen square onto the section: across and up, and how far it lies to the right of the plane, m. */
export function toSection(
  frame: SectionFrame,
  p: readonly [number, number, number],
): { acrossM: number; upM: number; rightM: number } {
  const east = p[0] - frame.originX;
  const north = p[1] - frame.originY;
  return {
    acrossM: east * frame.alongX + north * frame.alongY,
    upM: p[2],
    rightM: east * frame.alongY - north * frame.alongX,
  };
}

/** The site point at a place in the section, `rightM` to the right of the plane. */
export function fromSection(frame: SectionFrame, acrossM: number, upM: number, rightM = 0): SiteVector {
  return site(
    frame.originX + acrossM * frame.alongX + rightM * frame.alongY,
    frame.originY + acrossM * frame.alongY - rightM * frame.alongX,
    upM,
  );
}
