import { type Ground, type GroundPiece, type GroundPlane, groundPiece, groundZAt } from "@gantline/engine";
import { soundOutline } from "./place-geometry.ts";
import type { GroundArea, ParkingGround, Scene } from "./schema/scene.ts";

/** So little into the ground a load stands on it: levels are not drawn nearer, and a level box sinks in at one end on a slope, m. Planning default, no source. */
export const IN_GROUND_M = 0.1;

const laid = new WeakMap<Scene, Ground>();

/**
 * The ground of a scene: gaps and water at their own level, else parking ground with its slope, else the site's level. Kept
 * by the scene's identity, as a plan's parts never change in place.
 */
export function siteGround(scene: Scene): Ground {
  const known = laid.get(scene);
  if (known) return known;
  const open = scene.areas.filter((a) => a.kind !== "keepOut" && soundOutline(a.outline));
  const parking = scene.parking.filter((g) => soundOutline(g.outline));
  const ground: Ground = {
    pieces: [...open.map(areaPiece), ...parking.map((g) => groundPiece(g.name, g.outline, parkingPlane(g)))],
    elseZM: scene.groundZM,
  };
  laid.set(scene, ground);
  return ground;
}

const areaPiece = ({ name, outline, zM }: GroundArea): GroundPiece =>
  groundPiece(name, outline, { xM: 0, yM: 0, zM, slopeRad: 0, downhillBearingRad: 0 });

/** A parking ground as an even plane. */
export const parkingPlane = (g: ParkingGround): GroundPlane => ({
  xM: g.outline[0]?.[0] ?? 0,
  yM: g.outline[0]?.[1] ?? 0,
  zM: g.zM,
  slopeRad: g.slopeRad,
  downhillBearingRad: g.downhillBearingRad,
});

/** Level of a parking ground at a point, m. */
export const parkingZAt = (g: ParkingGround, xM: number, yM: number): number => groundZAt(parkingPlane(g), xM, yM);
