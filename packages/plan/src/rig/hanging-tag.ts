import {
  addScaled,
  type Catenary,
  catenaryOfTension,
  distance,
  norm,
  type SiteVector,
  site,
  subtract,
  unit,
} from "@gantline/engine";
import type { TagState } from "./rig-state.ts";

/** How a tagline hangs, worked out once for a balance: clearances, hands and knots ask for it. */
const known = new WeakMap<TagState, { readonly yoke: SiteVector; readonly hangs: Catenary | null }>();

/**
 * A tagline as it hangs under its own weight: a catenary with the pull at the yoke that the load's balance has there, which
 * is that of the straight line and half the rope's weight. Its stretch, which would have it sag a little less, is left out.
 *
 * @returns null where it is not known how it hangs: no pull, one too small for its weight, or a rope of unknown weight
 */
export function hangingTag(tag: TagState, yoke: SiteVector): Catenary | null {
  const before = known.get(tag);
  if (before?.yoke === yoke) return before.hangs;
  const hangs = hung(tag, yoke);
  known.set(tag, { yoke, hangs });
  return hangs;
}

function hung({ laid, tensionN }: TagState, yoke: SiteVector): Catenary | null {
  const { handsAt, ropeNM } = laid;
  if (ropeNM === null || tensionN <= 0) return null;
  const rope = { weightNM: ropeNM, axialStiffnessN: null };
  const halfN = (ropeNM * distance(yoke, handsAt)) / 2;
  const atYokeN = norm(addScaled(site(0, 0, -halfN), unit(subtract(handsAt, yoke)), tensionN));
  const hangs = catenaryOfTension(rope, yoke, handsAt, "A", atYokeN);
  return hangs.ok ? hangs : null;
}

/**
 * What does a tagline pull at its two ends, N? By its catenary: at the higher end more than along the straight line, by the
 * weight of rope that hangs from there. Where that is not known, along the straight line.
 */
export function endPulls(tag: TagState, yoke: SiteVector): { readonly loadN: number; readonly handsN: number } {
  const hangs = hangingTag(tag, yoke);
  return hangs ? { loadN: hangs.tensionAN, handsN: hangs.tensionBN } : { loadN: tag.tensionN, handsN: tag.tensionN };
}
