import { STANDARD_GRAVITY_MS2 } from "../base/constants.ts";
import { addScaled, site } from "../base/vector.ts";
import type { AerialDevice, AerialPlace } from "./device.ts";
import { type PosedAerial, poseAerial } from "./pose-aerial.ts";
import { telescopedPieces } from "./telescoped-pieces.ts";
import type { AppliedForce } from "./tipping.ts";
import { vehiclePoint } from "./vehicle-point.ts";

/** The whole vehicle's centre of mass in plan, its ladder bedded: from axle and side weights. */
export interface MassCentre {
  readonly forwardM: number;
  readonly rightM: number;
}

/**
 * Where does the vehicle's own weight act, with the ladder posed?
 *
 * The whole weight at its centre with the ladder bedded, less the ladder bedded, more the ladder as posed; the three together
 * have the weight of the whole. Bedded is taken to be level over the vehicle's front at the shortest length. Heights are
 * those of the ladder, else of the ground: weights are plumb, and no moment about a level line depends on them. What hangs
 * from or stands on the tip is not in it. `null`: mass, centre or sections are not known, or the sections cannot make the ladder's
 * length.
 */
export function vehicleWeights(
  device: AerialDevice,
  centre: MassCentre | null,
  place: AerialPlace,
  posed: PosedAerial,
): readonly AppliedForce[] | null {
  if (device.massKg === null || device.sections === null || centre === null) return null;
  const bedded = ladderWeights(
    device,
    poseAerial(device, place, { bearingRad: place.headingRad, elevationRad: 0, lengthM: device.lengthMinM }),
  );
  const now = ladderWeights(device, posed);
  if (bedded === null || now === null) return null;
  return [
    { at: vehiclePoint(place, { ...centre, upM: 0 }), forceN: site(0, 0, -device.massKg * STANDARD_GRAVITY_MS2) },
    ...bedded.map(({ at, forceN }) => ({ at, forceN: site(0, 0, -forceN[2]) })),
    ...now,
  ];
}

function ladderWeights(device: AerialDevice, posed: PosedAerial): readonly AppliedForce[] | null {
  const found = telescopedPieces(device.sections ?? [], posed.lengthM, 0);
  if (!found.ok) return null;
  // What of the inner sections lies behind the pivot when they are run in is left out there: it is put at the pivot.
  const whole = (device.sections ?? []).reduce((sum, s) => sum + s.massKg, 0) * STANDARD_GRAVITY_MS2;
  const pieces = found.pieces.map((p) => ({
    at: addScaled(posed.pivot, posed.axes.axial, (p.fromM + p.toM) / 2),
    forceN: site(0, 0, -p.weightNPerM * (p.toM - p.fromM)),
  }));
  const behind = whole + pieces.reduce((sum, p) => sum + p.forceN[2], 0);
  return [...pieces, { at: posed.pivot, forceN: site(0, 0, -behind) }];
}
