import {
  assessStand,
  jackFeet,
  poseAerial,
  poseOfStand,
  riggingPointAt,
  type StandCandidate,
  type StandQuestion,
  wrapBearing,
} from "@gantline/engine";
import { knownReach } from "../known-reach.ts";
import { soundOutline } from "../place-geometry.ts";
import { asRiggingPoint, hungFrom } from "../rig/hung-from.ts";
import type { Plan } from "../schema/plan.ts";
import { parkArea } from "./park-area.ts";
import { standQuestion } from "./stand-question.ts";
import type { LadderReading, ParkedOff, StandPlacement } from "./stand-types.ts";
import { tapePoints } from "./tape-points.ts";
import { tapeTo } from "./tape-to.ts";

/** As far as is looked, m. */
export const PARKED_OFF_MOST_M = 1;
const DIRECTIONS = 16;
const STEP_M = 0.05;
/** The edge of what still works is found to within this, m. */
const WITHIN_M = 0.005;

/**
 * What is painted on the ground for a plan's stand, what is read at the ladder, and how far off the vehicle may be parked?
 *
 * Turntable and jack pads by two tapes each (`tapeTo`) from points that can be found again (`tapePoints`). How far off:
 * in 16 directions the turntable is moved, the heading kept and the ladder posed anew so that its rigging points hang where
 * they did, until one of the search's exact checks no longer holds, with what is read at the ladder there; the area as a whole
 * is that of `parkArea`. What is not known counts as not holding. It tells of the
 * vehicle, the ladder and its rating, not of ropes and load: sweep the plan with the vehicle there for these.
 */
export function standPlacement(plan: Plan): StandPlacement {
  const { device, place, pose } = plan.aerial;
  const points = tapePoints(plan);
  const walls = plan.scene.structures.filter((s) => soundOutline(s.outline)).map((s) => s.outline);
  const feet = jackFeet(device, place, knownReach(plan));
  const names = new Map(device.jacks.map((j) => [j.id, j.name.toLowerCase()]));
  const marks = [
    { id: "turntable", name: "Turntable, middle", at: [place.turntableX, place.turntableY] as const },
    ...feet.map((f) => ({
      id: `jack/${f.id}`,
      name: `Jack ${names.get(f.id) ?? f.id}, pad`,
      at: [f.position[0], f.position[1]] as const,
    })),
  ];
  return {
    marks: marks.map((mark) => tapeTo(mark, points, walls)),
    headingRad: place.headingRad,
    bearingRad: pose.bearingRad,
    turnRad: wrapBearing(pose.bearingRad - place.headingRad),
    elevationRad: pose.elevationRad,
    lengthM: pose.lengthM,
    extensionM: Math.max(0, pose.lengthM - device.lengthMinM),
    ...parkedOff(plan),
  };
}

function parkedOff(plan: Plan): Pick<StandPlacement, "parkedOff" | "area" | "governs"> {
  const { device, place, pose } = plan.aerial;
  const asked = standQuestion(plan);
  const hung = hungFrom(device, plan.rig.mainLines);
  if (!asked.ok || hung === null) return { parkedOff: [], area: null, governs: null };
  const point = riggingPointAt(poseAerial(device, place, pose), asRiggingPoint(hung));
  const stand: StandCandidate = {
    turntable: [place.turntableX, place.turntableY],
    headingRad: place.headingRad,
    point,
  };
  const own = assessStand(asked.question, stand);
  if (own.status !== "feasible") return { parkedOff: [], area: null, governs: own.reason };
  const found = Array.from({ length: DIRECTIONS }, (_, k) =>
    off(asked.question, stand, (2 * Math.PI * k) / DIRECTIONS),
  );
  return { parkedOff: found, area: parkArea(asked.question, stand, PARKED_OFF_MOST_M), governs: null };
}

/** How far in one direction, and what governs there. */
function off(question: StandQuestion, stand: StandCandidate, bearingRad: number): ParkedOff {
  const at = (distanceM: number): StandCandidate => ({
    ...stand,
    turntable: [
      stand.turntable[0] + distanceM * Math.sin(bearingRad),
      stand.turntable[1] + distanceM * Math.cos(bearingRad),
    ],
  });
  const steps = Math.round(PARKED_OFF_MOST_M / STEP_M);
  for (let k = 1; k <= steps; k++) {
    if (assessStand(question, at(k * STEP_M)).status === "feasible") continue;
    let holds = (k - 1) * STEP_M;
    let fails = k * STEP_M;
    while (fails - holds > WITHIN_M) {
      const middle = (holds + fails) / 2;
      if (assessStand(question, at(middle)).status === "feasible") holds = middle;
      else fails = middle;
    }
    return {
      bearingRad,
      distanceM: holds,
      governs: assessStand(question, at(fails)).reason,
      reading: readingAt(question, at(holds)),
    };
  }
  return {
    bearingRad,
    distanceM: PARKED_OFF_MOST_M,
    governs: null,
    reading: readingAt(question, at(PARKED_OFF_MOST_M)),
  };
}

function readingAt(question: StandQuestion, stand: StandCandidate): LadderReading {
  const posed = poseOfStand(question, stand);
  if (posed === null) throw new Error("A stand that holds stands on no parking ground.");
  const { bearingRad, elevationRad, lengthM } = posed.pose;
  return {
    bearingRad,
    turnRad: wrapBearing(bearingRad - stand.headingRad),
    elevationRad,
    lengthM,
    used: assessStand(question, stand).figures.leastUsed,
  };
}
