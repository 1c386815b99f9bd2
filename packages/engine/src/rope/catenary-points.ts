import { lerp, type SiteVector } from "../base/vector.ts";
import { hangBetween, placeAlong } from "./catenary-hang.ts";
import type { SaggingRope } from "./sagging-rope.ts";

/**
 * Places along a hanging rope as `catenary` finds it, to draw it or to measure from it: `count` points (2 or more),
 * evenly apart on the unstretched rope, from A to B, site frame, m. None where `catenary` gives a failure.
 */
export function catenaryPoints(rope: SaggingRope, a: SiteVector, b: SiteVector, count: number): readonly SiteVector[] {
  const hang = hangBetween(rope, a, b);
  if ("ok" in hang) return [];
  return Array.from({ length: count }, (_, i) => {
    if (i === 0) return a;
    if (i === count - 1) return b;
    const share = i / (count - 1);
    return "form" in hang ? placeAlong(hang, a, b, rope.lengthM * share) : lerp(a, b, share);
  });
}
