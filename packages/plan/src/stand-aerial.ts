import {
  type AppliedForce,
  type HeightOverGround,
  type JackFoot,
  jackFeet,
  jackLines,
  type PosedAerial,
  type RatedTipping,
  ratedTipLoad,
  ratedTipping,
  type TipRatingAnswer,
  vehicleWeights,
} from "@gantline/engine";
import type { Clearance, Geometry } from "./evaluation.ts";
import { knownReach } from "./known-reach.ts";
import { ladderHeight, measureStanding } from "./measure-clearances.ts";
import { placeGeometry } from "./place-geometry.ts";
import type { LaidRig } from "./rig/lay-lines.ts";
import type { Plan } from "./schema/plan.ts";

/** Everything that stays as it is while vehicle and ladder stand still, wherever the load goes. */
export interface Stand {
  readonly geometry: Geometry;
  /** The lines with their fixed places. */
  readonly laid: LaidRig;
  readonly rating: TipRatingAnswer;
  /** What the rated load does over each jack line. */
  readonly ratedTipping: readonly RatedTipping[];
  readonly feet: readonly JackFoot[];
  /** The vehicle's own weight, its ladder as posed; null: not known. */
  readonly weights: readonly AppliedForce[] | null;
  /** Ladder to structures; ladder and vehicle to power lines. */
  readonly clearances: readonly Clearance[];
  /** Ladder with its platform over the ground. */
  readonly ladderHeight: HeightOverGround;
}

/** Vehicle and ladder on the site, and what the maker allows at this pose. */
export function standAerial(plan: Plan, straight: PosedAerial, posed: PosedAerial, laid: LaidRig): Stand {
  const { device, place, pose } = plan.aerial;
  const rating = ratedTipLoad(device.tipRating, pose.elevationRad, pose.lengthM);
  const geometry = placeGeometry(plan, posed, straight.tip);
  const feet = jackFeet(device, place, knownReach(plan));
  return {
    geometry,
    laid,
    rating,
    ratedTipping: ratedTipping(device, place, pose, jackLines(feet), rating.ratedTipLoadN),
    feet,
    weights: vehicleWeights(device, device.massCentre, place, posed),
    clearances: measureStanding(plan, geometry),
    ladderHeight: ladderHeight(plan, geometry),
  };
}
