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
  standAt,
  standGrid,
  tipHeights,
  wrapBearing,
} from "@gantline/engine";
import { asRiggingPoint, hungFrom } from "../rig/hung-from.ts";
import type { Plan } from "../schema/plan.ts";
import { servesAll } from "./serves-all.ts";
import { type AskedStand, type FoundStands, STAND_ASPECTS, type StandAspect, type StandChoice } from "./stand-types.ts";

/** Stands of one list are at least this far apart, or differ in how the ladder is posed, m. */
const APART_M = 1.5;
/** Places looked at by each aspect. */
const PLACES = 3;

/** A stand worth sweeping, and what speaks for it. */
export interface CandidateStand {
  readonly asked: AskedStand;
  readonly candidate: StandCandidate;
  readonly choice: StandChoice;
  readonly bestBy: readonly StandAspect[];
}

/**
 * Which stands are worth sweeping through the whole evolution?
 *
 * By every aspect the best place of the search and the next best ones apart from it, each in three ways: on the line on which
 * the ladder points now, with the rigging points as high as now; where the search has it, as high as now; as the search
 * has it. The load's ways and the tether were drawn for what there is now. Of the headings that may be had, the one nearest to the
 * present turn of the ladder against the vehicle, for the ropes return to its anchors. Only cells that serve every aim; unknown ones only where no
 * cell is feasible. The best come first, aspect by aspect.
 *
 * @param found of one vehicle: one for each aim, the first deciding
 */
export function standCandidates(plan: Plan, found: readonly FoundStands[]): readonly CandidateStand[] {
  const [first] = found;
  if (!first) return [];
  const { question } = first.asked;
  const cells = servesAll(found);
  const inLine = cellsInLine(plan, question, cells);
  const rankings = STAND_ASPECTS.map((aspect) => ({
    any: ranked(first, cells, aspect),
    inLine: ranked(first, inLine, aspect),
  }));
  const chosen: CandidateStand[] = [];
  const place = (list: readonly StandCandidate[], k: number): StandCandidate | null => list[k] ?? null;
  for (let k = 0; k < PLACES; k++) {
    const ways: readonly ((r: (typeof rankings)[number]) => StandCandidate | null)[] = [
      ({ inLine }) => asHigh(plan, question, broughtInLine(plan, place(inLine, k))),
      ({ any }) => asHigh(plan, question, place(any, k)),
      ({ any }) => place(any, k),
    ];
    for (const way of ways) {
      for (const [i, ranking] of rankings.entries()) {
        const candidate = facingAsNow(plan, question, way(ranking));
        const aspect = STAND_ASPECTS[i];
        if (candidate) take(chosen, first.asked, candidate, k === 0 && aspect ? [aspect] : []);
      }
    }
  }
  return chosen;
}

/** Adds a stand, or what speaks for it to one that is as good as the same. */
function take(
  chosen: CandidateStand[],
  asked: AskedStand,
  candidate: StandCandidate,
  bestBy: readonly StandAspect[],
): void {
  const known = chosen.findIndex((c) => isSame(c.candidate, candidate));
  const same = chosen[known];
  if (same) {
    chosen[known] = { ...same, bestBy: [...new Set([...same.bestBy, ...bestBy])] };
    return;
  }
  const choice = choiceOf(asked, candidate);
  if (choice) chosen.push({ asked, candidate, choice, bestBy });
}

/** A candidate of the search as what can be taken into a plan; `null` where it stands on no parking ground. */
export function choiceOf({ device, question }: AskedStand, candidate: StandCandidate): StandChoice | null {
  const posed = poseOfStand(question, candidate);
  const { turntable, headingRad } = candidate;
  return posed && { device, turntable, headingRad, pose: posed.pose };
}

/** Above this in height two poses from one place are two, m. */
const SAME_HEIGHT_M = 0.3;

const isSame = (a: StandCandidate, b: StandCandidate): boolean =>
  apart(a.turntable, b.turntable) < APART_M && Math.abs(a.point[2] - b.point[2]) < SAME_HEIGHT_M;

