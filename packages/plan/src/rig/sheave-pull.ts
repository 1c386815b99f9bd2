import { addScaled, type SiteVector, subtract, unit, ZERO } from "@gantline/engine";

/** What the rope does to the sheave at one node of its path, N. */
export function sheavePull(points: readonly SiteVector[], tensionsN: readonly number[], node: number): SiteVector {
  const [before, here, after] = [points[node - 1], points[node], points[node + 1]];
  if (!here) return ZERO;
  const toward = (p: SiteVector | undefined, t: number | undefined): SiteVector =>
    p ? addScaled(ZERO, unit(subtract(p, here)), t ?? 0) : ZERO;
  return addScaled(toward(before, tensionsN[node - 1]), toward(after, tensionsN[node]), 1);
}
