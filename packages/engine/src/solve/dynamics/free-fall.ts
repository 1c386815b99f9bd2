import { STANDARD_GRAVITY_MS2 } from "../../base/constants.ts";
import { asSite, norm, type SiteVector, type Triple } from "../../base/vector.ts";
import type { Stop, StopPlane } from "./let-go-types.ts";

export interface FallingBox {
  /** Middle of an upright box that does not turn, m. */
  readonly positionM: SiteVector;
  readonly halfSizeM: Triple;
}

/** Where a fall comes to its end. */
export interface FreeFall {
  /** m, s and m/s, from rest to the first touch. */
  readonly heightM: number;
  readonly timeS: number;
  readonly speedMS: number;
  /** Name of what is touched first. */
  readonly stop: string;
}

/**
 * How far, how long and how fast does a box fall, let go at rest, before any part of it touches something?
 *
 * Plumb, without air: v = √(2gh), t = √(2h/g). What it grazes with an upright side it falls past; what it stands in to begin
 * with is touched at once. Of a body with sides that are neither upright nor level a little early, as `letGo` takes it.
 *
 * @param stops planes and convex bodies by their names; those for other nodes are to be left out
 * @returns null: nothing is below it
 * Source: any textbook of mechanics.
 */
export function freeFall(box: FallingBox, stops: Readonly<Record<string, Stop>>): FreeFall | null {
  let first: FreeFall | null = null;
  for (const [stop, shape] of Object.entries(stops)) {
    const heightM = fallTo(box, "planes" in shape ? shape.planes : [shape]);
    if (heightM === null || (first !== null && heightM >= first.heightM)) continue;
    first = {
      heightM,
      timeS: Math.sqrt((2 * heightM) / STANDARD_GRAVITY_MS2),
      speedMS: Math.sqrt(2 * STANDARD_GRAVITY_MS2 * heightM),
      stop,
    };
  }
  return first;
}

/** Nearer than this to the plane of an upright side is beside it, m. */
const BESIDE_M = 1e-9;

/** How far a box falls to a body, m; null: it falls past. */
function fallTo({ positionM, halfSizeM }: FallingBox, planes: readonly StopPlane[]): number | null {
  let from = 0;
  let to = Number.POSITIVE_INFINITY;
  for (const { pointM, normal } of planes) {
    const along = norm(asSite(normal));
    let gap = 0;
    for (let c = 0; c < 3; c++)
      gap += ((positionM[c]! - pointM[c]!) * normal[c]! - Math.abs(normal[c]!) * halfSizeM[c]!) / along;
    const up = normal[2] / along;
    if (Math.abs(up) < UPRIGHT) {
      if (gap > -BESIDE_M) return null;
    } else if (up > 0) from = Math.max(from, gap / up);
    else to = Math.min(to, gap / up);
  }
  return from < to ? from : null;
}

/** Of a unit normal: level to within rounding. */
const UPRIGHT = 1e-9;

/** Where something let go at rest is, so long after, m. */
export const fallenTo = ([x, y, z]: SiteVector, timeS: number): SiteVector =>
  asSite([x, y, z - 0.5 * STANDARD_GRAVITY_MS2 * timeS ** 2]);
