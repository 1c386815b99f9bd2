import { type AerialPlace, type HungFrom, wrapBearing } from "@gantline/engine";
import type { Plan } from "../schema/plan.ts";

/** The device set back so that its ladder, at an elevation, brings what hangs to a place; `null` where no length does. */
export function aerialBelow(
  { aerial }: Plan,
  hung: HungFrom,
  point: readonly [number, number, number],
  bearingRad: number,
  elevationRad: number,
): Plan["aerial"] | null {
  const { place, pose, device } = aerial;
  const onLadder = hung.on === "ladder";
  const [s, c] = [Math.sin(elevationRad), Math.cos(elevationRad)];
  const along = alongTo(aerial, hung, point[2], elevationRad);
  const lengthM = along + (onLadder ? hung.alongM : 0);
  if (!(along > 0) || !(lengthM > 0)) return null;
  const reach = along * c + (onLadder ? hung.dropM * s : hung.alongM) - device.pivotSetbackM;
  const [sinB, cosB] = [Math.sin(bearingRad), Math.cos(bearingRad)];
  const stands: AerialPlace = {
    turntableX: point[0] - reach * sinB - hung.lateralM * cosB,
    turntableY: point[1] - reach * cosB + hung.lateralM * sinB,
    groundZM: place.groundZM,
    headingRad: wrapBearing(place.headingRad + bearingRad - pose.bearingRad),
  };
  return { ...aerial, place: stands, pose: { bearingRad, elevationRad, lengthM } };
}

/** From the pivot along the ladder to where something hangs at a height, m. */
function alongTo({ device, place }: Plan["aerial"], hung: HungFrom, z: number, elevationRad: number): number {
  const plumbM = hung.dropM * (hung.on === "ladder" ? Math.cos(elevationRad) : 1);
  return (z - place.groundZM - device.pivotHeightM + plumbM) / Math.sin(elevationRad);
}

/** Which of some elevations, first and last, go with a length the ladder can have, at a height? One more at either end. */
export function elevationsAt(
  { aerial }: Plan,
  hung: HungFrom,
  z: number,
  elevationsRad: readonly number[],
): readonly [number, number] {
  const { lengthMinM, lengthMaxM } = aerial.device;
  const fit = [...elevationsRad.keys()].filter((i) => {
    const along = alongTo(aerial, hung, z, elevationsRad[i] ?? 1);
    return along <= lengthMaxM && along >= lengthMinM - Math.abs(hung.alongM);
  });
  const last = elevationsRad.length - 1;
  const [from, to] = [fit[0] ?? last, fit.at(-1) ?? last];
  return [Math.max(0, from - 1), Math.min(last, to + 1)];
}
