import {
  groundZAt,
  type StandParking,
  type StandQuestion,
  type StandSteps,
  type StandTarget,
  standGrid,
} from "@gantline/engine";
import { findProblems } from "../find-problems.ts";
import { knownReach } from "../known-reach.ts";
import { soundOutline } from "../place-geometry.ts";
import { powerLineDistanceM } from "../power-line-distance.ts";
import { hungFrom } from "../rig/hung-from.ts";
import { slopeLimit } from "../rules/parking.ts";
import type { Plan } from "../schema/plan.ts";
import { parkingPlane } from "../site-ground.ts";
import type { Phrase } from "../units/quantity.ts";
import { bearingsToward } from "./bearings-toward.ts";
import { standAims } from "./stand-aims.ts";
import { standObstacles } from "./stand-obstacles.ts";
import type { StandAim, StandAsk, StandAsked } from "./stand-types.ts";
import { tipDemand } from "./tip-demand.ts";
import { withDevice } from "./with-stand.ts";

/** How finely is looked unless said. */
export const STAND_STEPS: StandSteps = { cellM: 0.5, headings: 24, tipPlaces: 3, tipHeights: 10 };
/** How far from plumb the rigging points may come unless said, m: less than what counts as held. Planning default, no source. */
export const PLUMB_TOLERANCE_M = 0.1;
/** What vehicle and jacks keep from structures unless said, m. Planning default, no source. */
export const BODY_CLEARANCE_M = 0.3;
/** Clearance beyond what is asked counts up to here when stands are compared, m. Planning default, no source. */
const CLEARANCE_COUNTED_M = 5;

/**
 * What is the search for a stand asked, for this plan?
 *
 * Parking ground with its slope, keep-out areas (gaps and water as well), structures with their parapets, power lines with the
 * distance for their voltage, the policy's clearances, the lower of the maker's and the policy's slope, the vehicle with its
 * jacks as far out as entered and their pads as squares. The rigging points in use are to hang over the aim; at least so high that sling, bridle,
 * load and margin find room above the landing and no way of the load leads above the sheaves; at most as high as
 * the device goes. What the tip carries at each bearing, elevation and height is worked out from the plan's own rig
 * (`tipDemand`), which takes longest by far and may be left for later. What is not known stays `null`. Never throws on a plan that its schema accepts.
 */
export function standQuestion(plan: Plan, ask: StandAsk = {}): StandAsked {
  const problems = findProblems(plan);
  const parking = parkingOf(plan);
  const device = ask.device ?? plan.aerial.device;
  const posed = ask.device ? withDevice(plan, device) : plan;
  const hung = hungFrom(device, plan.rig.mainLines);
  const lacking = [
    ...problems.filter((p) => p.path.startsWith("scene.") || p.path.startsWith("aerial.")),
    ...(parking.length === 0
      ? [
          {
            path: "scene.parking",
            got: "no parking ground",
            expected: "an outline of the ground a vehicle may stand on",
          },
        ]
      : []),
    ...(hung === null
      ? [
          {
            path: "rig.mainLines[0].tip.pointId",
            got: "no rigging point of this vehicle",
            expected: "one of its rigging points",
          },
        ]
      : []),
  ];
  if (hung === null || lacking.length > 0) return { ok: false, problems: lacking };

  const aim = ask.aim ?? standAims(plan)[0];
  const target = targetOf(posed, aim, parking, ask.toleranceM ?? PLUMB_TOLERANCE_M);
  const ratingLater = ask.ratingLater ?? false;
  const demand = ratingLater
    ? null
    : tipDemand(posed, hung, target, bearingsToward(plan, aim, parking), movedBy(plan, aim));
  const { policy, scene } = plan;
  const obstacles = standObstacles(plan);
  const question: StandQuestion = {
    vehicleKey: device.id,
    device,
    jackReach: knownReach(posed),
    hungFrom: hung,
    target,
    parking,
    jackPadSideM: Object.fromEntries(
      device.jacks.map(({ id, padAreaM2 }) => [id, padAreaM2 === null ? null : Math.sqrt(padAreaM2)]),
    ),
    slopeLimitRad: slopeLimit(posed).value,
    groundSlopeLimitRad: policy.slopeMaxRad.value,
    keepOuts: scene.areas.filter((a) => soundOutline(a.outline)),
    bodyObstacles: obstacles,
    bodyClearanceM: ask.bodyClearanceM ?? BODY_CLEARANCE_M,
    obstacles,
    ladderClearanceM: policy.ladderClearanceM.value,
    wires: scene.powerLines.map(({ id, name, wire, voltageKv }) => ({
      id,
      name,
      points: wire,
      requiredM: powerLineDistanceM(voltageKv).requiredM,
    })),
    tipDemand: demand,
    ratingLater,
    ratedFactor: 1,
    clearanceCountedM: CLEARANCE_COUNTED_M,
    steps: stepsFor(parking, { ...STAND_STEPS, ...ask.steps }),
  };
  return { ok: true, question, device, aim, unknown: unknownOf(posed, question, aim) };
}

