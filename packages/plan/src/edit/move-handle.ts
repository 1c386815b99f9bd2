import {
  type AerialPose,
  asSite,
  clampPose,
  poseAerial,
  poseForTip,
  type SiteVector,
  site,
  wrapBearing,
} from "@gantline/engine";
import type { When } from "../evolve/evolution-types.ts";
import { momentPlan } from "../evolve/moment-plan.ts";
import type { Plan } from "../schema/plan.ts";
import { bounded, boundedPoint, within } from "./bounded-point.ts";
import { carryingLoad, withLoad } from "./carrying-load.ts";
import { moveWaypoint } from "./move-waypoint.ts";
import { poseAt } from "./pose-at.ts";
import { fromSection, planSectionFrame, type SectionFrame, toSection } from "./section-frame.ts";
import { groundLevel, surfaceBelow } from "./surface-below.ts";

export type View = "section" | "plan";

/** Hands are taken to be this far above what their owner stands on where the plan gave something unlikely, m. */
const HAND_HEIGHT_M = 1;

/**
 * What does the plan become when a thing drawn in a view is moved to a place?
 *
 * Section: [across, up] of `planSectionFrame`; plan view: [east, north], m. Pure; the pose stays within the device's limits.
 * - `tip`: section, elevation and length; plan view, bearing and reach at the same height. A load that hung plumb stays plumb.
 * - `vehicle`: the turntable; ground level from what is drawn there; pose and, if plumb, load go with it.
 * - `heading`: the vehicle's front turns to face the place; the ladder keeps its bearing.
 * - `load`: where the yoke is wanted; section keeps its distance from the section, plan view keeps its height.
 * - `tagline:<id>`: the handler, who stands on whatever is highest there.
 * - `start`, `waypoint:<stage>:<point>`: a place of the load's way; section keeps its distance from the section, plan view its height.
 *
 * An id that is none of these, or a place that is not finite, returns the same plan.
 *
 * @param when the moment of the evolution that is drawn; null: the one position the rig names. At a moment the tip moves
 *   the pose the ladder has then, whichever stage set it; while the ladder is moving it stays, and `load` does too.
 */
export function moveHandle(
  plan: Plan,
  view: View,
  handleId: string,
  to: readonly [number, number],
  when: When | null = null,
): Plan {
  if (!to.every(Number.isFinite)) return plan;
  const staged = when !== null && when.stage < plan.evolution.stages.length;
  if (staged && handleId === "tip") return tipAt(plan, view, to, when);
  if (staged && handleId === "load") return plan;
  const frame = planSectionFrame(staged ? momentPlan(plan, when) : plan);
  switch (handleId) {
    case "tip":
      return carryingLoad(plan, withPose(plan, poseForTipAt(plan, view, to)));
    case "vehicle":
      return carryingLoad(plan, vehicleAt(plan, view === "section" ? fromSection(frame, to[0], 0) : to));
    case "heading":
      return view === "plan" ? headingToward(plan, to) : plan;
    case "load":
      return withLoad(plan, moved(frame, view, asSite(plan.rig.load.positionM), to));
    default:
      return handleId.startsWith("tagline:")
        ? handlerAt(plan, frame, view, handleId.slice("tagline:".length), to)
        : moveWaypoint(plan, handleId, (from) => {
            const [x, y, z] = moved(frame, view, from, to);
            return boundedPoint(x, y, z);
          });
  }
}

/** A point moved within a view; what the view does not show stays. */
function moved(frame: SectionFrame, view: View, from: SiteVector, to: readonly [number, number]): SiteVector {
  if (view === "plan") return site(to[0], to[1], from[2]);
  return fromSection(frame, to[0], to[1], toSection(frame, from).rightM);
}

/** The pose the ladder has at a moment, changed where it is set. */
function tipAt(plan: Plan, view: View, to: readonly [number, number], when: When): Plan {
  const held = poseAt(plan, when);
  if (held === null) return plan;
  const pose = clampPose(plan.aerial.device, poseForTipAt(momentPlan(plan, when), view, to));
  return held.with(pose);
}

const poseForTipAt = (plan: Plan, view: View, to: readonly [number, number]): AerialPose =>
  view === "section" ? tipInSection(plan, to) : tipInPlan(plan, to);

function tipInSection(plan: Plan, to: readonly [number, number]): AerialPose {
  const { device, place, pose } = plan.aerial;
  const wanted = fromSection(planSectionFrame(plan), to[0], to[1]);
  return poseForTip(device, place, wanted, { bearingRad: pose.bearingRad }).pose;
}

/** The tip brought over a place at the height it has, as near as the limits allow. */
function tipInPlan(plan: Plan, to: readonly [number, number]): AerialPose {
  const { device, place, pose } = plan.aerial;
  const heightM = Math.sin(pose.elevationRad) * pose.lengthM;
  const tipZM = poseAerial(device, place, pose).tip[2];
  const exact = poseForTip(device, place, site(to[0], to[1], tipZM)).pose;
  const lengthM = within(exact.lengthM, device.lengthMinM, device.lengthMaxM);
  const elevationRad = within(
    lengthM === exact.lengthM ? exact.elevationRad : Math.asin(within(heightM / lengthM, -1, 1)),
    device.elevationMinRad,
    device.elevationMaxRad,
  );
  // Held at a limit of elevation, the height is kept by the length.
  const sine = Math.sin(elevationRad);
  const atLimit = elevationRad !== exact.elevationRad && Math.abs(sine) > 0.02;
  return { bearingRad: exact.bearingRad, elevationRad, lengthM: atLimit ? heightM / sine : lengthM };
}

function vehicleAt(plan: Plan, to: readonly [number, number, ...number[]]): Plan {
  const turntableX = bounded(to[0]);
  const turntableY = bounded(to[1]);
  const groundZM = bounded(groundLevel(plan.scene, [turntableX, turntableY]));
  return { ...plan, aerial: { ...plan.aerial, place: { ...plan.aerial.place, turntableX, turntableY, groundZM } } };
}

function headingToward(plan: Plan, to: readonly [number, number]): Plan {
  const { place } = plan.aerial;
  const east = to[0] - place.turntableX;
  const north = to[1] - place.turntableY;
  if (east === 0 && north === 0) return plan;
  return { ...plan, aerial: { ...plan.aerial, place: { ...place, headingRad: wrapBearing(Math.atan2(east, north)) } } };
}

function handlerAt(
  plan: Plan,
  frame: SectionFrame,
  view: View,
  taglineId: string,
  to: readonly [number, number],
): Plan {
  const tagline = plan.rig.taglines.find((one) => one.id === taglineId);
  if (tagline === undefined) return plan;
  const [x, y, z] = tagline.handler;
  const hands = z - surfaceBelow(plan.scene, [x, y]);
  const handsM = hands >= 0 && hands <= 2 ? hands : HAND_HEIGHT_M;
  const at = moved(frame, view, asSite(tagline.handler), to);
  const handler = boundedPoint(at[0], at[1], surfaceBelow(plan.scene, [at[0], at[1]]) + handsM);
  return {
    ...plan,
    rig: { ...plan.rig, taglines: plan.rig.taglines.map((one) => (one.id === taglineId ? { ...one, handler } : one)) },
  };
}

function withPose(plan: Plan, pose: AerialPose): Plan {
  return { ...plan, aerial: { ...plan.aerial, pose: clampPose(plan.aerial.device, pose) } };
}
