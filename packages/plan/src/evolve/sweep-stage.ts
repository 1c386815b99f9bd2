import { assess, judgeMoving, judgeStanding } from "../assess.ts";
import type { Check } from "../check.ts";
import type { Stage } from "../schema/evolution.ts";
import type { Plan } from "../schema/plan.ts";
import type { Situation } from "../situation.ts";
import type { Stand } from "../stand-aerial.ts";
import { appliesInStage } from "./applies-in-stage.ts";
import type { Moment, StageProblem, When } from "./evolution-types.ts";
import { noteFigures } from "./figures.ts";
import { whereToLook } from "./find-peaks.ts";
import { momentPlan, stageWay, wayLengthM } from "./moment-plan.ts";
import type { SeriesTable } from "./series-table.ts";
import { momentProblem } from "./stage-problems.ts";
import { type WorkPoint, workPoint } from "./stage-work.ts";
import { type WorstKeeper, worstOf } from "./worst-checks.ts";

/** Moments of a stage to begin with: one each quarter of a metre of its way, within these bounds. */
const STEP_M = 0.25;
const LEAST_STEPS = 8;
const MOST_STEPS = 80;
/** A change is found to within this share of the stage. */
const CHANGE_WITHIN = 2e-3;
/** Further looks for a peak in one stage, at most. */
const MOST_LOOKS = 40;

/** What a sweep gathers over all its stages. */
export interface Gathered {
  readonly worst: WorstKeeper;
  readonly figures: SeriesTable;
  /** Ratio of each check, by its id. */
  readonly ratios: SeriesTable;
}

/** One solved moment, with what the sweep keeps of it. */
export interface Swept {
  readonly moment: Omit<Moment, "at">;
  readonly ratios: readonly number[];
  readonly figures: readonly number[];
  readonly work: WorkPoint | null;
  readonly problem: StageProblem | null;
  /** How the rig works then: where it changes, figures may jump. */
  readonly mode: string;
}

/**
 * One stage solved along its way: at even steps and where the way bends; then close on both sides of where the rig begins to
 * work in another way (a tether falls slack, the load begins to drift); then wherever a check could peak between two
 * moments (`whereToLook`).
 */
export function sweepStage(plan: Plan, index: number, gathered: Gathered): readonly Swept[] {
  const stage = plan.evolution.stages[index];
  if (!stage) return [];
  const pathM = wayLengthM(stageWay(plan, index));
  const moves = pathM > 0 || stage.action === "moveLadder";
  const steps = moves ? Math.min(MOST_STEPS, Math.max(LEAST_STEPS, Math.ceil(pathM / STEP_M))) : 1;
  const solve = momentSolver(plan, stage, index, gathered);
  const places = new Set([...Array.from({ length: steps + 1 }, (_, k) => k / steps), ...waypoints(plan, index)]);
  const swept = [...places].sort((a, b) => a - b).map(solve);
  if (!moves) return swept;
  findChanges(swept, solve);
  findPeaks(swept, solve, gathered.ratios);
  return swept;
}

/** Closes in on every place where the way the rig works changes, from both sides. */
function findChanges(swept: Swept[], solve: (along: number) => Swept): void {
  for (let i = 1; i < swept.length; i++) {
    for (;;) {
      const [a, b] = [swept[i - 1], swept[i]];
      if (!a || !b || a.mode === b.mode || b.moment.when.along - a.moment.when.along < CHANGE_WITHIN) break;
      const middle = solve((a.moment.when.along + b.moment.when.along) / 2);
      swept.splice(i, 0, middle);
      if (middle.mode === a.mode) i++;
    }
  }
}

/** Looks again, check by check, until every peak is known well enough. */
function findPeaks(swept: Swept[], solve: (along: number) => Swept, { ids, value }: SeriesTable): void {
  let looks = 0;
  for (const id of ids()) {
    const samples = swept.map((s) => ({ along: s.moment.when.along, value: value(s.ratios, id) }));
    while (looks < MOST_LOOKS) {
      const along = whereToLook(samples);
      if (along === null) break;
      looks++;
      const found = solve(along);
      const place = samples.findIndex((s) => s.along > along);
      samples.splice(place, 0, { along, value: value(found.ratios, id) });
      swept.splice(place, 0, found);
    }
  }
}

/** Where the way bends, as shares of it: a figure can peak there between two even steps. */
function waypoints(plan: Plan, index: number): readonly number[] {
  const way = stageWay(plan, index);
  const whole = wayLengthM(way);
  return whole > 0 ? way.slice(1, -1).map((_, k) => wayLengthM(way.slice(0, k + 2)) / whole) : [];
}

/** Solves the moments of one stage. What does not change along a stage with the ladder still is worked once. */
function momentSolver(plan: Plan, stage: Stage, index: number, gathered: Gathered): (along: number) => Swept {
  const empty = stage.aboard.length === 0;
  const ladderMoves = stage.action === "moveLadder";
  const applies = appliesInStage(stage);
  let stand: Stand | null = null;
  let standing: readonly Check[] | null = null;
  return (along) => {
    const when: When = { stage: index, along };
    const situation = assess(momentPlan(plan, when), [], ladderMoves ? null : stand);
    if (standing === null || ladderMoves) standing = judgeStanding(situation).filter(applies);
    stand = situation.stand;
    const moving = judgeMoving(situation).filter(applies);
    const checks = [...standing, ...moving];
    gathered.worst.see(checks, when);
    const ratios = gathered.ratios.row();
    for (const c of checks) gathered.ratios.note(ratios, { id: c.id, label: c.subject, quantity: "ratio" }, c.ratio);
    const figures = gathered.figures.row();
    noteFigures(gathered.figures, figures, situation, empty);
    return {
      moment: {
        when,
        wanted: situation.load.wanted,
        yoke: situation.load.yoke,
        holds: empty ? "held" : situation.holding.state,
        worst: worstOf(ladderMoves ? checks : [...standing.filter(isFault), ...moving]),
      },
      ratios,
      figures,
      work: empty ? null : workPoint(situation),
      problem: empty ? null : momentProblem(situation, when),
      mode: empty ? "" : modeOf(situation),
    };
  };
}

/** What is the same at every moment of a stage says which is worst only where it is a fault. */
const isFault = ({ status }: Check): boolean => status === "over" || status === "unknown";

/** How the rig works: whether the load is held, whether the tether's pulley is pulled along the ropes, and into what. */
const modeOf = ({ holding, state }: Situation): string =>
  `${holding.state} ${state?.tether ? `${state.tether.pulled} ${state.tether.against}` : ""}`;
