type Point = readonly [number, number];

/** The part of a segment inside an upright box; null if none. Liang and Barsky's parametric clipping. */
export function clipSegment(
  p: Point,
  q: Point,
  minX: number,
  minY: number,
  maxX: number,
  maxY: number,
): readonly [Point, Point] | null {
  const dx = q[0] - p[0];
  const dy = q[1] - p[1];
  let t0 = 0;
  let t1 = 1;
  for (let side = 0; side < 4; side++) {
    const d = side === 0 ? -dx : side === 1 ? dx : side === 2 ? -dy : dy;
    const room = side === 0 ? p[0] - minX : side === 1 ? maxX - p[0] : side === 2 ? p[1] - minY : maxY - p[1];
    if (d === 0) {
      if (room < 0) return null;
    } else if (d < 0) t0 = Math.max(t0, room / d);
    else t1 = Math.min(t1, room / d);
  }
  if (t0 > t1) return null;
  return [
    [p[0] + dx * t0, p[1] + dy * t0],
    [p[0] + dx * t1, p[1] + dy * t1],
  ];
}
