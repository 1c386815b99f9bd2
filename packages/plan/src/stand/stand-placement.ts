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
import type { When } from "../evolve/evolution-types.ts";
import { evolve } from "../evolve/evolve.ts";
import { knownReach } from "../known-reach.ts";
import { soundOutline } from "../place-geometry.ts";
import { asRiggingPoint, hungFrom } from "../rig/hung-from.ts";
import type { Plan } from "../schema/plan.ts";
import { momentJudge } from "./judge-moments.ts";
import { parkArea } from "./park-area.ts";
import { choiceOf } from "./stand-candidates.ts";
import { standQuestion } from "./stand-question.ts";
import type { LadderReading, ParkedOff, StandPlacement } from "./stand-types.ts";
import { tapePoints } from "./tape-points.ts";
import { tapeTo } from "./tape-to.ts";

/** As far as is looked, m. */
export const PARKED_OFF_MOST_M = 1;
/** With less room than this a stand is told as lying on its limit, m. Planning default, no source. */
export const TIGHT_M = 0.25;
export const isTight = (freeM: number): boolean => freeM < TIGHT_M;
const DIRECTIONS = 16;
const STEP_M = 0.05;
/** The edge of what still works is found to within this, m. */
const WITHIN_M = 0.005;

/** With ropes and load the edge is found to within this, m. */
const WITHIN_BY_LOAD_M = 0.05;
/** Headings so far off either way are looked at, rad. */
const TURNS_RAD = [5, 2, 1].map((deg) => (deg * Math.PI) / 180);
/** Checks used above this at the stand are watched where they are worst. */
const WATCHED_ABOVE = 0.8;

/**
 * What is painted on the ground for a plan's stand, what is read at the ladder, and how far off the vehicle may be parked?
 *
 * Turntable and jack pads by two tapes each (`tapeTo`) from points that can be found again (`tapePoints`). How far off:
 * in 16 directions the turntable is moved, the heading kept and the ladder posed anew so that its rigging points hang where
 * they did, until one of the search's exact checks no longer holds, with what is read at the ladder there; the area as a whole
 * is that of `parkArea`. What is not known counts as not holding. Ropes, load and tether are judged as well along these
 * directions (`momentJudge`), at the start, bends and end of every stage and where the stand's own checks are worst; the area keeps within
 * the nearer of the two directions on either side. Where they fail at the stand itself, this tells of vehicle, ladder and rating alone.
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

function parkedOff(plan: Plan): Omit<StandPlacement, keyof Readings> {
  const { device, place, pose } = plan.aerial;
  const asked = standQuestion(plan);
  const hung = hungFrom(device, plan.rig.mainLines);
  if (!asked.ok || hung === null) return { ...NOT_TOLD, governs: null };
  const point = riggingPointAt(poseAerial(device, place, pose), asRiggingPoint(hung));
  const stand: StandCandidate = {
    turntable: [place.turntableX, place.turntableY],
    headingRad: place.headingRad,
    point,
  };
  const own = assessStand(asked.question, stand);
  if (own.status !== "feasible") return { ...NOT_TOLD, governs: own.reason };
  const judge = momentJudge(plan);
  const loadHolds = (candidate: StandCandidate): boolean => {
    const choice = choiceOf(asked, candidate);
    return choice !== null && judge.figures(choice) !== null;
  };
  // Where it fails at the usual moments already no others need be found.
  let heldToLoad = loadHolds(stand);
  if (heldToLoad) {
    judge.watch(closeMoments(plan));
    heldToLoad = loadHolds(stand);
  }
  const rays = Array.from({ length: DIRECTIONS }, (_, k) => off(asked.question, stand, (2 * Math.PI * k) / DIRECTIONS));
  // Ropes and load take long to judge: in every second direction, and between these no farther than on either side.
  const judged = rays.map((ray, k) =>
    heldToLoad && k % 2 === 0 ? shortened(asked.question, stand, ray, loadHolds) : ray,
  );
  const found = judged.map((ray, k) => {
    const beside = [judged[(k + DIRECTIONS - 1) % DIRECTIONS], judged[(k + 1) % DIRECTIONS]];
    const short = beside.filter((b) => b?.loadGoverns).map((b) => b?.distanceM ?? 0);
    return k % 2 === 0 || !heldToLoad ? ray : cutTo(asked.question, stand, ray, Math.min(...short));
  });
  const isWithin = (eastM: number, northM: number): boolean =>
    Math.hypot(eastM, northM) < 1e-9 || Math.hypot(eastM, northM) <= nearerRayM(found, eastM, northM) + 1e-9;
  const turned = (by: number): StandCandidate => ({ ...stand, headingRad: wrapBearing(stand.headingRad + by) });
  const holds = (c: StandCandidate): boolean =>
    assessStand(asked.question, c).status === "feasible" && (!heldToLoad || loadHolds(c));
  return {
    parkedOff: found,
    area: parkArea(asked.question, stand, PARKED_OFF_MOST_M, heldToLoad ? isWithin : undefined),
    heldToLoad,
    turnFreeRad: TURNS_RAD.find((by) => holds(turned(by)) && holds(turned(-by))) ?? 0,
    governs: null,
  };
}

type Readings = Omit<StandPlacement, "parkedOff" | "area" | "governs" | "heldToLoad" | "turnFreeRad">;

const NOT_TOLD = { parkedOff: [], area: null, heldToLoad: false, turnFreeRad: null } as const;

/** Where the checks of a stand that come nearest to their limits are worst. */
const closeMoments = (plan: Plan): readonly When[] =>
  plan.evolution.stages.length === 0
    ? []
    : evolve(plan).ledger.flatMap((c) => (c.counts && c.when && (c.ratio ?? 0) > WATCHED_ABOVE ? [c.when] : []));

