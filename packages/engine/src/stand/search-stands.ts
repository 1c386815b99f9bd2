import { bodyCheck } from "./check-body.ts";
import { ladderCheck } from "./check-ladder.ts";
import { type CompiledQuestion, compileQuestion } from "./compile-question.ts";
import { clearFinding, codeOf, copyFinding, emptyFinding, MOST_MISS, UNTOLD } from "./finding.ts";
import { heightGaps, outcomeOf } from "./height-gaps.ts";
import { STAND_FIGURES, STAND_STATUSES, type StandBand, type StandFigure } from "./stand-band.ts";
import { passCells, type StandPass, WHOLE_PASS } from "./stand-grid.ts";
import type { StandQuestion } from "./stand-question.ts";
import { HEIGHT_PARTS, heightsTold, turnTipPlaces } from "./stand-steps.ts";

export interface StandSearch {
  /** Rows of the grid from here up to, but without, `toRow`. */
  readonly fromRow: number;
  readonly toRow: number;
  /** Which cells of these rows; left out: all. */
  readonly pass?: StandPass;
  /** Asked every few cells, some milliseconds apart at most; true ends the search. */
  readonly cancelled?: () => boolean;
}

const FEASIBLE = STAND_STATUSES.indexOf("feasible");
const UNKNOWN = STAND_STATUSES.indexOf("unknown");
const REJECTED = STAND_STATUSES.indexOf("rejected");

const NOTHING_HOLDS = codeOf("nothingHolds");

/** Cells between two questions whether to go on. */
const POLLED_EVERY = 16;

/**
 * From which turntable places of some rows can the point be hung over the target, how, and why not from the others?
 *
 * Tries every heading × place to hang from × height of the question at every cell, and where none of these heights will
 * do, heights between those that fail in different ways. A candidate is rejected if any check
 * fails, unknown if none fails but one cannot be told, feasible if all pass. What is wrong with a rejected cell is what
 * its candidate nearest to passing misses most, relative to the limit.
 * Vehicle and ladder are judged apart, as no check holds one against the other: the candidates of a cell are all pairs.
 * Exact to rounding at the places tried: bounds only spare work. Cells stand for themselves, so bands and passes may be
 * searched anywhere and in any order. Returns `null` if cancelled; throws a `RangeError` for an outline that is none.
 */
export function searchStands(question: StandQuestion, search: StandSearch): StandBand | null {
  return standSearcher(question)(search);
}

/** `searchStands` for one question in many pieces: what is laid out for it is laid out once. */
export function standSearcher(question: StandQuestion): (search: StandSearch) => StandBand | null {
  const compiled = compileQuestion(question);
  const judge = cellJudge(compiled);
  return ({ fromRow, toRow, pass = WHOLE_PASS, cancelled }) => {
    const cells = passCells(compiled.grid, fromRow, toRow, pass);
    const band = emptyBand(cells);
    for (let i = 0; i < cells.length; i++) {
      if (i % POLLED_EVERY === 0 && cancelled?.()) return null;
      judge(band, i);
    }
    return band;
  };
}

