import { compileQuestion } from "./compile-question.ts";
import { codeOf } from "./finding.ts";
import { better, isLessBetter, type Score, standScorer } from "./score-stand.ts";
import { standAt } from "./stand-at.ts";
import { STAND_STATUSES, type StandBand, type StandFigure } from "./stand-band.ts";
import { cellMiddle, standGrid } from "./stand-grid.ts";
import type { StandCandidate, StandQuestion } from "./stand-question.ts";

export interface RefinedStand extends StandCandidate {
  /** The figure it was refined by, in its own unit. */
  readonly figure: number;
}

export interface RefineOptions {
  /** From how many cells to start, besides those between cells; left out: 16. */
  readonly starts?: number;
  /** Asked before each start; true ends the search with what was found. */
  readonly cancelled?: () => boolean;
}

/**
 * What is the best stand by one figure, no longer bound to the grid?
 *
 * Goes from the best cells of a search, and from rejected ones that come nearest to passing, by pattern search: place,
 * heading, and the place and height the point hangs at are tried a step to every side, and the steps are halved where none
 * is better. First whatever speaks against it is made less, then the figure better. A rating that is not enough is made less by
 * the way to a pose that is rated for the load: the load it lacks changes by steps and leads nowhere. No proof of the best: between cells
 * of the search there may be a pocket that no start leads into. Only feasible stands count; `null` if none was found.
 */
export function refineStand(
  question: StandQuestion,
  band: StandBand,
  figure: StandFigure,
  options: RefineOptions = {},
): RefinedStand | null {
  const { starts = 16, cancelled } = options;
  const score = standScorer(compileQuestion(question), figure);
  const sign = isLessBetter(figure) ? -1 : 1;
  // The rated load changes by steps, which no small change foretells; it is mostly more where the ladder is short or steep.
  const ways: readonly StandFigure[] = figure === "leastUsed" ? ["shortest", "steepest"] : [];
  const led = ways.flatMap((way) => refineStand(question, band, way, options) ?? []);
  const rough: Scored[] = [];
  for (const start of [...led, ...startsOf(question, band, figure, sign, starts), ...between(question, band, score)]) {
    if (cancelled?.()) break;
    rough.push(patternSearch(question, start, score, HALVINGS_AT_FIRST));
  }
  rough.sort((a, b) => (better(a, b) ? -1 : better(b, a) ? 1 : 0));
  // Once more from the best: with steps as wide as at first they may get past what held them up.
  const fine = rough.slice(0, FOLLOWED).map((start) => patternSearch(question, start, score, HALVINGS));
  const best = fine.reduce<Scored | null>((so, one) => (so === null || better(one, so) ? one : so), null);
  if (best === null || best.miss > 0) return null;
  const { turntable, headingRad, point, good } = best;
  return { turntable, headingRad, point, figure: sign * good };
}

type Scored = StandCandidate & Score;
type Scorer = ReturnType<typeof standScorer>;

const OFF_PARKING = codeOf("offParking");

/** The best cells by the figure and the rejected ones nearest to passing, a third of these, none next to another. */
function startsOf(
  question: StandQuestion,
  band: StandBand,
  figure: StandFigure,
  sign: number,
  count: number,
): readonly StandCandidate[] {
  const { figure: values, candidate } = band.best[figure];
  const all = Array.from(band.cells, (cell, i) => ({ cell, i }));
  const feasible = all
    .filter(({ i }) => STAND_STATUSES[band.status[i] as number] === "feasible" && (candidate[i] as number) >= 0)
    .sort((a, b) => sign * ((values[b.i] as number) - (values[a.i] as number)));
  const rejected = all
    .filter(({ i }) => STAND_STATUSES[band.status[i] as number] === "rejected" && band.check[i] !== OFF_PARKING)
    .sort((a, b) => (band.miss[a.i] as number) - (band.miss[b.i] as number));
  const grid = standGrid(question);
  const taken: StandCandidate[] = [];
  const takeFrom = (cells: typeof all, upTo: number): void => {
    for (const { cell, i } of cells) {
      if (taken.length >= upTo) return;
      const [x, y] = cellMiddle(grid, cell);
      const apart = (t: StandCandidate): boolean =>
        Math.hypot(t.turntable[0] - x, t.turntable[1] - y) > 1.5 * grid.cellM;
      if (taken.every(apart)) taken.push(standAt(question, cell, candidate[i] as number) ?? plainStart(question, x, y));
    }
  };
  takeFrom(feasible, Math.ceil((2 * count) / 3));
  takeFrom(rejected, count);
  return taken;
}

/** Between neighbours there may be a strip that neither cell shows: so many places between them are started from. */
const PLACES_BETWEEN = 4;
const MOST_PAIRS = 1000;

