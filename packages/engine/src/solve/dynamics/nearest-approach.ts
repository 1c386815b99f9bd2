import type { Triple } from "../../base/vector.ts";
import { type SiteVector, site, UP } from "../../base/vector.ts";
import { clearance } from "../../scene/clearance.ts";
import { orientedBox, polyline, type Shape } from "../../scene/solids.ts";
import type { Approach } from "./let-go-types.ts";

/** Places of the load along its way. */
export interface Way {
  readonly timesS: readonly number[];
  readonly places: readonly SiteVector[];
}

/** Between two places along the way it is looked at this many more. */
const PARTS = 8;

/**
 * Where on its way does an upright box come nearest to a shape, and how near?
 *
 * The way is looked at in the places given and, about the nearest, in between. Boxes are only measured where their centre's
 * distance leaves a chance. One place at least.
 */
export function nearestApproach(way: Way, halfSizeM: Triple, shape: Shape): Approach {
  const { timesS, places } = way;
  const reachM = Math.hypot(...halfSizeM);
  const measure = measurer(halfSizeM, shape);
  const least = places.map((at, i) => ({ i, m: clearance(polyline([at]), shape).distanceM - reachM }));
  least.sort((a, b) => a.m - b.m);
  let nearest: Approach | null = null;
  let index = 0;
  for (const { i, m } of least) {
    if (nearest && m >= nearest.distanceM) break;
    const distanceM = measure(places[i]!);
    if (nearest && distanceM >= nearest.distanceM) continue;
    nearest = { distanceM, atS: timesS[i]!, load: places[i]! };
    index = i;
  }
  for (let k = 1 - PARTS; k < PARTS && nearest !== null && nearest.distanceM > 0; k++) {
    const between = placeAt(way, index, k / PARTS);
    if (between === null) continue;
    const distanceM = measure(between.load);
    if (distanceM < nearest.distanceM) nearest = { distanceM, ...between };
  }
  return nearest ?? { distanceM: 0, atS: 0, load: site(0, 0, 0) };
}

function measurer(halfSizeM: Triple, shape: Shape): (at: SiteVector) => number {
  if (halfSizeM.every((h) => h === 0)) return (at) => clearance(polyline([at]), shape).distanceM;
  const axes = [site(1, 0, 0), site(0, 1, 0), UP] as const;
  return (at) => clearance(orientedBox(at, axes, halfSizeM), shape).distanceM;
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