/** Judges the `i`th cell of a band and writes it there. */
function cellJudge(compiled: CompiledQuestion): (band: StandBand, i: number) => void {
  const { question, grid, headings, tips, heights } = compiled;
  const { target } = question;
  const clearanceKnown =
    compiled.unknownWire < 0 && (question.ladderClearanceM !== null || compiled.obstacles.count === 0);
  const body = bodyCheck(compiled);
  const ladder = ladderCheck(compiled);
  const finding = emptyFinding();
  const bodyNearest = emptyFinding();
  const ladderNearest = emptyFinding();
  /** Of feasible poses, and of unknown ones: the best figure so far, and its tip place × heights told apart + height. */
  const best = [bestPoses(), bestPoses()];
  const told = heightsTold(heights.length);
  const step = heights.length > 1 ? (target.maxZM - target.minZM) / (heights.length - 1) : 0;
  const gaps = heightGaps(tips.x.length, heights.length);
  const posed = { feasible: 0, unknown: 0 };
  /** Which heading, and which tip place × heights told apart + height, the nearest are of. */
  const nearestOf = { heading: 0, pose: 0 };
  const oneHeight = new Float64Array(1);

  function judgeBody(): { feasible: number; unknown: number; firstFeasible: number; firstUnknown: number } {
    const found = { feasible: 0, unknown: 0, firstFeasible: -1, firstUnknown: -1 };
    bodyNearest.miss = MOST_MISS + 1;
    for (let h = 0; h < headings.rad.length; h++) {
      clearFinding(finding);
      body.facing(headings.rad[h] as number, headings.sin[h] as number, headings.cos[h] as number, finding);
      if (finding.miss < bodyNearest.miss) {
        copyFinding(bodyNearest, finding);
        nearestOf.heading = h;
      }
      if (finding.miss > 0) continue;
      if (finding.open === 0) {
        if (found.feasible++ === 0) found.firstFeasible = h;
      } else if (found.unknown++ === 0) found.firstUnknown = h;
    }
    return found;
  }

  function judgeLadder(): void {
    posed.feasible = 0;
    posed.unknown = 0;
    ladderNearest.miss = MOST_MISS + 1;
    gaps.clear();
    for (const b of best) clearBest(b);
    for (let t = 0; t < tips.x.length; t++) {
      if (!aim(t, heights)) continue;
      for (let z = 0; z < heights.length; z++) {
        judgePose(t, z, z * HEIGHT_PARTS);
        if (posed.feasible + posed.unknown === 0) gaps.note(t, z, finding);
        if (bodyGoverns()) return;
      }
    }
    if (posed.feasible + posed.unknown === 0) gaps.look(tryBetween);
  }

  function aim(t: number, over: Float64Array): boolean {
    clearFinding(finding);
    if (ladder.toward(target.xM + (tips.x[t] as number), target.yM + (tips.y[t] as number), over, finding)) return true;
    if (finding.miss < ladderNearest.miss) noteNearest(t * told);
    return false;
  }

  function noteNearest(pose: number): void {
    copyFinding(ladderNearest, finding);
    nearestOf.pose = pose;
  }

  /** The vehicle misses by no less than the ladder: what governs no longer changes. */
  const bodyGoverns = (): boolean => bodyNearest.miss > 0 && ladderNearest.miss <= bodyNearest.miss;

  function tryBetween(t: number, part: number): number {
    if (bodyGoverns()) return 0;
    oneHeight[0] = target.maxZM - (step * part) / HEIGHT_PARTS;
    if (!aim(t, oneHeight)) return outcomeOf(finding);
    judgePose(t, 0, part);
    return outcomeOf(finding);
  }

  /** Judges the `z`th pose of what was aimed; `part` is its height, told apart. */
  function judgePose(t: number, z: number, part: number): void {
    clearFinding(finding);
    finding.enough = Math.max(ladderNearest.miss, Number.MIN_VALUE);
    ladder.pose(z, finding);
    if (finding.miss > 0) {
      if (finding.miss < ladderNearest.miss) noteNearest(t * told + part);
      return;
    }
    if (ladderNearest.miss > 0 || (ladderNearest.open !== 0 && finding.open === 0)) copyFinding(ladderNearest, finding);
    if (bodyNearest.miss > 0) return;
    if (finding.open === 0) posed.feasible++;
    else posed.unknown++;
    if (finding.open === 0) compare(best[0] as BestPoses, t * told + part, z);
    else if (posed.feasible === 0) compare(best[1] as BestPoses, t * told + part, z);
  }

  function compare(b: BestPoses, pose: number, z: number): void {
    take(b, 0, ladder.family.elevationRad[z] as number, pose);
    take(b, 1, -(ladder.family.lengthM[z] as number), pose);
    const used = ladder.used(z);
    if (used >= 0) take(b, 2, -used, pose);
    const clearest = b.candidate[3] === -1 ? -1 : (b.figure[3] as number);
    if (clearanceKnown && clearest < question.clearanceCountedM) take(b, 3, ladder.spare(z, clearest), pose);
  }

  return (band, i) => {
    const cell = band.cells[i] as number;
    const row = Math.floor(cell / grid.columns);
    const x = grid.westM + (cell - row * grid.columns + 0.5) * grid.cellM;
    const y = grid.southM + (row + 0.5) * grid.cellM;
    clearFinding(finding);
    if (!body.at(x, y, finding)) {
      band.status[i] = REJECTED;
      writeFailure(band, i, finding);
      return;
    }
    const facing = judgeBody();
    ladder.at(x, y, body.groundZM, target.toleranceM, target.minZM, target.maxZM);
    turnTipPlaces(tips, target.toleranceM, x - target.xM, y - target.yM);
    judgeLadder();
    band.feasibleCount[i] = facing.feasible * posed.feasible;
    const untold = (facing.feasible + facing.unknown) * (posed.feasible + posed.unknown);
    band.unknownCount[i] = untold - (band.feasibleCount[i] as number);
    if (untold === 0) {
      band.status[i] = REJECTED;
      writeFailure(band, i, bodyNearest.miss >= ladderNearest.miss ? bodyNearest : ladderNearest);
      band.nearest[i] = nearestOf.heading * tips.x.length * told + nearestOf.pose;
      return;
    }
    const feasible = (band.feasibleCount[i] as number) > 0;
    band.status[i] = feasible ? FEASIBLE : UNKNOWN;
    if (!feasible) writeOpen(band, i, facing.feasible === 0 ? bodyNearest : ladderNearest);
    const heading = facing.firstFeasible >= 0 ? facing.firstFeasible : facing.firstUnknown;
    writeBest(band, i, (posed.feasible > 0 ? best[0] : best[1]) as BestPoses, heading * tips.x.length * told);
  };
}

