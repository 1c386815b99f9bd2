import { bearingVector, dot, type SiteVector, site, subtract } from "../base/vector.ts";
import type { AerialPlace, VehiclePoint } from "./device.ts";

/**
 * Where is a point of the vehicle on the site?
 *
 * The vehicle stands level at its place: `forwardM` runs along the heading, `rightM` to its right,
 * `upM` from the ground at the turntable. Returns a site position, m.
 */
export function vehiclePoint(place: AerialPlace, point: VehiclePoint): SiteVector {
  const s = Math.sin(place.headingRad);
  const c = Math.cos(place.headingRad);
  return site(
    place.turntableX + point.forwardM * s + point.rightM * c,
    place.turntableY + point.forwardM * c - point.rightM * s,
    place.groundZM + point.upM,
  );
}

/** The other way: a site position as a point of the vehicle, m. */
export function toVehiclePoint(place: AerialPlace, position: SiteVector): VehiclePoint {
  const fromTurntable = subtract(position, turntableAt(place));
  return {
    forwardM: dot(fromTurntable, bearingVector(place.headingRad)),
    rightM: dot(fromTurntable, bearingVector(place.headingRad + Math.PI / 2)),
    upM: fromTurntable[2],
  };
}

/** The turntable's centre on the ground, site frame, m. */
export function turntableAt(place: AerialPlace): SiteVector {
  return site(place.turntableX, place.turntableY, place.groundZM);
}
