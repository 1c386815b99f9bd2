import { pointInPolygon, poseAerial, riggingPointAt } from "@gantline/engine";
import { asRiggingPoint, hungFrom } from "../rig/hung-from.ts";
import type { Plan } from "../schema/plan.ts";
import type { StandAim } from "./stand-types.ts";

/**
 * Places a stand may be sought for: where the load hangs from now, the destination, the casualty.
 *
 * The first is what is sought unless another is said: with stages the present place of the rigging points, as the ways of
 * the load were drawn for it; else the destination, if there is one. What is landed on is the destination, or the
 * casualty's place for an aim over the casualty.
 */
export function standAims(plan: Plan): readonly [StandAim, ...StandAim[]] {
  const { casualty, destination } = plan.scene;
  const landingZM = destination && surfaceM(plan, destination.position);
  const present: StandAim = { id: "present", name: "Where the tip is now", ...presentPlace(plan), landingZM };
  const others: StandAim[] = [];
  if (destination) others.push(over("destination", destination, surfaceM(plan, destination.position)));
  if (casualty) others.push(over("casualty", casualty, surfaceM(plan, casualty.position)));
  const [first, ...rest] = others;
  return plan.evolution.stages.length > 0 || first?.id !== "destination"
    ? [present, ...others]
    : [first, present, ...rest];
}

/** Height of what must be cleared at a landing: its own level, or the parapet of what it lies on. As the tip height is judged. */
export function surfaceM({ scene }: Plan, [x, y, z]: readonly [number, number, number]): number {
  const under = scene.structures.filter((s) => pointInPolygon(s.outline, [x, y]));
  return Math.max(z, ...under.map((s) => s.topZM + s.parapetHeightM));
}

function presentPlace(plan: Plan): { readonly xM: number; readonly yM: number } {
  const { device, place, pose } = plan.aerial;
  const posed = poseAerial(device, place, pose);
  const hung = hungFrom(device, plan.rig.mainLines);
  const [xM, yM] = hung === null ? posed.tip : riggingPointAt(posed, asRiggingPoint(hung));
  return { xM, yM };
}

const over = (
  id: string,
  { name, position: [xM, yM] }: { readonly name: string; readonly position: readonly [number, number, number] },
  landingZM: number,
): StandAim => ({ id, name, xM, yM, landingZM });
