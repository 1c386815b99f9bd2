import type { Bounds, WorldPoint } from "../primitives.ts";

/** The upright box round points, grown by a margin; a unit box about zero for none. Points that are not finite are passed over. */
export function boundsOf(points: readonly WorldPoint[], marginM = 0): Bounds {
  let [minX, minY, maxX, maxY] = [Number.MAX_VALUE, Number.MAX_VALUE, -Number.MAX_VALUE, -Number.MAX_VALUE];
  for (const [x, y] of points) {
    if (!Number.isFinite(x) || !Number.isFinite(y)) continue;
    minX = Math.min(minX, x);
    minY = Math.min(minY, y);
    maxX = Math.max(maxX, x);
    maxY = Math.max(maxY, y);
  }
  if (minX > maxX) return { minX: -1, minY: -1, maxX: 1, maxY: 1 };
  return { minX: minX - marginM, minY: minY - marginM, maxX: maxX + marginM, maxY: maxY + marginM };
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
