import { norm, type SiteVector } from "../base/vector.ts";
import { type PosedAerial, toBeam } from "./pose-aerial.ts";

/** A force on the ladder, as the ladder feels it. */
export interface BeamForce {
  /** Along the ladder toward the pivot, N; negative pulls the ladder out. */
  readonly compressionN: number;
  /** Square to the ladder in its vertical plane, N; negative bends it down. */
  readonly normalN: number;
  /** Level, N; positive to the right looking out. */
  readonly lateralN: number;
  readonly resultantN: number;
  /** Between the force and the ladder's axis toward the pivot, rad in [0, π]; 0 is pure compression. */
  readonly offAxisRad: number;
  /** Of the force out of the ladder's vertical plane, rad in [−π/2, π/2]; positive to the right. */
  readonly offPlaneRad: number;
}

/**
 * What does a force do to the ladder: compress, bend, push sideways?
 *
 * `forceN` is the force on the ladder, site frame. A zero force gives zeros throughout.
 */
export function forceInBeamAxes(posed: Pick<PosedAerial, "axes">, forceN: SiteVector): BeamForce {
  const { axial, normal, lateral } = toBeam(posed.axes, forceN);
  return {
    compressionN: axial === 0 ? 0 : -axial,
    normalN: normal,
    lateralN: lateral,
    resultantN: norm(forceN),
    offAxisRad: Math.atan2(Math.hypot(normal, lateral), axial === 0 ? 0 : -axial),
    offPlaneRad: Math.atan2(lateral, Math.hypot(axial, normal)),
  };
}
