import { poseAerial, riggingPointAt, type SiteVector } from "@gantline/engine";
import { asRiggingPoint, hungFrom } from "../rig/hung-from.ts";
import type { Plan } from "../schema/plan.ts";
import { boundedPoint } from "./bounded-point.ts";

/** The load counts as hung plumb when it is level-wise this near to the middle of its rigging points, m. */
const PLUMB_M = 0.25;

/** The plan with its load wanted at a place. */
export const withLoad = (plan: Plan, at: readonly [number, number, number]): Plan => ({
  ...plan,
  rig: { ...plan.rig, load: { ...plan.rig.load, positionM: boundedPoint(...at) } },
});

/** After the ladder has moved: a load wanted plumb below its rigging points is wanted there still, at the height it had. */
export function carryingLoad(before: Plan, after: Plan): Plan {
  const from = hangingFrom(before);
  const to = hangingFrom(after);
  const [x, y, z] = before.rig.load.positionM;
  if (!hangsPlumb(before) || from === null || to === null) return after;
  return withLoad(after, [x + to[0] - from[0], y + to[1] - from[1], z]);
}

/** Is the load wanted plumb below its rigging points? */
export function hangsPlumb(plan: Plan): boolean {
  const from = hangingFrom(plan);
  const [x, y] = plan.rig.load.positionM;
  return plan.rig.load.drive === "position" && from !== null && Math.hypot(x - from[0], y - from[1]) <= PLUMB_M;
}

/** Where the middle of the rigging points in use is; null where none of them exists. */
function hangingFrom(plan: Plan): SiteVector | null {
  const { device, place, pose } = plan.aerial;
  const hung = hungFrom(device, plan.rig.mainLines);
  return hung && riggingPointAt(poseAerial(device, place, pose), asRiggingPoint(hung));
}
