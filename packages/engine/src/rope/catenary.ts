import type { Failure } from "../base/outcome.ts";
import type { SiteVector } from "../base/vector.ts";
import { describeCatenary, hangBetween } from "./catenary-hang.ts";

/** A rope that hangs by its own weight. */
export interface SaggingRope {
  /** Unstretched length, m, above 0. */
  readonly lengthM: number;
  /** EA, N, above 0; null for a rope that does not stretch. */
  readonly axialStiffnessN: number | null;
  /** Weight of each unstretched metre, N/m, 0 or more. */
  readonly weightNM: number;
}

export interface Catenary {
  readonly ok: true;
  /** Unstretched length, m. */
  readonly lengthM: number;
  /** Length along the stretched rope, m. */
  readonly stretchedM: number;
  /** What the rope does to what holds its ends, N, site frame. The two add up to its weight, downward. */
  readonly forceOnAN: SiteVector;
  readonly forceOnBN: SiteVector;
  readonly tensionAN: number;
  readonly tensionBN: number;
  /** Greatest plumb distance from the straight line between the ends down to the rope, m. */
  readonly sagM: number;
  readonly lowest: SiteVector;
  /**
   * −∂(force on B)/∂(place of B) at this unstretched length, N/m: nine numbers, row by row; symmetric, and negative in
   * no direction. The force on A changes by as much the other way; a move of A does what the opposite move of B does.
   * `null` where it is without end: a straight rope that does not stretch.
   */
  readonly stiffnessNM: readonly number[] | null;
}

/**
 * `bad-number`: a length, stiffness, weight, tension or place that none can be, or is too large to reckon with.
 * `too-short`: a rope that does not stretch, shorter than the way. `too-little-tension`: pulled so, it cannot be held up.
 */
export type CatenaryFailure = Failure<"bad-number" | "too-short" | "too-little-tension">;

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
