import { addScaled, distance, type SiteVector, site, subtract, UP, unit, ZERO } from "@gantline/engine";
import { HELD_WITHIN_M } from "./held-there.ts";

/** The yoke's height when the load under it stands on the ground there, m. */
export type StandingZ = (yoke: SiteVector) => number;

/** A rope that stands for one way in which the ground holds a load. */
export interface GroundRope {
  readonly toward: SiteVector;
  readonly lengthM: number;
  /** EA, N. */
  readonly stiffnessN: number;
}

/** From so far off that its pull hardly turns while the load moves, m. */
const FAR_M = 1000;
/** The ground gives by some millimetres under a load, N/m. */
const GIVES_NM = 2e5;
const WAYS = [UP, site(1, 0, 0), site(-1, 0, 0), site(0, 1, 0), site(0, -1, 0)];

/** The ground under a load that stands, and stays where it came down, as ropes from far above and from far to every side. */
export const groundRopes = (standing: SiteVector): readonly GroundRope[] =>
  WAYS.map((way) => ({
    toward: addScaled(standing, way, FAR_M),
    lengthM: FAR_M,
    stiffnessN: GIVES_NM * FAR_M,
  }));

/** What the ground does to a load, N. @param tensionOf tension of its k-th rope, N */
export const groundForce = (standing: SiteVector, yoke: SiteVector, tensionOf: (k: number) => number): SiteVector =>
  groundRopes(standing).reduce(
    (sum, { toward }, k) => addScaled(sum, unit(subtract(toward, yoke)), tensionOf(k)),
    ZERO,
  );

/**
 * Where the yoke is when the load, hung with the yoke here in the ground, stands on the ground above; null: it is in the air, or
 * held where it is wanted. A load that is wanted in the ground is let into it, so that this is seen and told.
 */
export function standingAt(yoke: SiteVector, wanted: SiteVector, standingZ: StandingZ): SiteVector | null {
  if (distance(yoke, wanted) <= HELD_WITHIN_M || wanted[2] < standingZ(wanted) - ROUNDING_M) return null;
  const zM = standingZ(yoke);
  return yoke[2] < zM ? site(yoke[0], yoke[1], zM) : null;
}

const ROUNDING_M = 1e-6;
