import type { SiteVector } from "../base/vector.ts";
import type { PlaneStiffness } from "./catenary-form.ts";

/** The level way from one point to another: how far, and its unit direction east and north (east where there is none). */
export interface LevelWay {
  readonly lengthM: number;
  readonly east: number;
  readonly north: number;
}

export function levelWay(a: SiteVector, b: SiteVector): LevelWay {
  const east = b[0] - a[0];
  const north = b[1] - a[1];
  const lengthM = Math.hypot(east, north);
  // Shorter ways than this are no numbers to divide by.
  return lengthM > 1e-150
    ? { lengthM, east: east / lengthM, north: north / lengthM }
    : { lengthM: 0, east: 1, north: 0 };
}

/** Stiffness in an upright plane along a level way, and square to it, as nine numbers in the site frame, row by row, N/m. */
export function stiffnessInSite(plane: PlaneStiffness, { east, north }: LevelWay): readonly number[] {
  const { levelNM, riseNM, crossNM, sideNM } = plane;
  const between = (levelNM - sideNM) * east * north;
  return [
    levelNM * east * east + sideNM * north * north,
    between,
    crossNM * east,
    between,
    levelNM * north * north + sideNM * east * east,
    crossNM * north,
    crossNM * east,
    crossNM * north,
    riseNM,
  ];
}
