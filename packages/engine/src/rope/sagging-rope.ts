import type { Failure } from "../base/outcome.ts";
import type { SiteVector } from "../base/vector.ts";

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