const apart = (a: PlanPoint, b: PlanPoint): number => Math.hypot(a[0] - b[0], a[1] - b[1]);

/** The best few cells by an aspect, each apart from those before it. */
function ranked(
  { asked, bands }: FoundStands,
  cells: ReadonlySet<number>,
  aspect: StandAspect,
): readonly StandCandidate[] {
  const { question } = asked;
  const heights = tipHeights(question.steps.tipHeights, question.target);
  const figure = aspect === "leastRope" ? "shortest" : aspect;
  const all: { readonly cell: number; readonly candidate: number; readonly cost: number }[] = [];
  for (const band of bands) {
    const best = band.best[figure];
    for (const [i, cell] of band.cells.entries()) {
      const candidate = best.candidate[i] as number;
      if (candidate < 0 || !cells.has(cell)) continue;
      const value = best.figure[i] as number;
      const cost = aspect === "leastRope" ? value + (heights[candidate % heights.length] as number) : value;
      all.push({ cell, candidate, cost: aspect === "steepest" || aspect === "clearest" ? -cost : cost });
    }
  }
  // Where two are as good, the lower cell: the order in which bands come in does not matter.
  all.sort((a, b) => a.cost - b.cost || a.cell - b.cell);
  const kept: StandCandidate[] = [];
  for (const { cell, candidate } of all) {
    const stand = standAt(question, cell, candidate);
    if (stand && kept.every((k) => apart(k.turntable, stand.turntable) >= APART_M)) kept.push(stand);
    if (kept.length === PLACES) break;
  }
  return kept;
}

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
function cellsInLine(plan: Plan, question: StandQuestion, cells: ReadonlySet<number>): ReadonlySet<number> {
  const grid = standGrid(question);
  return new Set([...cells].filter((cell) => Math.abs(offLine(plan, cellMiddle(grid, cell))) <= question.steps.cellM));
}

/** The place brought square onto that line. */
function broughtInLine(plan: Plan, stand: StandCandidate | null): StandCandidate | null {
  if (stand === null) return null;
  const { turntable, ...rest } = stand;
  const off = offLine(plan, turntable);
  const { bearingRad } = plan.aerial.pose;
  return {
    ...rest,
    turntable: [turntable[0] - off * Math.cos(bearingRad), turntable[1] + off * Math.sin(bearingRad)],
  };
}

/** The same place with the rigging points as high as they are in the plan; `null` where the target does not go there. */
function asHigh(plan: Plan, { target }: StandQuestion, stand: StandCandidate | null): StandCandidate | null {
  const now = hangsNow(plan);
  if (stand === null || now === null || now[2] < target.minZM || now[2] > target.maxZM) return null;
  return { ...stand, point: [target.xM, target.yM, now[2]] };
}

/** The same place and pose, facing so that the ladder is turned against the vehicle as nearly as now; `null` where every heading is rejected. */
export function facingAsNow(plan: Plan, question: StandQuestion, stand: StandCandidate | null): StandCandidate | null {
  const posed = stand && poseOfStand(question, stand);
  if (stand === null || posed === null) return null;
  const { place, pose } = plan.aerial;
  const asNow = posed.pose.bearingRad - pose.bearingRad + place.headingRad;
  const step = (2 * Math.PI) / question.steps.headings;
  for (let k = 0; k <= question.steps.headings; k++) {
    const turn = Math.ceil(k / 2) * step * (k % 2 === 0 ? 1 : -1);
    const candidate = { ...stand, headingRad: wrapBearing(asNow + turn) };
    const { status, reason } = assessStand(question, candidate);
    if (status !== "rejected") return candidate;
    if (reason && OF_THE_LADDER.has(reason.check) && k > 0) return null;
  }
  return null;
}

/** What does not change with the heading. */
const OF_THE_LADDER: ReadonlySet<string> = new Set(["tooNear", "tooLow", "tooSteep", "tooShort", "tooLong", "rating"]);
