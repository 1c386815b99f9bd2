import {
  cellMiddle,
  poseAerial,
  riggingPointAt,
  STAND_STATUSES,
  type StandGrid,
  type StandTarget,
  standGrid,
  tipHeights,
} from "@gantline/engine";
import { asRiggingPoint, hungFrom } from "../rig/hung-from.ts";
import type { Plan } from "../schema/plan.ts";
import { broughtInLine, cellsInLine } from "./as-now.ts";
import { servesAll } from "./serves-all.ts";
import { standCandidates } from "./stand-candidates.ts";
import type { FoundStands } from "./stand-types.ts";
import type { Spot } from "./try-stands.ts";

/** Places spread over what the search found, and heights at each. */
const HEIGHTS = 8;

/**
 * Where to begin: where the vehicle stands now, if the load is to hang where it hangs now; the search's own best; places on
 * the line on which the ladder points now, with the tip as high as now; then the nearest on every side of the target, and
 * places spread evenly over all that the search found, at heights spread evenly and as high as now. The same however the
 * search was split into bands.
 */
export function standSeeds(plan: Plan, found: readonly FoundStands[], places: number): readonly Spot[] {
  const [first] = found;
  if (!first) return [];
  const { question } = first.asked;
  const { target } = question;
  const grid = standGrid(question);
  const cells = [...servesAll(found)].sort((a, b) => a - b);
  const nowM = heightNow(plan);
  const asNow = nowM !== null && nowM >= target.minZM && nowM <= target.maxZM ? [nowM] : [];
  const spotAt = (turntable: Spot["turntable"], z: number): Spot => ({ turntable, point: [target.xM, target.yM, z] });
  /** The sheaves hang a little nearer to the vehicle than the rigging points: these so far out that the load hangs plumb. */
  const outward = ([x, y]: Spot["turntable"], z: number): Spot => {
    const away = Math.hypot(target.xM - x, target.yM - y) || 1;
    const share = target.toleranceM / away;
    return { turntable: [x, y], point: [target.xM + (target.xM - x) * share, target.yM + (target.yM - y) * share, z] };
  };
  const inLine = spread([...cellsInLine(plan, question, new Set(cells))], places / 2).flatMap((cell) =>
    asNow.flatMap((z) => broughtInLine(plan, { ...spotAt(cellMiddle(grid, cell), z), headingRad: 0 }) ?? []),
  );
  const heights = tipHeights(HEIGHTS, target);
  return [
    ...standNow(plan, target),
    ...standCandidates(plan, found).map((c) => c.candidate),
    ...inLine,
    ...[...nearestBySector(grid, cells, target), ...spread(cells, places)].flatMap((cell) => {
      const middle = cellMiddle(grid, cell);
      return [...asNow.map((z) => spotAt(middle, z)), ...[...asNow, ...heights].map((z) => outward(middle, z))];
    }),
  ];
}

/** Seen from the target the ground is cut into sectors of this, rad. */
const SECTOR_RAD = (10 * Math.PI) / 180;

/** Of every sector the cell nearest to the target: there the ladder is shortest and steepest. */
function nearestBySector(grid: StandGrid, cells: readonly number[], { xM, yM }: StandTarget): readonly number[] {
  const nearest = new Map<number, { readonly cell: number; readonly away: number }>();
  for (const cell of cells) {
    const [x, y] = cellMiddle(grid, cell);
    const sector = Math.floor(Math.atan2(x - xM, y - yM) / SECTOR_RAD);
    const away = Math.hypot(x - xM, y - yM);
    if (away < (nearest.get(sector)?.away ?? Number.MAX_VALUE)) nearest.set(sector, { cell, away });
  }
  return [...nearest.values()].map((n) => n.cell);
}

/** So many of a list, evenly. */
function spread<T>(all: readonly T[], count: number): readonly T[] {
  const step = Math.max(1, all.length / count);
  return Array.from(
    { length: Math.min(all.length, Math.floor(count)) },
    (_, i) => all[Math.floor((i + 0.5) * step)],
  ).flatMap((one) => (one === undefined ? [] : [one]));
}

/** The plan's own stand, if its rigging points are over the target. */
function standNow(
  { aerial: { device, place, pose }, rig }: Plan,
  { xM, yM, toleranceM }: StandTarget,
): readonly Spot[] {
  const hung = hungFrom(device, rig.mainLines);
  if (!hung) return [];
  const [x, y, z] = riggingPointAt(poseAerial(device, place, pose), asRiggingPoint(hung));
  if (Math.hypot(x - xM, y - yM) > toleranceM) return [];
  return [{ turntable: [place.turntableX, place.turntableY], point: [x, y, z] }];
}

function heightNow({ aerial: { device, place, pose }, rig }: Plan): number | null {
  const hung = hungFrom(device, rig.mainLines);
  return hung && riggingPointAt(poseAerial(device, place, pose), asRiggingPoint(hung))[2];
}

/** Side of the ground that one of the places stands for, m. */
export function seedSpacingM(found: readonly FoundStands[], places: number): number {
  const [first] = found;
  if (!first) return 1;
  const { cellM } = first.asked.question.steps;
  const fitting = first.bands.reduce(
    (n, band) => n + band.status.reduce((m, s) => m + (STAND_STATUSES[s] === "rejected" ? 0 : 1), 0),
    0,
  );
  return Math.max(cellM, cellM * Math.sqrt(fitting / places));
}