/** In the order of `STAND_FIGURES`, each turned so that more is better. */
interface BestPoses {
  readonly figure: Float64Array;
  readonly candidate: Int32Array;
}

const bestPoses = (): BestPoses => ({
  figure: new Float64Array(STAND_FIGURES.length),
  candidate: new Int32Array(STAND_FIGURES.length),
});

function clearBest(best: BestPoses): void {
  best.candidate.fill(-1);
}

function take(best: BestPoses, figure: number, value: number, pose: number): void {
  if (best.candidate[figure] !== -1 && value <= (best.figure[figure] as number)) return;
  best.figure[figure] = value;
  best.candidate[figure] = pose;
}

function writeBest(band: StandBand, i: number, best: BestPoses, first: number): void {
  for (let f = 0; f < STAND_FIGURES.length; f++) {
    const pose = best.candidate[f] as number;
    if (pose < 0) continue;
    const name = STAND_FIGURES[f] as StandFigure;
    const turned = name === "shortest" || name === "leastUsed";
    band.best[name].candidate[i] = first + pose;
    band.best[name].figure[i] = turned ? 0 - (best.figure[f] as number) : (best.figure[f] as number);
  }
}

function writeFailure(band: StandBand, i: number, finding: ReturnType<typeof emptyFinding>): void {
  band.check[i] = finding.check;
  band.value[i] = finding.value;
  band.limit[i] = finding.limit;
  band.known[i] = finding.check === NOTHING_HOLDS && finding.limit === UNTOLD ? 1 : 3;
  band.miss[i] = finding.miss;
  band.thing[i] = finding.thing;
}

function writeOpen(band: StandBand, i: number, finding: ReturnType<typeof emptyFinding>): void {
  const known = (x: number): boolean => x !== UNTOLD;
  band.check[i] = finding.open;
  band.value[i] = known(finding.openValue) ? finding.openValue : 0;
  band.limit[i] = known(finding.openLimit) ? finding.openLimit : 0;
  band.known[i] = (known(finding.openValue) ? 1 : 0) + (known(finding.openLimit) ? 2 : 0);
  band.thing[i] = finding.openThing;
}

function emptyBand(cells: Uint32Array): StandBand {
  const count = cells.length;
  const best = () => ({ figure: new Float64Array(count), candidate: new Int32Array(count).fill(-1) });
  return {
    cells,
    status: new Uint8Array(count),
    feasibleCount: new Uint32Array(count),
    unknownCount: new Uint32Array(count),
    check: new Uint8Array(count),
    value: new Float64Array(count),
    limit: new Float64Array(count),
    known: new Uint8Array(count),
    miss: new Float64Array(count),
    thing: new Int32Array(count).fill(-1),
    nearest: new Int32Array(count).fill(-1),
    best: { steepest: best(), shortest: best(), leastUsed: best(), clearest: best() },
  };
}