/** A ray cut off where ropes and load no longer hold: halved, as far as nearer holds where farther does. */
function shortened(
  question: StandQuestion,
  stand: StandCandidate,
  ray: ParkedOff,
  holds: (candidate: StandCandidate) => boolean,
): ParkedOff {
  const at = (distanceM: number): StandCandidate => movedTo(stand, ray.bearingRad, distanceM);
  if (ray.distanceM === 0 || holds(at(ray.distanceM))) return ray;
  let held = 0;
  let not = ray.distanceM;
  while (not - held > WITHIN_BY_LOAD_M) {
    const middle = (held + not) / 2;
    if (holds(at(middle))) held = middle;
    else not = middle;
  }
  return cutTo(question, stand, ray, held);
}

/** A ray that ropes and load end at a distance; the same one where it is no longer than that. */
const cutTo = (question: StandQuestion, stand: StandCandidate, ray: ParkedOff, distanceM: number): ParkedOff =>
  ray.distanceM <= distanceM
    ? ray
    : {
        ...ray,
        distanceM,
        governs: null,
        loadGoverns: true,
        reading: readingAt(question, movedTo(stand, ray.bearingRad, distanceM)),
      };

/** The nearer end of the two directions on either side of a place, m. */
function nearerRayM(rays: readonly ParkedOff[], eastM: number, northM: number): number {
  const turn = Math.atan2(eastM, northM) / (2 * Math.PI);
  const at = (turn - Math.floor(turn)) * rays.length;
  const ends = [Math.floor(at), Math.ceil(at)].map((k) => rays[k % rays.length]?.distanceM ?? 0);
  return Math.min(...ends);
}

const movedTo = (stand: StandCandidate, bearingRad: number, distanceM: number): StandCandidate => ({
  ...stand,
  turntable: [
    stand.turntable[0] + distanceM * Math.sin(bearingRad),
    stand.turntable[1] + distanceM * Math.cos(bearingRad),
  ],
});

/** How far in one direction, and what governs there. */
function off(question: StandQuestion, stand: StandCandidate, bearingRad: number): ParkedOff {
  const at = (distanceM: number): StandCandidate => movedTo(stand, bearingRad, distanceM);
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
      loadGoverns: false,
      reading: readingAt(question, at(holds)),
    };
  }
  return {
    bearingRad,
    distanceM: PARKED_OFF_MOST_M,
    governs: null,
    loadGoverns: false,
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
