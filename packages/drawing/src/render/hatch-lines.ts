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
const MOST_DASHES = 5000;

/** Lines at an angle, so far apart; broken where a dash is given, every other one shifted by half a step. */
interface Ruling {
  readonly angleRad: number;
  readonly spacingPx: number;
  readonly dash?: readonly [dashPx: number, gapPx: number];
}

const UP = Math.PI / 4;
const UPRIGHT = Math.PI / 2;
const ruled = (angleRad: number, spacingPx: number, dash?: readonly [number, number]): Ruling =>
  dash === undefined ? { angleRad, spacingPx } : { angleRad, spacingPx, dash };

/** Hatches that are one or two rulings. No two are alike without their colour. */
const RULINGS: Readonly<Record<Exclude<Hatch, "gap" | "earth">, readonly Ruling[]>> = {
  cut: [ruled(UP, 6.5)],
  roof: [ruled(UP, 13)],
  roofOther: [ruled(-UP, 13)],
  keepOut: [ruled(UP, 11), ruled(-UP, 11)],
  water: [ruled(0, 7, [13, 9])],
  parking: [ruled(0, 16, [1.4, 14.6])],
  level: [ruled(0, 8)],
  upright: [ruled(UPRIGHT, 8)],
  leanRight: [ruled(UP, 8)],
  leanLeft: [ruled(-UP, 8)],
  chequer: [ruled(0, 9), ruled(UPRIGHT, 9)],
  levelDashes: [ruled(0, 9, [7, 7])],
  uprightDashes: [ruled(UPRIGHT, 9, [7, 7])],
  leanDashes: [ruled(UP, 7, [8, 5])],
  dashesBothWays: [ruled(0, 10, [5, 9]), ruled(UPRIGHT, 10, [5, 9])],
  dots: [ruled(0, 8, [1.4, 10.6])],
  tint1: [ruled(0, 18)],
  tint2: [ruled(0, 13)],
  tint3: [ruled(0, 9.5)],
  tint4: [ruled(0, 7)],
  tint5: [ruled(0, 5)],
  tint6: [ruled(0, 3.6)],
};

/** The short lines of a hatch over closed outlines (even-odd), or under an open line for `earth`; cut off at the edge of the sheet. */
export function hatchLines(hatch: Hatch, rings: readonly Ring[], frame: Frame): readonly Segment[] {
  if (hatch === "gap") return rings.flatMap((ring) => ticksInward(ring, frame));
  if (hatch === "earth") return rings.flatMap((ring) => ticksUnder(ring, frame));
  return RULINGS[hatch].flatMap(({ angleRad, spacingPx, dash }) => {
    const lines = acrossRings(rings, frame, angleRad, spacingPx);
    return dash === undefined ? lines.map(({ segment }) => segment) : broken(lines, dash, frame, angleRad);
  });
}

/** A line of a ruling: its number from the world's zero, and where it runs. */
interface RuledLine {
  readonly number: number;
  readonly segment: Segment;
}

/** Parallel lines at an angle, cut to the rings (even-odd), numbered from the world's zero. */
function acrossRings(rings: readonly Ring[], frame: Frame, angleRad: number, spacingPx: number): RuledLine[] {
  const closed = rings.filter((ring) => ring.length >= 3);
  if (closed.length === 0) return [];
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
  const range = (points: Ring, f: (p: ScreenPoint) => number): readonly [number, number] =>
    points.reduce(([least, most], p) => [Math.min(least, f(p)), Math.max(most, f(p))] as const, [
      Number.MAX_VALUE,
      -Number.MAX_VALUE,
    ] as const);
  const [ring0, ring1] = range(closed.flat(), across);
  const [view0, view1] = range(corners, across);
  const [a0, a1] = range(corners, along);
  const first = Math.ceil(Math.max(ring0, view0) / spacingPx);
  const last = Math.min(Math.floor(Math.min(ring1, view1) / spacingPx), first + MOST_LINES);
  if (last < first) return [];
  const crossings = Array.from({ length: last - first + 1 }, (): number[] => []);
  for (const ring of closed) {
    ring.forEach((p, i) => {
      const q = ring[(i + 1) % ring.length] as ScreenPoint;
      const [tp, tq] = [across(p), across(q)];
      const from = Math.max(first, Math.ceil(Math.min(tp, tq) / spacingPx));
      const to = Math.min(last, Math.floor(Math.max(tp, tq) / spacingPx));
      for (let k = from; k <= to; k++) {
        const t = k * spacingPx;
        if (tp < t === tq < t) continue;
        crossings[k - first]?.push(along(p) + ((along(q) - along(p)) * (tp - t)) / (tp - tq));
      }
    });
  }
  return crossings.flatMap((places, row): RuledLine[] => {
    places.sort((x, y) => x - y);
    const t = (first + row) * spacingPx;
    const point = (s: number): ScreenPoint => [ox + s * ux - t * uy, oy + s * uy + t * ux];
    const lines: RuledLine[] = [];
    for (let i = 0; i + 1 < places.length; i += 2) {
      const from = Math.max(places[i] as number, a0);
      const to = Math.min(places[i + 1] as number, a1);
      if (to > from) lines.push({ number: first + row, segment: [point(from), point(to)] });
    }
    return lines;
  });
}

/** Ruled lines broken into dashes, every other line shifted by half a step; dashes keep their place in the world. */
function broken(
  lines: readonly RuledLine[],
  [dashPx, gapPx]: readonly [number, number],
  { originPx: [ox, oy] }: Frame,
  angleRad: number,
): Segment[] {
  const [ux, uy] = [Math.cos(angleRad), -Math.sin(angleRad)];
  const out: Segment[] = [];
  const step = dashPx + gapPx;
  for (const { number, segment } of lines) {
    const [[x0, y0], [x1, y1]] = segment;
    const start = (x0 - ox) * ux + (y0 - oy) * uy;
    const end = start + (x1 - x0) * ux + (y1 - y0) * uy;
    const shift = number % 2 === 0 ? 0 : step / 2;
    const at = (s: number): ScreenPoint => [x0 + (s - start) * ux, y0 + (s - start) * uy];
    for (let s = Math.floor((start - shift) / step) * step + shift; s < end && out.length < MOST_DASHES; s += step) {
      const [from, to] = [Math.max(s, start), Math.min(s + dashPx, end)];
      if (to > from) out.push([at(from), at(to)]);
    }
  }
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
