import type { SiteVector } from "../base/vector.ts";
import { describeCatenary, hangBetween } from "./catenary-hang.ts";
import type { Catenary, CatenaryFailure, SaggingRope } from "./sagging-rope.ts";

/**
 * How does a rope of known length hang between two points, and how does it pull on them?
 *
 * Elastic catenary: perfectly flexible, stretch in proportion to tension, weight spread over the unstretched length.
 * Holds from bowstring taut to folded plumb below two ends in one place. As the weight goes to 0 it becomes the
 * straight tension-only spring, which it is at 0; a slack rope without weight pulls nothing, and is given the shape
 * that the least weight would give it.
 *
 * @param a,b places of the ends, site frame, m
 * @returns forces to about 1e-15 of EA and of themselves; a failure only for numbers that make no rope
 * Source: Irvine, Cable Structures, 1981 (from memory); method and checks in `docs/theory/catenary.md`.
 */
export function catenary(rope: SaggingRope, a: SiteVector, b: SiteVector): Catenary | CatenaryFailure {
  const hang = hangBetween(rope, a, b);
  return "ok" in hang ? hang : describeCatenary(hang, a, b);
}
