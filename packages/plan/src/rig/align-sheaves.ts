import { addScaled, distance, type SiteVector, subtract, unit } from "@gantline/engine";
import type { LaidMain } from "./lay-lines.ts";

/** Sheaves have settled when none moves further than this from one round to the next, m. */
const SETTLED_M = 1e-9;
const ROUNDS = 40;

/**
 * A tip sheave hangs on its sling in line with the pull of its two ropes. Their direction depends on where the yoke is,
 * and that on where the sheaves are: repeat until neither moves. The sling is short beside the rope, so each round brings
 * the error down by its ratio.
 *
 * @param yokeFor where the yoke is for given sheaves; null where nothing holds it
 */
export function alignSheaves<T extends { readonly yoke: SiteVector }>(
  mains: readonly LaidMain[],
  start: SiteVector,
  yokeFor: (sheaves: readonly SiteVector[]) => T | null,
): { readonly sheaves: readonly SiteVector[]; readonly found: T } | null {
  let sheaves = mains.map((m) => alongPull(m, m.pointAt, start));
  for (let round = 0; round < ROUNDS; round++) {
    const found = yokeFor(sheaves);
    if (found === null) return null;
    const next = mains.map((m, i) => alongPull(m, sheaves[i] ?? m.pointAt, found.yoke));
    const moved = Math.max(...next.map((s, i) => distance(s, sheaves[i] ?? s)));
    if (moved < SETTLED_M || round === ROUNDS - 1) return { sheaves, found };
    sheaves = next;
  }
  return null;
}

/** The sheave's place on its sling, from the pull of equal tensions toward the yoke and the next redirect. */
function alongPull(main: LaidMain, from: SiteVector, yoke: SiteVector): SiteVector {
  const next = main.anchors[0]?.at ?? yoke;
  const pull = addScaled(unit(subtract(yoke, from)), unit(subtract(next, from)), 1);
  return addScaled(main.pointAt, unit(pull), main.line.tip.reachM);
}
