import type { Hatch } from "../primitives.ts";
import type { ScreenPoint } from "../viewport.ts";

type Segment = readonly [ScreenPoint, ScreenPoint];
type Ring = readonly ScreenPoint[];

interface Frame {
  readonly widthPx: number;
  readonly heightPx: number;
  /** Where world zero lies on the sheet: hatches are tied to it, so that they move with the drawing. */
  readonly originPx: ScreenPoint;
}

const MOST_LINES = 600;

/** The short lines of a hatch over a closed outline, or under an open line for `earth`; cut off at the edge of the sheet. */
export function hatchLines(hatch: Hatch, ring: Ring, frame: Frame): readonly Segment[] {
  switch (hatch) {
    case "cut":
      return acrossRing(ring, frame, Math.PI / 4, 6.5);
    case "roof":
      return acrossRing(ring, frame, Math.PI / 4, 13);
    case "roofOther":
      return acrossRing(ring, frame, -Math.PI / 4, 13);
    case "keepOut":
      return [...acrossRing(ring, frame, Math.PI / 4, 11), ...acrossRing(ring, frame, -Math.PI / 4, 11)];
    case "water":
      return broken(acrossRing(ring, frame, 0, 7), 13, 9);
    case "parking":
      return broken(acrossRing(ring, frame, 0, 16), 1.4, 14.6);
    case "gap":
      return ticksInward(ring, frame);
    case "earth":
      return ticksUnder(ring, frame);
  }
}

/** Parallel lines at an angle, cut to the ring (even-odd), numbered from the world's zero. */
function acrossRing(ring: Ring, frame: Frame, angleRad: number, spacingPx: number): Segment[] {
  if (ring.length < 3) return [];
  const [ox, oy] = frame.originPx;
  const ux = Math.cos(angleRad);
  const uy = -Math.sin(angleRad);
  const along = (p: ScreenPoint): number => (p[0] - ox) * ux + (p[1] - oy) * uy;
  const across = (p: ScreenPoint): number => -(p[0] - ox) * uy + (p[1] - oy) * ux;
  const corners: Ring = [
    [0, 0],
    [frame.widthPx, 0],
    [frame.widthPx, frame.heightPx],
    [0, frame.heightPx],
  ];
  const range = (points: Ring, f: (p: ScreenPoint) => number): readonly [number, number] => [
    Math.min(...points.map(f)),
    Math.max(...points.map(f)),
  ];
  const [ring0, ring1] = range(ring, across);
  const [view0, view1] = range(corners, across);
  const [a0, a1] = range(corners, along);
  const first = Math.ceil(Math.max(ring0, view0) / spacingPx);
  const last = Math.min(Math.floor(Math.min(ring1, view1) / spacingPx), first + MOST_LINES);
  const lines: Segment[] = [];
  for (let k = first; k <= last; k++) {
    const t = k * spacingPx;
    const crossings: number[] = [];
    for (let i = 0; i < ring.length; i++) {
      const p = ring[i] as ScreenPoint;
      const q = ring[(i + 1) % ring.length] as ScreenPoint;
      const tp = across(p) - t;
      const tq = across(q) - t;
      if (tp < 0 === tq < 0) continue;
      crossings.push(along(p) + ((along(q) - along(p)) * tp) / (tp - tq));
    }
    crossings.sort((x, y) => x - y);
    const point = (s: number): ScreenPoint => [ox + s * ux - t * uy, oy + s * uy + t * ux];
    for (let i = 0; i + 1 < crossings.length; i += 2) {
      const from = Math.max(crossings[i] as number, a0);
      const to = Math.min(crossings[i + 1] as number, a1);
      if (to > from) lines.push([point(from), point(to)]);
    }
  }
  return lines;
}

/** Level lines broken into dashes, every other line shifted by half a step; dashes keep their place in the world. */
function broken(lines: readonly Segment[], dashPx: number, gapPx: number): Segment[] {
  const out: Segment[] = [];
  const step = dashPx + gapPx;
  lines.forEach(([[x0, y], [x1]], row) => {
    for (let x = x0 + (row % 2 ? step / 2 : gapPx / 2); x < x1 && out.length < 4 * MOST_LINES; x += step) {
      out.push([
        [x, y],
        [Math.min(x + dashPx, x1), y],
      ]);
    }
  });
  return out;
}

/** Stations along a polyline at a fixed step, with the unit direction there. */
function stations(
  points: Ring,
  closed: boolean,
  stepPx: number,
  frame: Frame,
): { at: ScreenPoint; dir: ScreenPoint }[] {
  const out: { at: ScreenPoint; dir: ScreenPoint }[] = [];
  const count = closed ? points.length : points.length - 1;
  for (let i = 0; i < count; i++) {
    const p = points[i] as ScreenPoint;
    const q = points[(i + 1) % points.length] as ScreenPoint;
    const long = Math.hypot(q[0] - p[0], q[1] - p[1]);
    if (long < stepPx / 2) continue;
    const dir: ScreenPoint = [(q[0] - p[0]) / long, (q[1] - p[1]) / long];
    const steps = Math.floor(long / stepPx);
    for (let k = 0; k < steps && out.length < MOST_LINES; k++) {
      const s = ((k + 0.5) / steps) * long;
      const at: ScreenPoint = [p[0] + dir[0] * s, p[1] + dir[1] * s];
      if (at[0] > -20 && at[0] < frame.widthPx + 20 && at[1] > -20 && at[1] < frame.heightPx + 20)
        out.push({ at, dir });
    }
  }
  return out;
}

/** Ticks, long and short by turns, pointing into the ring: the edge of a drop. */
function ticksInward(ring: Ring, frame: Frame): Segment[] {
  let twiceArea = 0;
  ring.forEach((p, i) => {
    const q = ring[(i + 1) % ring.length] as ScreenPoint;
    twiceArea += p[0] * q[1] - q[0] * p[1];
  });
  const side = twiceArea > 0 ? 1 : -1;
  return stations(ring, true, 7, frame).map(({ at, dir }, k): Segment => {
    const long = k % 2 ? 5 : 10;
    return [at, [at[0] - dir[1] * side * long, at[1] + dir[0] * side * long]];
  });
}

/** Groups of three slanting strokes hanging under an open line, whichever way it runs. */
function ticksUnder(line: Ring, frame: Frame): Segment[] {
  return stations(line, false, 26, frame).flatMap(({ at, dir }): Segment[] => {
    const right = dir[0] < 0 ? -1 : 1;
    const d: ScreenPoint = [dir[0] * right, dir[1] * right];
    if (Math.abs(d[0]) < 0.5) return [];
    return [0, 4.5, 9].map((s, k): Segment => {
      const from: ScreenPoint = [at[0] + d[0] * (s - 4), at[1] + d[1] * (s - 4)];
      const long = 8 - k;
      return [from, [from[0] - long, from[1] + long]];
    });
  });
}
