import { add, type BeamVector, type SiteVector } from "../base/vector.ts";
import type { RiggingPoint } from "./device.ts";
import { fromBeam, type PosedAerial } from "./pose-aerial.ts";

/**
 * Where is a rigging point on the site?
 *
 * A ladder point moves with the ladder: back from the tip along it, sideways, and down square to it.
 * A platform point stays level: forward of the tip hinge along the ladder's bearing, sideways, and plumb down.
 * Returns a site position, m.
 */
export function riggingPointAt(posed: PosedAerial, point: RiggingPoint): SiteVector {
  return add(posed.tip, fromBeam(posed.axes, riggingPointOffset(posed.elevationRad, point)));
}

/** The rigging point seen from the tip, in beam axes, m. For a platform point it depends on the elevation. */
export function riggingPointOffset(elevationRad: number, point: RiggingPoint): BeamVector {
  if (point.on === "ladder") return { axial: -point.alongM, normal: -point.dropM, lateral: point.lateralM };
  const s = Math.sin(elevationRad);
  const c = Math.cos(elevationRad);
  return {
    axial: point.alongM * c - point.dropM * s,
    normal: -point.alongM * s - point.dropM * c,
    lateral: point.lateralM,
  };
}
