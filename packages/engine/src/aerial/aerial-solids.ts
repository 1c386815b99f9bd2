import { addScaled, bearingVector, UP } from "../base/vector.ts";
import { boxAlong, extrudedOutline, orientedBox, type Solid } from "../scene/solids.ts";
import type { AerialDevice, AerialPlace } from "./device.ts";
import type { PosedAerial } from "./pose-aerial.ts";
import { vehiclePoint } from "./vehicle-point.ts";

/** The ladder as a box round its centre line, from pivot to tip. */
export function ladderSolid(device: AerialDevice, posed: PosedAerial): Solid {
  const { lateral, normal } = posed.axes;
  return boxAlong(posed.pivot, posed.tip, lateral, normal, device.beamWidthM, device.beamDepthM);
}

/** The platform as a level box from its floor to its rail; `null` for a device without one. */
export function platformSolid(device: AerialDevice, posed: PosedAerial): Solid | null {
  const { platform } = device;
  if (device.kind !== "platform" || platform === null) return null;
  const ahead = bearingVector(posed.bearingRad);
  const middle = addScaled(posed.tip, ahead, (platform.forwardM - platform.backM) / 2);
  const centre = addScaled(middle, UP, platform.railHeightM / 2 - platform.floorDropM);
  return orientedBox(
    centre,
    [ahead, posed.axes.lateral, UP],
    [(platform.forwardM + platform.backM) / 2, platform.widthM / 2, platform.railHeightM / 2],
  );
}

/** The vehicle as a box over its outline. */
export function vehicleSolid(device: AerialDevice, place: AerialPlace): Solid {
  const { frontM, rearM, leftM, rightM, heightM } = device.outline;
  const corners = [
    [frontM, -leftM],
    [frontM, rightM],
    [-rearM, rightM],
    [-rearM, -leftM],
  ] as const;
  const outline = corners.map(([forwardM, right]) => {
    const [x, y] = vehiclePoint(place, { forwardM, rightM: right, upM: 0 });
    return [x, y] as const;
  });
  return extrudedOutline(outline, place.groundZM, place.groundZM + heightM);
}
