import { type SiteVector, site, subtract, type Triple, unit } from "../../base/vector.ts";
import { clearance } from "../../scene/clearance.ts";
import { isConvex } from "../../scene/is-convex.ts";
import { polyline, type Shape } from "../../scene/solids.ts";
import type { CompiledFace } from "./compiled-system.ts";
import type { Approach } from "./let-go-types.ts";
import { movingBox } from "./moving-box.ts";

/** Places of the load along its way, three coordinates each, m. */
export interface Way {
  readonly timesS: readonly number[];
  readonly placesM: readonly number[];
}

/** How far something is when the load is at a place. */
export interface Measured {
  readonly distanceM: number;
  /** The way in which it grows fastest, unit, of something convex; null: of something else, or not known. */
  readonly away: SiteVector | null;
}
export type Measure = (at: SiteVector) => Measured;

/** How often the stretch that is looked at about the nearest place is halved. */
const HALVINGS = 3;
/** A place that may be nearer by no more than this is not looked for, m. */
const SAME_M = 1e-9;

/**
 * Where on its way does a load come nearest to something, and how near?
 *
 * The way is looked at in the places given and, about the nearest, in between. From each place that is measured all others
 * are at least so far: of what is convex the distance bends upward everywhere, so it lies above its slope; of anything else
 * it falls by no more than the load goes. Places that cannot be nearer than one already measured are not. One place at least.
 */
export function nearestApproach(way: Way, measure: Measure): Approach {
  const { timesS, placesM } = way;
  const count = timesS.length;
  const leastM = new Float64Array(count);
  const looks: Look[] = [];
  const look = (at: SiteVector): number => {
    const measured = measure(at);
    looks.push({ at, ...measured });
    return measured.distanceM;
  };
  let index = 0;
  let nearestM = Number.MAX_VALUE;
  for (let next = 0; next >= 0 && nearestM > 0; ) {
    const distanceM = look(placeOf(way, next));
    if (distanceM < nearestM) {
      nearestM = distanceM;
      index = next;
    }
    const latest = looks[looks.length - 1]!;
    leastM[next] = Number.MAX_VALUE;
    next = -1;
    let least = nearestM;
    for (let i = 0; i < count; i++) {
      const bound = boundOf(latest, placesM[3 * i]!, placesM[3 * i + 1]!, placesM[3 * i + 2]!);
      if (bound > leastM[i]!) leastM[i] = bound;
      if (leastM[i]! >= least) continue;
      least = leastM[i]!;
      next = i;
    }
  }
  let nearest: Approach = { distanceM: nearestM, atS: timesS[index]!, load: placeOf(way, index) };
  let middle = 0;
  for (let halving = 1; halving <= HALVINGS && nearest.distanceM > 0; halving++) {
    const about = middle;
    for (const part of [about - 2 ** -halving, about + 2 ** -halving]) {
      const between = placeAt(way, index, part);
      if (between === null) continue;
      const [x, y, z] = between.load;
      if (looks.some((one) => boundOf(one, x, y, z) >= nearest.distanceM)) continue;
      const distanceM = look(between.load);
      if (distanceM >= nearest.distanceM) continue;
      nearest = { distanceM, ...between };
      middle = part;
    }
  }
  return nearest;
}

interface Look extends Measured {
  readonly at: SiteVector;
}

/** What something is away from a place at least, by a look from another, and `SAME_M` more, m. */
function boundOf({ at, distanceM, away }: Look, x: number, y: number, z: number): number {
  const [dx, dy, dz] = [x - at[0], y - at[1], z - at[2]];
  const changeM = away ? dx * away[0] + dy * away[1] + dz * away[2] : -Math.sqrt(dx * dx + dy * dy + dz * dz);
  return distanceM + changeM + SAME_M;
}

/** From an upright box to a shape. */
export function boxToShape(halfSizeM: Triple, shape: Shape): Measure {
  const box = Math.hypot(...halfSizeM) === 0 ? (at: SiteVector) => polyline([at]) : movingBox(halfSizeM);
  const convex = shape.kind === "solid" && isConvex(shape);
  return (place) => {
    const { distanceM, a, b } = clearance(box(place), shape);
    return { distanceM, away: convex && distanceM > 0 ? unit(subtract(a, b)) : null };
  };
}

/** From an upright box to a plane; 0 where it bears on it. */
export function boxToPlane(halfSizeM: Triple, { pointM, normal }: CompiledFace): Measure {
  const reachM = normal.reduce((sum, n, c) => sum + Math.abs(n) * halfSizeM[c]!, 0);
  return ([x, y, z]) => {
    const gapM = (x - pointM[0]) * normal[0] + (y - pointM[1]) * normal[1] + (z - pointM[2]) * normal[2] - reachM;
    return gapM > 0 ? { distanceM: gapM, away: normal } : { distanceM: 0, away: null };
  };
}

const placeOf = ({ placesM }: Way, i: number): SiteVector =>
  site(placesM[3 * i]!, placesM[3 * i + 1]!, placesM[3 * i + 2]!);

/** On the parabola through a place and the two beside it; −1 to 1 goes from the one before to the one after. */
function placeAt(way: Way, i: number, part: number): { atS: number; load: SiteVector } | null {
  const { timesS, placesM } = way;
  if (i === 0 || i + 1 >= timesS.length) return null;
  const [b, h, a] = [timesS[i - 1]!, timesS[i]!, timesS[i + 1]!];
  const t = part < 0 ? h + part * (h - b) : h + part * (a - h);
  const wb = ((t - h) * (t - a)) / ((b - h) * (b - a));
  const wh = ((t - b) * (t - a)) / ((h - b) * (h - a));
  const wa = ((t - b) * (t - h)) / ((a - b) * (a - h));
  const along = (c: number): number =>
    wb * placesM[3 * i - 3 + c]! + wh * placesM[3 * i + c]! + wa * placesM[3 * i + 3 + c]!;
  return { atS: t, load: site(along(0), along(1), along(2)) };
}
