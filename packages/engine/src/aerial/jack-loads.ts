import { cross, type SiteVector, subtract } from "../base/vector.ts";
import type { JackFoot } from "./jack-lines.ts";
import type { AppliedForce } from "./tipping.ts";

/** What each jack presses on the ground with, N, in the order of the feet; 0 under a jack that would lift. */
export type JackLoads = readonly number[];

/**
 * How hard does each jack press on the ground?
 *
 * A rigid vehicle with all its weight on its jacks, jacks and ground alike everywhere: the load varies evenly over
 * the plan, N = a + b x + c y, in balance with the forces (moments of level forces about the feet's height as well). A jack
 * that would have to pull is let go and the rest worked again. Real jacks share unevenly on soft or uneven ground.
 * `null`: fewer than three jacks bear, or they stand in one line: nothing holds the vehicle up.
 */
export function jackLoads(feet: readonly JackFoot[], forces: readonly AppliedForce[]): JackLoads | null {
  const origin = feet[0]?.position;
  if (!origin) return null;
  let down = 0;
  let momentX = 0;
  let momentY = 0;
  for (const { at, forceN } of forces) {
    const moment = cross(subtract(at, origin), forceN);
    down -= forceN[2];
    // Σ N x and Σ N y that balance the moments of the forces about the first foot.
    momentX += moment[1];
    momentY -= moment[0];
  }
  const loads = feet.map(() => 0);
  let bearing = feet.map((_, i) => i);
  while (bearing.length >= 3) {
    const plane = evenShare(
      bearing.map((i) => subtract(feet[i]?.position ?? origin, origin)),
      down,
      momentX,
      momentY,
    );
    if (plane === null) return null;
    const least = plane.reduce((worst, n, k) => (n < (plane[worst] ?? 0) ? k : worst), 0);
    if ((plane[least] ?? 0) >= 0) {
      for (const [k, i] of bearing.entries()) loads[i] = plane[k] ?? 0;
      return loads;
    }
    bearing = bearing.filter((_, k) => k !== least);
  }
  return null;
}

/** Loads a + b x + c y at some places with the sum and first moments given; `null` where the places lie in one line. */
function evenShare(places: readonly SiteVector[], sum: number, sumX: number, sumY: number): readonly number[] | null {
  const n = places.length;
  const meanX = places.reduce((s, p) => s + p[0], 0) / n;
  const meanY = places.reduce((s, p) => s + p[1], 0) / n;
  let xx = 0;
  let xy = 0;
  let yy = 0;
  for (const [x, y] of places) {
    xx += (x - meanX) ** 2;
    xy += (x - meanX) * (y - meanY);
    yy += (y - meanY) ** 2;
  }
  const root = xx * yy - xy * xy;
  if (!(root > 1e-9 * (xx + yy) ** 2)) return null;
  const overX = sumX - sum * meanX;
  const overY = sumY - sum * meanY;
  const b = (overX * yy - overY * xy) / root;
  const c = (overY * xx - overX * xy) / root;
  return places.map(([x, y]) => sum / n + b * (x - meanX) + c * (y - meanY));
}