/** Middles between neighbouring cells rejected for different reasons, the best of them by a few poses each, none near another. */
function between(question: StandQuestion, band: StandBand, score: Scorer): readonly StandCandidate[] {
  const grid = standGrid(question);
  const entryOf = new Map(Array.from(band.cells, (cell, i) => [cell, i] as const));
  const isNear = (i: number): boolean =>
    STAND_STATUSES[band.status[i] as number] === "rejected" && band.check[i] !== OFF_PARKING;
  const pairs = Array.from(band.cells, (cell, i) => ({ cell, i })).flatMap(({ cell, i }) => {
    if (!isNear(i)) return [];
    const east = (cell + 1) % grid.columns === 0 ? [] : [cell + 1];
    return [...east, cell + grid.columns].flatMap((other) => {
      const k = entryOf.get(other);
      if (k === undefined || !isNear(k) || band.check[k] === band.check[i]) return [];
      const [a, b] = [cellMiddle(grid, cell), cellMiddle(grid, other)];
      const miss = Math.max(band.miss[i] as number, band.miss[k] as number);
      return [{ x: (a[0] + b[0]) / 2, y: (a[1] + b[1]) / 2, miss }];
    });
  });
  const { minZM, maxZM, xM, yM } = question.target;
  const tried = pairs
    .sort((a, b) => a.miss - b.miss)
    .slice(0, MOST_PAIRS)
    .map(({ x, y }) =>
      [0, 1, 2, 3]
        .flatMap((h) =>
          [maxZM, (minZM + maxZM) / 2, minZM].map((z) => {
            const candidate: StandCandidate = { turntable: [x, y], headingRad: (h * Math.PI) / 4, point: [xM, yM, z] };
            return { ...candidate, ...score(candidate) };
          }),
        )
        .reduce((a, b) => (better(b, a) ? b : a)),
    )
    .sort((a, b) => (better(a, b) ? -1 : better(b, a) ? 1 : 0));
  const kept: Scored[] = [];
  for (const one of tried) {
    if (kept.length === PLACES_BETWEEN) break;
    const [x, y] = one.turntable;
    if (kept.every((k) => Math.hypot(k.turntable[0] - x, k.turntable[1] - y) > 1.5 * grid.cellM)) kept.push(one);
  }
  return kept;
}

function plainStart({ target }: StandQuestion, x: number, y: number): StandCandidate {
  return { turntable: [x, y], headingRad: 0, point: [target.xM, target.yM, target.maxZM] };
}

/** Steps are halved this often: the last are a thousandth of the first. Roughly at first, to see which starts lead where. */
const HALVINGS = 10;
const HALVINGS_AT_FIRST = 3;
/** How many of the starts are followed to the end. */
const FOLLOWED = 4;
/** Rounds in vain before the steps are halved; the bearings tried are turned from round to round. */
const ROUNDS_IN_VAIN = 3;
const MOST_ROUNDS = 200;
/** From round to round, by the golden part of the eighth between two: so that they soon come near every bearing, rad. */
const TURN_RAD = ((Math.PI / 4) * (Math.sqrt(5) - 1)) / 2;

/** What a step changes: each of these is taken along eight bearings. */
const STEPS = [
  { place: 1, heading: 0, point: 0, height: 0 },
  { place: 1, heading: 0, point: 0, height: 1 },
  { place: 1, heading: 0, point: 0, height: -1 },
  { place: 1, heading: 1, point: 0, height: 0 },
  { place: 1, heading: -1, point: 0, height: 0 },
  { place: 1, heading: 0, point: 1, height: 0 },
  { place: 0, heading: 0, point: 1, height: 0 },
  { place: 0, heading: 0, point: 0, height: 1 },
  { place: 0, heading: 0, point: 0, height: -1 },
  { place: 0, heading: 1, point: 0, height: 0 },
  { place: 0, heading: -1, point: 0, height: 0 },
] as const;

/** A step that leads to something better is taken again at once, for as long as it does. */
function patternSearch(
  { target, steps }: StandQuestion,
  start: StandCandidate,
  score: Scorer,
  halvings: number,
): Scored {
  let at: Scored = { ...start, ...score(start) };
  for (let h = 1; h < 8; h++) tryNext({ ...start, headingRad: start.headingRad + (h * Math.PI) / 4 });
  let scale = 1;
  let turnRad = 0;
  let inVain = 0;
  for (let round = 0; round < MOST_ROUNDS && scale > 2 ** -halvings; round++) {
    const before = at;
    for (const step of STEPS) {
      const bearings = step.place || step.point ? 8 : 1;
      for (let b = 0; b < bearings; b++) {
        const bearingRad = turnRad + (b * Math.PI) / 4;
        while (tryNext(moved(at, step, bearingRad, scale)));
      }
    }
    inVain = at === before ? inVain + 1 : 0;
    if (inVain === ROUNDS_IN_VAIN) {
      scale /= 2;
      inVain = 0;
    }
    turnRad += TURN_RAD;
  }
  return at;

  /** Goes there if it is better. */
  function tryNext(candidate: StandCandidate): boolean {
    const next = score(candidate, at);
    if (!better(next, at)) return false;
    at = { ...candidate, ...next };
    return true;
  }

  function moved(
    { turntable, headingRad, point }: StandCandidate,
    { place, heading, point: aside, height }: (typeof STEPS)[number],
    bearingRad: number,
    by: number,
  ): StandCandidate {
    const east = Math.sin(bearingRad) * by;
    const north = Math.cos(bearingRad) * by;
    const far = steps.cellM * place;
    const z = point[2] + height * by * (target.maxZM - target.minZM);
    const across = target.toleranceM * aside;
    const [px, py] = across > 0 ? withinTolerance(point[0] + across * east, point[1] + across * north) : point;
    return {
      turntable: [turntable[0] + far * east, turntable[1] + far * north],
      headingRad: headingRad + (heading * by * Math.PI) / 4,
      point: [px, py, Math.min(target.maxZM, Math.max(target.minZM, z))],
    };
  }

  function withinTolerance(px: number, py: number): readonly [number, number] {
    const east = px - target.xM;
    const north = py - target.yM;
    const far = Math.hypot(east, north);
    if (far <= target.toleranceM) return [px, py];
    const share = target.toleranceM / far;
    return [target.xM + east * share, target.yM + north * share];
  }
}
