import type { SiteVector } from "../base/vector.ts";
import type { AerialDevice, AerialPlace, RiggingPoint } from "./device.ts";
import { type PoseFound, type PoseHold, poseForRiggingPoint } from "./pose-for-rigging-point.ts";

/**
 * How must the ladder be posed for its tip to come to a wanted place?
 *
 * Exact, in closed form. Returns the pose with the limits it breaks, if any; see `poseForRiggingPoint` for what is
 * returned when something is held or the place lies on the turntable's axis.
 */
export function poseForTip(device: AerialDevice, place: AerialPlace, tip: SiteVector, hold: PoseHold = {}): PoseFound {
  return poseForRiggingPoint(device, place, THE_TIP, tip, hold);
}

/** As `poseForTip`, the length kept: the ladder points at the wanted tip. */
export function poseForTipHoldingLength(
  device: AerialDevice,
  place: AerialPlace,
  tip: SiteVector,
  lengthM: number,
): PoseFound {
  return poseForTip(device, place, tip, { lengthM });
}

/** As `poseForTip`, the elevation kept: the ladder turns and runs out to the point nearest the wanted tip. */
export function poseForTipHoldingElevation(
  device: AerialDevice,
  place: AerialPlace,
  tip: SiteVector,
  elevationRad: number,
): PoseFound {
  return poseForTip(device, place, tip, { elevationRad });
}

/** As `poseForTip`, the bearing kept: the wanted tip is brought square into the ladder's vertical plane. */
export function poseForTipHoldingBearing(
  device: AerialDevice,
  place: AerialPlace,
  tip: SiteVector,
  bearingRad: number,
): PoseFound {
  return poseForTip(device, place, tip, { bearingRad });
}

const THE_TIP: RiggingPoint = {
  id: "tip",
  name: "tip",
  on: "ladder",
  alongM: 0,
  lateralM: 0,
  dropM: 0,
  ratingN: null,
  ratingBasis: null,
  ratingSource: "",
  structural: null,
};
