import type { SiteVector } from "../base/vector.ts";
import type { PlaneStiffness } from "./catenary-form.ts";

/** The level way from one point to another: how far, and its unit direction east and north (east where there is none). */
export interface LevelWay {
  readonly lengthM: number;
  readonly east: number;
  readonly north: number;
}

export const levelWay = (a: SiteVector, b: SiteVector): LevelWay => levelWayOf(b[0] - a[0], b[1] - a[1]);

/** The same from its parts, m. With a `smoothingM` s the length is √(length² + s²), and the direction no longer unit. */
export function levelWayOf(east: number, north: number, smoothingM = 0): LevelWay {
  const lengthM = Math.hypot(east, north, smoothingM);
  // Shorter ways than this are no numbers to divide by.
  return lengthM > 1e-150
    ? { lengthM, east: east / lengthM, north: north / lengthM }
    : { lengthM: 0, east: 1, north: 0 };
}

/** Stiffness in an upright plane along a level way, and square to it, as nine numbers in the site frame, row by row, N/m. */
export function stiffnessInSite(plane: PlaneStiffness, { east, north }: LevelWay): readonly number[] {
  const { levelNM, riseNM, levelOverRiseNM, riseOverLevelNM, sideNM } = plane;
  const between = (levelNM - sideNM) * east * north;
  return [
    sideNM + (levelNM - sideNM) * east * east,
    between,
    levelOverRiseNM * east,
    between,
    sideNM + (levelNM - sideNM) * north * north,
    levelOverRiseNM * north,
    riseOverLevelNM * east,
    riseOverLevelNM * north,
    riseNM,
  ];
}
