import type { Bounds, WorldPoint } from "../primitives.ts";

/** The upright box round points, grown by a margin; a unit box about zero for none. Points that are not finite are passed over. */
export function boundsOf(points: readonly WorldPoint[], marginM = 0): Bounds {
  const sound = points.filter(([x, y]) => Number.isFinite(x) && Number.isFinite(y));
  if (sound.length === 0) return { minX: -1, minY: -1, maxX: 1, maxY: 1 };
  const xs = sound.map((p) => p[0]);
  const ys = sound.map((p) => p[1]);
  return {
    minX: Math.min(...xs) - marginM,
    minY: Math.min(...ys) - marginM,
    maxX: Math.max(...xs) + marginM,
    maxY: Math.max(...ys) + marginM,
  };
}

/** The four corners of a box. */
export const cornersOf = (b: Bounds): readonly WorldPoint[] => [
  [b.minX, b.minY],
  [b.maxX, b.minY],
  [b.maxX, b.maxY],
  [b.minX, b.maxY],
];

/** The upright box round points, as an outline. */
export const boxRound = (points: readonly WorldPoint[]): readonly WorldPoint[] => cornersOf(boundsOf(points));
