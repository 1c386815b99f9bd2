import { clampPose, poseAerial, poseForRiggingPoint, riggingPointAt, wrapBearing } from "@gantline/engine";
import { bounded } from "../edit/bounded-point.ts";
import { carryingLoad } from "../edit/carrying-load.ts";
import { groundLevel } from "../edit/surface-below.ts";
import { poseBefore } from "../evolve/moment-plan.ts";
import { asRiggingPoint, hungFrom } from "../rig/hung-from.ts";
import type { Plan } from "../schema/plan.ts";
import type { StandChoice } from "./stand-types.ts";

type Pose = Plan["aerial"]["pose"];

/**
 * The plan with another stand: vehicle, place, heading and pose.
 *
 * What is made fast to the vehicle goes along; ground anchors, ways of the load and handlers stay, as does a load that hangs
 * off plumb. Ground level is that of what is drawn at the place. A stage that moves the ladder brings the rigging points to
 * the same place of the site if anything hangs from them after it; else it changes elevation, length and bearing by as much as it
 * did. Poses stay within the device's limits. Pure.
 */
export function withStand(plan: Plan, { device, turntable, headingRad, pose }: StandChoice): Plan {
  const changed = withDevice(plan, device);
  const turntableX = bounded(turntable[0]);
  const turntableY = bounded(turntable[1]);
  const place = {
    turntableX,
    turntableY,
    groundZM: bounded(groundLevel(plan.scene, [turntableX, turntableY])),
    headingRad: wrapBearing(headingRad),
  };
  const stood: Plan = { ...changed, aerial: { ...changed.aerial, place, pose: clampPose(device, pose) } };
  return carryingLoad(plan, withStagePoses(plan, stood));
}

/** The plan with another vehicle where it stands. How far out its jacks are is known for those of the same id. */
export function withDevice(plan: Plan, device: Plan["aerial"]["device"]): Plan {
  const { aerial } = plan;
  if (device === aerial.device) return plan;
  const jackReach = Object.fromEntries(
    device.jacks.flatMap(({ id }) => {
      const reach = aerial.jackReach[id];
      return reach === undefined ? [] : [[id, reach]];
    }),
  );
  return { ...plan, aerial: { ...aerial, device, jackReach, pose: clampPose(device, aerial.pose) } };
}

/** The stages that move the ladder, for the new stand. */
function withStagePoses(before: Plan, after: Plan): Plan {
  const { stages } = before.evolution;
  if (!stages.some((s) => s.pose !== null)) return after;
  let plan = after;
  for (const [i, stage] of stages.entries()) {
    if (stage.pose === null) continue;
    const pose = hangsAfter(before, i)
      ? poseOverSamePlace(before, after, stage.pose)
      : sameChange(poseBefore(before, i), stage.pose, poseBefore(plan, i));
    const moved = { ...stage, pose: clampPose(after.aerial.device, pose) };
    plan = {
      ...plan,
      evolution: { ...plan.evolution, stages: plan.evolution.stages.map((s, k) => (k === i ? moved : s)) },
    };
  }
  return plan;
}

/** Is anything on the ropes between this move of the ladder and the next? */
function hangsAfter({ evolution: { stages } }: Plan, index: number): boolean {
  for (const stage of stages.slice(index + 1)) {
    if (stage.action === "moveLadder" && stage.pose !== null) return false;
    if (stage.aboard.length > 0) return true;
  }
  return false;
}

function poseOverSamePlace(before: Plan, after: Plan, pose: Pose): Pose {
  const { mainLines } = before.rig;
  const from = hungFrom(before.aerial.device, mainLines);
  const to = hungFrom(after.aerial.device, mainLines);
  const posed = poseAerial(before.aerial.device, before.aerial.place, pose);
  const at = from ? riggingPointAt(posed, asRiggingPoint(from)) : posed.tip;
  const { device, place } = after.aerial;
  return to ? poseForRiggingPoint(device, place, asRiggingPoint(to), at).pose : pose;
}

const sameChange = (from: Pose, to: Pose, now: Pose): Pose => ({
  bearingRad: now.bearingRad + to.bearingRad - from.bearingRad,
  elevationRad: now.elevationRad + to.elevationRad - from.elevationRad,
  lengthM: now.lengthM + to.lengthM - from.lengthM,
});
