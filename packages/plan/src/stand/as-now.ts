import {
  assessStand,
  cellMiddle,
  type PlanPoint,
  poseAerial,
  poseOfStand,
  riggingPointAt,
  type SiteVector,
  type StandCandidate,
  type StandQuestion,
  standGrid,
  wrapBearing,
} from "@gantline/engine";
import { asRiggingPoint, hungFrom } from "../rig/hung-from.ts";
import type { Plan } from "../schema/plan.ts";
import type { AskedStand } from "./stand-types.ts";

/** Where the rigging points in use hang now; `null` where the vehicle has none of them. */
function hangsNow({ aerial: { device, place, pose }, rig }: Plan): SiteVector | null {
  const hung = hungFrom(device, rig.mainLines);
  return hung && riggingPointAt(poseAerial(device, place, pose), asRiggingPoint(hung));
}

/** How far a place lies to the right of the line on which the ladder points now, m. */
function offLine({ aerial: { place, pose } }: Plan, [x, y]: PlanPoint): number {
  return (x - place.turntableX) * Math.cos(pose.bearingRad) - (y - place.turntableY) * Math.sin(pose.bearingRad);
}

/** Cells that the line on which the ladder points now runs through, or nearly. */
export function cellsInLine(plan: Plan, question: StandQuestion, cells: ReadonlySet<number>): ReadonlySet<number> {
  const grid = standGrid(question);
  return new Set([...cells].filter((cell) => Math.abs(offLine(plan, cellMiddle(grid, cell))) <= question.steps.cellM));
}

/** The place brought square onto that line. */
export function broughtInLine(plan: Plan, stand: StandCandidate | null): StandCandidate | null {
  if (stand === null) return null;
  const { turntable, ...rest } = stand;
  const off = offLine(plan, turntable);
  const { bearingRad } = plan.aerial.pose;
  return {
    ...rest,
    turntable: [turntable[0] - off * Math.cos(bearingRad), turntable[1] + off * Math.sin(bearingRad)],
  };
}

/** The question with the rigging points hung as high as now, plumb over the aim; `null` where the target does not go there. */
export function askedAsHigh(plan: Plan, asked: AskedStand): AskedStand | null {
  const now = hangsNow(plan);
  const { question } = asked;
  const { target, steps } = question;
  if (now === null || now[2] < target.minZM || now[2] > target.maxZM) return null;
  return {
    ...asked,
    question: {
      ...question,
      target: { ...target, minZM: now[2], maxZM: now[2] },
      steps: { ...steps, tipPlaces: 1, tipHeights: 1 },
    },
  };
}

/**
 * The same place and pose, facing so that the ladder is turned against the vehicle as nearly as now; `null` where every heading is rejected.
 *
 * @param turnRad the vehicle turned by so much more, clockwise
 */
export function facingAsNow(
  plan: Plan,
  question: StandQuestion,
  stand: StandCandidate | null,
  turnRad = 0,
): StandCandidate | null {
  const posed = stand && poseOfStand(question, stand);
  if (stand === null || posed === null) return null;
  const { place, pose } = plan.aerial;
  const asNow = posed.pose.bearingRad - pose.bearingRad + place.headingRad + turnRad;
  const step = (2 * Math.PI) / question.steps.headings;
  // Turned by whole steps from as now, and as the search tries them: in a narrow yard only these may do.
  const offs = [0, wrapped(Math.round(asNow / step) * step - asNow), wrapped(stand.headingRad - asNow)];
  const turns = offs.flatMap((off) =>
    Array.from(
      { length: question.steps.headings + 1 },
      (_, k) => off + Math.ceil(k / 2) * step * (k % 2 === 0 ? 1 : -1),
    ),
  );
  for (const turn of turns.sort((a, b) => Math.abs(a) - Math.abs(b))) {
    const candidate = { ...stand, headingRad: wrapBearing(asNow + turn) };
    const { status, reason } = assessStand(question, candidate);
    if (status !== "rejected") return candidate;
    if (reason && OF_THE_LADDER.has(reason.check) && turn !== 0) return null;
    if (reason?.check === "offParking") return null;
  }
  return null;
}

/** A turn the shorter way round, rad. */
const wrapped = (rad: number): number => rad - 2 * Math.PI * Math.round(rad / (2 * Math.PI));

/** What does not change with the heading. */
const OF_THE_LADDER: ReadonlySet<string> = new Set([
  "tooNear",
  "tooLow",
  "tooSteep",
  "tooShort",
  "tooLong",
  "rating",
  "nothingHolds",
  "loadWay",
]);
