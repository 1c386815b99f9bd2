import { distance, type SiteVector } from "../base/vector.ts";
import type { AerialDevice, AerialPlace, AerialPose, RiggingPoint } from "./device.ts";
import { poseAerial } from "./pose-aerial.ts";
import { type PoseBreach, poseBreaches, wrapBearing } from "./pose-limits.ts";
import { riggingPointAt } from "./rigging-point-at.ts";

/** What stays as it is while the rest of the pose is sought. */
export type PoseHold = Partial<AerialPose>;

export interface PoseFound {
  /** The pose, not brought within the device's limits: `clampPose` does that. Bearing in [0, 2π). */
  readonly pose: AerialPose;
  /** Where the point comes to lie in that pose. */
  readonly reached: SiteVector;
  /** How far that is from where it was wanted, m. */
  readonly missM: number;
  /** Does the pose lie within the device's limits? If not, `breaches` says which it breaks. */
  readonly within: boolean;
  readonly breaches: readonly PoseBreach[];
}

/**
 * How must the ladder be posed for a rigging point to come to a wanted place?
 *
 * Closed form for a straight beam; the pivot's setback swings with the bearing and is part of it. With nothing held
 * the answer is exact wherever geometry allows one (a place nearer the turntable's axis than the point's sideways offset,
 * or nearer the pivot than its drop, cannot be met: then the nearest in that direction). With something held the
 * rest is the nearest in the ladder's vertical plane, and `missM` says how far off it stays.
 * The ladder is taken to reach forward from its turntable. A place nearer the axis than the setback also has a pose
 * with the bearing reversed; it is not given.
 * A place on the turntable's axis leaves the bearing open: the vehicle's heading is taken.
 */
export function poseForRiggingPoint(
  device: AerialDevice,
  place: AerialPlace,
  point: RiggingPoint,
  wanted: SiteVector,
  hold: PoseHold = {},
): PoseFound {
  const onLadder = point.on === "ladder";
  const back = onLadder ? point.alongM : 0;
  const drop = onLadder ? point.dropM : 0;
  const ahead = onLadder ? 0 : point.alongM;
  const right = point.lateralM;

  const east = wanted[0] - place.turntableX;
  const north = wanted[1] - place.turntableY;
  const toward = east === 0 && north === 0 ? place.headingRad : Math.atan2(east, north);
  const radius = Math.hypot(east, north);

  /** How far the point lies from the turntable's axis in the ladder's plane, m. */
  const reach =
    hold.bearingRad !== undefined
      ? east * Math.sin(hold.bearingRad) + north * Math.cos(hold.bearingRad)
      : hold.elevationRad !== undefined && hold.lengthM !== undefined
        ? (hold.lengthM - back) * Math.cos(hold.elevationRad) +
          drop * Math.sin(hold.elevationRad) +
          ahead -
          device.pivotSetbackM
        : Math.sqrt(Math.max(0, radius * radius - right * right));
  const bearingRad = wrapBearing(hold.bearingRad ?? toward - Math.atan2(right, reach));

  // In the ladder's plane, from the pivot, with what the platform adds taken off.
  const level = reach + device.pivotSetbackM - ahead;
  const height = wanted[2] - place.groundZM - device.pivotHeightM + (onLadder ? 0 : point.dropM);

  const { elevationRad, lengthM } = inPlane(level, height, back, drop, hold);
  const pose = { bearingRad, elevationRad, lengthM };
  const reached = riggingPointAt(poseAerial(device, place, pose), point);
  const breaches = poseBreaches(device, pose);
  return { pose, reached, missM: distance(reached, wanted), within: breaches.length === 0, breaches };
}

/** Elevation and length that bring a point `back` from the tip and `drop` below the beam to (level, height) from the pivot. */
function inPlane(
  level: number,
  height: number,
  back: number,
  drop: number,
  hold: PoseHold,
): { elevationRad: number; lengthM: number } {
  if (hold.elevationRad !== undefined) {
    const along = level * Math.cos(hold.elevationRad) + height * Math.sin(hold.elevationRad);
    return { elevationRad: hold.elevationRad, lengthM: hold.lengthM ?? Math.max(0, along + back) };
  }
  const away = Math.hypot(level, height);
  const along = hold.lengthM !== undefined ? hold.lengthM - back : Math.sqrt(Math.max(0, away * away - drop * drop));
  return {
    elevationRad: halfTurn(Math.atan2(height, level) + Math.atan2(drop, along)),
    lengthM: hold.lengthM ?? along + back,
  };
}

/** The same direction as an angle in (−π, π], rad. */
const halfTurn = (a: number): number => (a > Math.PI ? a - 2 * Math.PI : a <= -Math.PI ? a + 2 * Math.PI : a);
