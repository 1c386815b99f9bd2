import { type SiteVector, site } from "../base/vector.ts";
import type { Swing } from "./swing.ts";

/**
 * The arc of a swing, to draw it or to measure clearance from it: `count` points (2 or more), evenly apart in angle, from
 * the side of letting go through the lowest point to the farthest on the other side, site frame, m.
 *
 * The arc is the one on the rope's own length about the pivot; it begins `beyondRopeM` from where the load was held.
 */
export function swingArc(of: Swing, count: number): readonly SiteVector[] {
  const { pivot, farthest, amplitudeRad, amplitudeM } = of;
  const below = pivot[2] - farthest[2];
  const ropeM = Math.hypot(amplitudeM, below);
  const share = amplitudeM > 0 ? 1 / amplitudeM : 0;
  const east = (farthest[0] - pivot[0]) * share;
  const north = (farthest[1] - pivot[1]) * share;
  return Array.from({ length: count }, (_, i) => {
    const angle = amplitudeRad * ((2 * i) / (count - 1) - 1);
    const out = ropeM * Math.sin(angle);
    return site(pivot[0] + out * east, pivot[1] + out * north, pivot[2] - ropeM * Math.cos(angle));
  });
}