/** More places than this are not looked at, however far the parking ground spreads: their distance grows instead. */
const MOST_CELLS = 400_000;

function stepsFor(parking: readonly StandParking[], steps: StandSteps): StandSteps {
  const { columns, rows } = standGrid({ parking, steps });
  const spread = Math.sqrt((columns * rows) / MOST_CELLS);
  return spread > 1 ? { ...steps, cellM: steps.cellM * spread * 1.01 } : steps;
}

function parkingOf({ scene }: Plan): readonly StandParking[] {
  return scene.parking
    .filter((p) => soundOutline(p.outline))
    .map((p) => ({ id: p.id, name: p.name, outline: p.outline, plane: parkingPlane(p) }));
}

/** How low and how high may the rigging points hang? */
function targetOf(plan: Plan, aim: StandAim, parking: readonly StandParking[], toleranceM: number): StandTarget {
  const { rig, policy, evolution, aerial } = plan;
  const { device } = aerial;
  const slingM = Math.max(...rig.mainLines.map((l) => l.tip.reachM));
  const { bridle, box } = rig.load;
  const overLanding =
    aim.landingZM === null ? null : aim.landingZM + bridle.heightM + box.heightM + (policy.tipMarginM.value ?? 0);
  const ways = evolution.stages.flatMap((s) => (s.aboard.length > 0 ? s.path.map((p) => p[2]) : []));
  const highest = Math.max(
    ...(ways.length > 0 ? ways : [rig.load.positionM[2]]),
    overLanding ?? Number.NEGATIVE_INFINITY,
  );
  const minZM = highest + slingM;
  const groundZM = Math.max(...parking.flatMap((p) => p.outline.map(([x, y]) => levelAt(p, x, y))));
  const reachZM = groundZM + device.pivotHeightM + device.lengthMaxM * Math.sin(Math.max(0, device.elevationMaxRad));
  return { xM: aim.xM, yM: aim.yM, toleranceM, minZM, maxZM: Math.max(minZM, reachZM) };
}

const levelAt = ({ plane }: StandParking, x: number, y: number): number => groundZAt(plane, x, y);

/** How far an aim lies from where the rigging points of the plan hang now, east and north, m. */
function movedBy(plan: Plan, aim: StandAim): readonly [number, number] {
  const now = standAims(plan).find(({ id }) => id === "present");
  return now && aim.id !== now.id ? [aim.xM - now.xM, aim.yM - now.yM] : [0, 0];
}

/** What the question leaves open, said once rather than cell by cell. */
function unknownOf(plan: Plan, question: StandQuestion, aim: StandAim): readonly Phrase[] {
  const { policy, aerial } = plan;
  const wire = question.wires.find((w) => w.requiredM === null);
  const jack = aerial.device.jacks.find((j) => (aerial.jackReach[j.id] ?? null) === null);
  return [
    ...(question.tipDemand === null && !question.ratingLater
      ? [["Not known what the tip carries: a mass, a rope's weight, a pull or the efficiency of a sheave is missing."]]
      : []),
    ...(question.slopeLimitRad === null ? [["Not known how steep the maker lets the vehicle stand."]] : []),
    ...(question.ladderClearanceM === null ? [["No least distance of the ladder from structures is set."]] : []),
    ...(wire ? [[`Distance to keep from "${wire.name}" not known.`]] : []),
    ...(jack ? [[`Not known how far jack ${jack.name.toLowerCase()} is run out: taken at its full reach.`]] : []),
    ...(aerial.device.jacks.some((j) => j.padAreaM2 === null)
      ? [["Not known how large the pads of the jacks are: only their middles are held to the ground."]]
      : []),
    ...(aim.landingZM === null
      ? [["No destination is set: nothing says how high the tip must be over a landing."]]
      : []),
    ...(policy.tipMarginM.value === null ? [["No margin of height over the landing is set: none is kept."]] : []),
  ];
}
