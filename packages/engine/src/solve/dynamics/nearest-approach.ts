import { distance as apart, type SiteVector, site, type Triple, UP } from "../../base/vector.ts";
import { clearance } from "../../scene/clearance.ts";
import { orientedBox, polyline, type Shape } from "../../scene/solids.ts";
import type { CompiledFace } from "./compiled-system.ts";
import type { Approach } from "./let-go-types.ts";

/** Places of the load along its way. */
export interface Way {
  readonly timesS: readonly number[];
  readonly places: readonly SiteVector[];
}

/** How often the stretch that is looked at about the nearest place is halved. */
const HALVINGS = 3;

/** How far something is when the load is at a place, m. */
export type Measure = (at: SiteVector) => number;

/**
 * Where on its way does a load come nearest to something, and how near?
 *
 * The way is looked at in the places given and, about the nearest, in between. What does not turn comes nearer by no more
 * than it goes: places that are too far from one already measured are not. One place at least.
 */
export function nearestApproach(way: Way, measure: Measure): Approach {
  const { timesS, places } = way;
  let index = 0;
  let nearestM = measure(places[0]!);
  const last = places.length - 1;
  const waiting: Measured[] = [];
  const see = (i: number): number => {
    const m = measure(places[i]!);
    if (m < nearestM) {
      nearestM = m;
      index = i;
    }
    return m;
  };
  if (last > 0) waiting.push({ from: 0, fromM: nearestM, to: last, toM: see(last) });
  for (let gap = waiting.pop(); gap && nearestM > 0; gap = waiting.pop()) {
    const i = mostPromising(places, gap, nearestM);
    if (i < 0) continue;
    const m = see(i);
    waiting.push({ ...gap, from: i, fromM: m }, { ...gap, to: i, toM: m });
  }
  let nearest: Approach = { distanceM: nearestM, atS: timesS[index]!, load: places[index]! };
  let middle = 0;
  for (let halving = 1; halving <= HALVINGS && nearest.distanceM > 0; halving++) {
    const about = middle;
    for (const part of [about - 2 ** -halving, about + 2 ** -halving]) {
      const between = placeAt(way, index, part);
      if (between === null) continue;
      const distanceM = measure(between.load);
      if (distanceM >= nearest.distanceM) continue;
      nearest = { distanceM, ...between };
      middle = part;
    }
  }
  return nearest;
}

/** Between two places that were measured. */
interface Measured {
  readonly from: number;
  readonly fromM: number;
  readonly to: number;
  readonly toM: number;
}

/** The place between two measured ones that may be nearest; −1: none may be nearer than this. */
function mostPromising(places: readonly SiteVector[], { from, fromM, to, toM }: Measured, nearestM: number): number {
  let best = -1;
  let least = nearestM;
  for (let i = from + 1; i < to; i++) {
    const at = places[i]!;
    const bound = Math.max(fromM - apart(at, places[from]!), toM - apart(at, places[to]!));
    if (bound >= least) continue;
    least = bound;
    best = i;
  }
  return best;
}

/** From an upright box to a shape. */
export function boxToShape(halfSizeM: Triple, shape: Shape): Measure {
  if (Math.hypot(...halfSizeM) === 0) return (at) => clearance(polyline([at]), shape).distanceM;
  const axes = [site(1, 0, 0), site(0, 1, 0), UP] as const;
  return (at) => clearance(orientedBox(at, axes, halfSizeM), shape).distanceM;
}

/** From an upright box to a plane; 0 where it bears on it. */
export function boxToPlane(halfSizeM: Triple, { pointM, normal }: CompiledFace): Measure {
  const reachM = normal.reduce((sum, n, c) => sum + Math.abs(n) * halfSizeM[c]!, 0);
  return ([x, y, z]) =>
    Math.max(0, (x - pointM[0]) * normal[0] + (y - pointM[1]) * normal[1] + (z - pointM[2]) * normal[2] - reachM);
}

/** On the parabola through a place and the two beside it; −1 to 1 goes from the one before to the one after. */
function placeAt({ timesS, places }: Way, i: number, part: number): { atS: number; load: SiteVector } | null {
  const [before, at, after] = [places[i - 1], places[i], places[i + 1]];
  if (!before || !at || !after) return null;
  const [b, h, a] = [timesS[i - 1]!, timesS[i]!, timesS[i + 1]!];
  const t = part < 0 ? h + part * (h - b) : h + part * (a - h);
  const wb = ((t - h) * (t - a)) / ((b - h) * (b - a));
  const wh = ((t - b) * (t - a)) / ((h - b) * (h - a));
  const wa = ((t - b) * (t - h)) / ((a - b) * (a - h));
  const [x, y, z] = [0, 1, 2].map((c) => wb * before[c]! + wh * at[c]! + wa * after[c]!) as [number, number, number];
  return { atS: t, load: site(x, y, z) };
}
