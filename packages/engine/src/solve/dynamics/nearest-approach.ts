import { type SiteVector, site, type Triple, UP } from "../../base/vector.ts";
import { clearance } from "../../scene/clearance.ts";
import { orientedBox, polyline, type Shape } from "../../scene/solids.ts";
import type { CompiledFace } from "./compiled-system.ts";
import type { Approach } from "./let-go-types.ts";

/** Places of the load along its way. */
export interface Way {
  readonly timesS: readonly number[];
  readonly places: readonly SiteVector[];
}

/** Between two places along the way it is looked at this many more. */
const PARTS = 8;

/** How far something is at a place, m, and a bound below that which costs less. */
export interface Measure {
  readonly distance: (at: SiteVector) => number;
  readonly atLeast: (at: SiteVector) => number;
}

/**
 * Where on its way does a load come nearest to something, and how near?
 *
 * The way is looked at in the places given and, about the nearest, in between. It is only measured where the bound leaves
 * a chance. One place at least.
 */
export function nearestApproach(way: Way, { distance, atLeast }: Measure): Approach {
  const { timesS, places } = way;
  const bounds = places.map((at, i) => ({ i, m: atLeast(at) }));
  bounds.sort((a, b) => a.m - b.m);
  let nearest: Approach = { distanceM: Number.MAX_VALUE, atS: 0, load: site(0, 0, 0) };
  let index = 0;
  for (const { i, m } of bounds) {
    if (m >= nearest.distanceM) break;
    const distanceM = distance(places[i]!);
    if (distanceM >= nearest.distanceM) continue;
    nearest = { distanceM, atS: timesS[i]!, load: places[i]! };
    index = i;
  }
  for (let k = 1 - PARTS; k < PARTS && nearest.distanceM > 0; k++) {
    const between = placeAt(way, index, k / PARTS);
    if (between === null) continue;
    const distanceM = distance(between.load);
    if (distanceM < nearest.distanceM) nearest = { distanceM, ...between };
  }
  return nearest;
}

/** From an upright box to a shape. */
export function boxToShape(halfSizeM: Triple, shape: Shape): Measure {
  const reachM = Math.hypot(...halfSizeM);
  const fromCentre = (at: SiteVector) => clearance(polyline([at]), shape).distanceM;
  const axes = [site(1, 0, 0), site(0, 1, 0), UP] as const;
  return {
    atLeast: (at) => fromCentre(at) - reachM,
    distance: reachM === 0 ? fromCentre : (at) => clearance(orientedBox(at, axes, halfSizeM), shape).distanceM,
  };
}

/** From an upright box to a plane; 0 where it bears on it. */
export function boxToPlane(halfSizeM: Triple, { pointM, normal }: CompiledFace): Measure {
  const reachM = normal.reduce((sum, n, c) => sum + Math.abs(n) * halfSizeM[c]!, 0);
  const distance = (at: SiteVector) =>
    Math.max(
      0,
      at.reduce<number>((sum, x, c) => sum + (x - pointM[c]!) * normal[c]!, -reachM),
    );
  return { distance, atLeast: distance };
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
