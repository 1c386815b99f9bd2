import {
  cellMiddle,
  type PlanPoint,
  poseOfStand,
  type StandCandidate,
  searchStands,
  standAt,
  standGrid,
} from "@gantline/engine";
import type { Plan } from "../schema/plan.ts";
import { askedAsHigh, broughtInLine, cellsInLine, facingAsNow } from "./as-now.ts";
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
 * By every aspect the best places, each in three ways: with the rigging points as high as they hang now and the turntable on
 * the line on which the ladder points now; as high as now, wherever; as the search has it. The load's ways and the
 * tether were drawn for what there is now. Of the headings that may be had, the one nearest to the present turn of the ladder against the vehicle, for the
 * ropes return to its anchors. Only cells that serve every aim; unknown ones only where no cell is feasible. The best
 * come first, aspect by aspect.
 *
 * @param found of one vehicle: one for each aim, the first deciding
 */
export function standCandidates(plan: Plan, found: readonly FoundStands[]): readonly CandidateStand[] {
  const [first] = found;
  if (!first) return [];
  const { asked } = first;
  const cells = servesAll(found);
  const { turntableX, turntableY } = plan.aerial.place;
  const near: PlanPoint = [turntableX, turntableY];
  const high = searchedAsHigh(plan, asked);
  const asHigh = high ? servesAll([high, ...found.slice(1)]) : cells;
  const inLine = cellsInLine(plan, asked.question, asHigh);
  const ways: readonly ((aspect: StandAspect) => readonly (StandCandidate | null)[])[] = [
    (aspect) => (high ? ranked(high, inLine, aspect, near).map((c) => broughtInLine(plan, c)) : []),
    (aspect) => (high ? ranked(high, asHigh, aspect, near) : []),
    (aspect) => ranked(first, cells, aspect, near),
  ];
  const lists = ways.map((way) => STAND_ASPECTS.map((aspect) => ({ aspect, stands: way(aspect) })));
  const chosen: CandidateStand[] = [];
  for (let k = 0; k < PLACES; k++) {
    for (const { aspect, stands } of lists.flat()) {
      const candidate = facingAsNow(plan, asked.question, stands[k] ?? null);
      if (candidate) take(chosen, asked, candidate, k === 0 ? [aspect] : []);
    }
  }
  return chosen;
}

/** The same search with the rigging points as high as now: one height alone, so that it takes little. */
function searchedAsHigh(plan: Plan, asked: AskedStand): FoundStands | null {
  const high = askedAsHigh(plan, asked);
  if (high === null) return null;
  const band = searchStands(high.question, { fromRow: 0, toRow: standGrid(high.question).rows });
  return band && { asked: high, bands: [band] };
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
  near: PlanPoint,
): readonly StandCandidate[] {
  const { question } = asked;
  const figure = aspect === "leastRope" ? "shortest" : aspect === "lowestTip" ? "leastUsed" : aspect;
  const grid = standGrid(question);
  const away = (cell: number): number => apart(cellMiddle(grid, cell), near);
  const all: { readonly cell: number; readonly candidate: number; readonly cost: number }[] = [];
  for (const band of bands) {
    const best = band.best[figure];
    for (const [i, cell] of band.cells.entries()) {
      const candidate = best.candidate[i] as number;
      if (candidate < 0 || !cells.has(cell)) continue;
      const value = best.figure[i] as number;
      const cost = aspect === "leastRope" ? value + (standAt(question, cell, candidate)?.point[2] ?? 0) : value;
      all.push({ cell, candidate, cost: aspect === "steepest" || aspect === "clearest" ? -cost : cost });
    }
  }
  // Of those that are as good, the one nearest to where the vehicle is now: the order in which bands come in does not matter.
  all.sort((a, b) => a.cost - b.cost || away(a.cell) - away(b.cell) || a.cell - b.cell);
  const kept: StandCandidate[] = [];
  for (const { cell, candidate } of all) {
    const stand = standAt(question, cell, candidate);
    if (stand && kept.every((k) => apart(k.turntable, stand.turntable) >= APART_M)) kept.push(stand);
    if (kept.length === PLACES) break;
  }
  return kept;
}
