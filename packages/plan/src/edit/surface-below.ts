import { extentOf } from "@gantline/engine";
import type { ParkingGround, Scene } from "../schema/scene.ts";

type PlanPoint = readonly [number, number];

/** Is a point inside a closed outline? Points on its edge may count either way. */
export function insideOutline(outline: readonly PlanPoint[], [x, y]: PlanPoint): boolean {
  const { min, max } = extentOf(outline);
  if (x < min[0] || x > max[0] || y < min[1] || y > max[1]) return false;
  let inside = false;
  for (let i = 0, j = outline.length - 1; i < outline.length; j = i++) {
    const [ax, ay] = outline[i] ?? [0, 0];
    const [bx, by] = outline[j] ?? [0, 0];
    if (ay > y !== by > y && x < ((bx - ax) * (y - ay)) / (by - ay) + ax) inside = !inside;
  }
  return inside;
}

/** Level of a parking ground at a point, m: from its first outline point, falling along its downhill bearing. */
export function parkingLevel(ground: ParkingGround, [x, y]: PlanPoint): number {
  const [x0, y0] = ground.outline[0] ?? [0, 0];
  const downhill = (x - x0) * Math.sin(ground.downhillBearingRad) + (y - y0) * Math.cos(ground.downhillBearingRad);
  return ground.zM - Math.tan(ground.slopeRad) * downhill;
}

/** Level of the ground a vehicle stands on at a point: the parking ground drawn there, else the site's ground, m. */
export function groundLevel(scene: Scene, at: PlanPoint): number {
  const ground = scene.parking.find((one) => insideOutline(one.outline, at));
  return ground === undefined ? scene.groundZM : parkingLevel(ground, at);
}

/** Level a person stands on at a point: the highest roof or wall top there, else the ground, m. */
export function surfaceBelow(scene: Scene, at: PlanPoint): number {
  const tops = scene.structures.filter((one) => insideOutline(one.outline, at)).map((one) => one.topZM);
  return tops.length > 0 ? Math.max(...tops) : groundLevel(scene, at);
}
