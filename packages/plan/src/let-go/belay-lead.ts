import { asSite, clearance, polyline, type SiteVector } from "@gantline/engine";
import { insideOutline } from "../edit/surface-below.ts";
import { soundOutline } from "../place-geometry.ts";
import type { Structure } from "../schema/scene.ts";
import type { SolvedPlan } from "../solve-plan.ts";
import { nearestOnOutline, runWithin } from "./outline-runs.ts";

/** How a belay from a structure runs: to a roller on the edge in front of the load, and to its brake behind that. */
export interface BelayLead {
  readonly structure: Structure;
  /** null: the load is above the structure, and the rope goes straight to its brake. */
  readonly edgeAt: SiteVector | null;
  readonly brakeAt: SiteVector;
}

/** What the rope runs over stands so much above wall or parapet, m. Planning choices, no source, all three. */
const ROLLER_M = 0.1;
/** From the edge, or from beside the load, to the brake; half of what there is where that is less. */
const BEHIND_M = 2;
/** A brake without an edge before it, above the roof. */
const BRAKE_M = 1;

/**
 * How can a rope be led to the load from the top of a structure without running through anything? From the highest from which
 * it can; null: from none.
 */
export function belayLead({ plan, geometry }: SolvedPlan, yoke: SiteVector): BelayLead | null {
  const away = (s: Structure): number => nearestOnOutline(s.outline, [yoke[0], yoke[1]]).awayM;
  const highestFirst = plan.scene.structures
    .filter((s) => soundOutline(s.outline))
    .sort((a, b) => b.topZM - a.topZM || away(a) - away(b));
  const solids = [...geometry.structures.flatMap((s) => s.solids), geometry.ladder];
  for (const structure of highestFirst) {
    const lead = leadFrom(structure, yoke);
    const rope = lead && polyline([yoke, ...(lead.edgeAt ? [lead.edgeAt] : []), lead.brakeAt]);
    if (lead && rope && solids.every((solid) => !clearance(rope, solid).touching)) return lead;
  }
  return null;
}

/** Over the nearest edge of the structure, and on the same way behind it; from above it straight to its brake, away from the edge. */
function leadFrom(structure: Structure, yoke: SiteVector): BelayLead | null {
  const { outline, topZM, parapetHeightM } = structure;
  const here: readonly [number, number] = [yoke[0], yoke[1]];
  const { at, awayM } = nearestOnOutline(outline, here);
  const isAbove = insideOutline(outline, here);
  if (!(awayM > 0)) return null;
  const [dx, dy] = [(at[0] - here[0]) / awayM, (at[1] - here[1]) / awayM];
  const inward: readonly [number, number] = isAbove ? [-dx, -dy] : [dx, dy];
  const from = isAbove ? here : at;
  const run = Math.min(BEHIND_M, runWithin(outline, from, inward) / 2);
  if (!(run > 0)) return null;
  const level = isAbove ? topZM + BRAKE_M : topZM + parapetHeightM + ROLLER_M;
  return {
    structure,
    edgeAt: isAbove ? null : asSite([at[0], at[1], level]),
    brakeAt: asSite([from[0] + run * inward[0], from[1] + run * inward[1], level]),
  };
}
