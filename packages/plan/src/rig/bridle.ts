import type { Plan } from "../schema/plan.ts";

/** Bridle legs counted on to share a rigid load, however many there are. Common practice, no source. */
export const LEGS_COUNTED = 3;

/**
 * Angle of the bridle's legs from horizontal, rad, and the force in one, N: W ÷ (n sin α).
 * Of four legs or more on a rigid load only two may be tight at once: two are counted. One leg hangs plumb.
 */
export function bridleLegs(
  plan: Plan,
  weightN: number | null,
): { readonly angleRad: number; readonly counted: number; readonly forceN: number | null } {
  const { legs, heightM, spreadM } = plan.rig.load.bridle;
  const angleRad = legs === 1 ? Math.PI / 2 : Math.atan2(heightM, spreadM);
  const counted = legs > LEGS_COUNTED ? 2 : legs;
  return { angleRad, counted, forceN: weightN === null ? null : weightN / (counted * Math.sin(angleRad)) };
}
