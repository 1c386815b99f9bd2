import type { AerialPlace, AerialPose } from "../aerial/device.ts";
import { poseForRiggingPoint } from "../aerial/pose-for-rigging-point.ts";
import { site } from "../base/vector.ts";
import { TOUCH_M } from "../scene/clearance.ts";
import { groundZAt } from "../scene/ground-plane.ts";
import { pointInPolygon } from "../scene/outline.ts";
import { moveThatClears } from "./move-that-clears.ts";
import { STAND_STATUSES, type StandBand, type StandStatus } from "./stand-band.ts";
import { cellMiddle, standGrid } from "./stand-grid.ts";
import type { StandCandidate, StandQuestion } from "./stand-question.ts";
import { STAND_CHECKS, type StandCheck, type StandReason } from "./stand-reason.ts";
import { evenHeadings, HEIGHT_PARTS, heightsTold, tipPlaces, turnTipPlaces } from "./stand-steps.ts";

/** Which stand is this candidate (of `StandBest`) of this cell? `null` for none (−1). */
export function standAt(question: StandQuestion, cell: number, candidate: number): StandCandidate | null {
  if (candidate < 0) return null;
  const { steps, target } = question;
  const told = heightsTold(steps.tipHeights);
  const heading = Math.floor(candidate / (steps.tipPlaces * told));
  const tip = Math.floor(candidate / told) % steps.tipPlaces;
  const turntable = cellMiddle(standGrid(question), cell);
  const tips = tipPlaces(steps.tipPlaces, target.toleranceM);
  turnTipPlaces(tips, target.toleranceM, turntable[0] - target.xM, turntable[1] - target.yM);
  const step = steps.tipHeights > 1 ? (target.maxZM - target.minZM) / (steps.tipHeights - 1) : 0;
  return {
    turntable,
    headingRad: evenHeadings(steps.headings)[heading] ?? 0,
    point: [
      target.xM + (tips.x[tip] ?? 0),
      target.yM + (tips.y[tip] ?? 0),
      target.maxZM - (step * (candidate % told)) / HEIGHT_PARTS,
    ],
  };
}

/** Place and pose of the device in a stand; `null` where the turntable lies on no parking ground. */
export function poseOfStand(
  question: StandQuestion,
  { turntable, headingRad, point }: StandCandidate,
): { readonly place: AerialPlace; readonly pose: AerialPose } | null {
  const [turntableX, turntableY] = turntable;
  const ground = question.parking.find((p) => pointInPolygon(p.outline, turntable));
  if (!ground) return null;
  const place = { turntableX, turntableY, groundZM: groundZAt(ground.plane, turntableX, turntableY), headingRad };
  const hungFrom = question.hungFrom ?? { on: "ladder", alongM: 0, lateralM: 0, dropM: 0 };
  const found = poseForRiggingPoint(
    question.device,
    place,
    { ...hungFrom, id: "", name: "", ratingN: null, ratingBasis: null, ratingSource: "", structural: null },
    site(...point),
  );
  return { place, pose: found.pose };
}

export const standStatusAt = (band: StandBand, i: number): StandStatus =>
  STAND_STATUSES[band.status[i] as number] ?? "rejected";

/** Why is the `i`th cell of a band not feasible, and by how much? `null` if it is. `otherReasonAt` tells what else. */
export function standReasonAt(question: StandQuestion, band: StandBand, i: number): StandReason | null {
  const known = band.known[i] as number;
  const found = {
    check: band.check[i] as number,
    value: known & 1 ? (band.value[i] as number) : null,
    limit: known & 2 ? (band.limit[i] as number) : null,
    thing: band.thing[i] as number,
  };
  const rejected = standStatusAt(band, i) === "rejected";
  return reasonOfStand(
    question,
    found,
    standAt(question, band.cells[i] as number, band.nearest[i] as number),
    rejected,
  );
}

/** What was noted of a stand, in full: how the ladder is posed in it, and how far what meets a thing would have to move. */
export function reasonOfStand(
  question: StandQuestion,
  found: {
    readonly check: number;
    readonly value: number | null;
    readonly limit: number | null;
    readonly thing: number;
  },
  stand: StandCandidate | null,
  rejected = true,
): StandReason | null {
  const check = STAND_CHECKS[found.check];
  if (check === undefined || check === "none") return null;
  const { value, limit, thing } = found;
  const reason = standReason(question, { check, value, limit, thing, rejected });
  const posed = stand && poseOfStand(question, stand);
  if (posed === null || !reason.shortfall) return reason;
  const meets = (reason.value ?? 0) <= TOUCH_M;
  return {
    ...reason,
    pose: OF_THE_POSE.has(check) ? posed.pose : null,
    clears: meets ? moveThatClears(question, posed, { check, thing, askedM: reason.limit ?? 0 }) : null,
  };
}

/** Is a check about the ladder, or about how the vehicle stands? */
export const isOfLadder = (check: StandCheck): boolean => check === "tooNear" || OF_THE_POSE.has(check);

/** Checks of the ladder as it is posed. */
const OF_THE_POSE: ReadonlySet<StandCheck> = new Set([
  "tooLow",
  "tooSteep",
  "tooShort",
  "tooLong",
  "rating",
  "nothingHolds",
  "ladderClearance",
  "ladderToWire",
  "platformClearance",
  "platformToWire",
  "loadWay",
]);

interface BareReason {
  readonly check: StandCheck;
  readonly value: number | null;
  readonly limit: number | null;
  readonly thing: number;
  readonly rejected: boolean;
}

/** A reason in full, from the numbers a search keeps. */
export function standReason(
  question: StandQuestion,
  { check, value, limit, thing, rejected }: BareReason,
): StandReason {
  return {
    check,
    value,
    limit,
    unit: check === "rating" ? "N" : IN_RADIANS.has(check) ? "rad" : "m",
    shortfall: rejected && value !== null && limit !== null ? Math.abs(value - limit) : null,
    thingId: thingsOf(question, check)[thing]?.id ?? null,
    pose: null,
    clears: null,
  };
}

const IN_RADIANS: ReadonlySet<StandCheck> = new Set([
  "slopeAlong",
  "slopeAcross",
  "tooLow",
  "tooSteep",
  "loadWay",
  "groundSlope",
]);

function thingsOf(question: StandQuestion, check: StandCheck): readonly { readonly id: string }[] {
  switch (check) {
    case "offParking":
    case "vehicleOffParking":
    case "jackOffParking":
    case "slopeAlong":
    case "slopeAcross":
    case "groundSlope":
      return question.parking;
    case "vehicleOnKeepOut":
    case "jackOnKeepOut":
      return question.keepOuts;
    case "vehicleClearance":
    case "jackClearance":
      return question.bodyObstacles;
    case "ladderClearance":
    case "platformClearance":
      return question.obstacles;
    case "vehicleToWire":
    case "ladderToWire":
    case "platformToWire":
      return question.wires;
    default:
      return [];
  }
}
