import { poseAerial } from "@gantline/engine";
import { assess, judgeMoving, judgeStanding } from "../assess.ts";
import type { Finding } from "../judge.ts";
import { swingsOf } from "../let-outs.ts";
import type { Stage } from "../schema/evolution.ts";
import type { Plan } from "../schema/plan.ts";
import type { Situation } from "../situation.ts";
import type { Stand } from "../stand-aerial.ts";
import { appliesInStage } from "./applies-in-stage.ts";
import type { Moment, Unsettled, When } from "./evolution-types.ts";
import { noteFigures } from "./figures.ts";
import { whereToLook } from "./find-peaks.ts";
import { type MomentFault, momentFaults } from "./moment-faults.ts";
import { momentPlan, stageWay, wayLengthM } from "./moment-plan.ts";
import { type SeriesTable, seriesTable } from "./series-table.ts";
import { type MomentSwings, type StageLetOuts, stageLetOuts } from "./stage-let-outs.ts";
import { type WorkPoint, workPoint } from "./stage-work.ts";
import { keepWorst, type WorstKeeper, worstOf } from "./worst-checks.ts";

/** Moments to begin with: one each quarter of a metre of the load's way, or so many over the whole evolution. */
export const STEP_M = 0.25;
const LEAST_MOMENTS = 200;
/** And in a stage that goes anywhere, within these bounds. */
const LEAST_STEPS = 8;
const MOST_STEPS = 80;
/** A ladder that moves is seen each time its tip has gone so far, m: what it comes near to is larger than a load's surroundings. */
const TIP_STEP_M = 0.5;
/** A change is found to within this share of the stage. */
const CHANGE_WITHIN = 2e-3;
/** Further looks for peaks in one stage, at most. */
const MOST_LOOKS = 60;

/** What the sweep of a stage gathers over its moments. */
export interface Gathered {
  readonly worst: WorstKeeper;
  readonly figures: SeriesTable;
  /** Ratio of each check, by its id. */
  readonly ratios: SeriesTable;
}

/** One solved moment, with what the sweep keeps of it. */
export interface Swept {
  readonly moment: Omit<Moment, "at" | "problems">;
  readonly ratios: readonly number[];
  readonly figures: readonly number[];
  readonly work: WorkPoint | null;
  readonly faults: readonly MomentFault[];
  readonly swings: MomentSwings;
  /** How the rig works then: where it changes, figures may jump. */
  readonly mode: string;
}

/** A stage as it was swept. */
export interface SweptStage extends Gathered {
  readonly moments: readonly Swept[];
  /** Checks whose worst may be more than half a per cent higher than found: the looks for peaks were used up. */
  readonly unsettled: readonly Unsettled[];
  readonly letOuts: StageLetOuts;
}

/**
 * From one moment to the next, m of the load's way, for the whole evolution. Of a row of steps, each a little finer than the one
 * before: where one stage's way is changed a little, the others stay as they were swept.
 */
export function sweepStepM(plan: Plan): number {
  const { stages } = plan.evolution;
  const wholeM = stages.reduce((sum, s, i) => sum + (s.aboard.length > 0 ? wayLengthM(stageWay(plan, i)) : 0), 0);
  if (!(wholeM > 0)) return STEP_M;
  const finer = Math.ceil(STEPS_TO_HALF * Math.log2((STEP_M * LEAST_MOMENTS) / wholeM));
  return STEP_M * 2 ** (-Math.max(0, finer) / STEPS_TO_HALF);
}
const STEPS_TO_HALF = 8;

/**
 * One stage solved along its way: at even steps (of the load's way, and of the tip's where the ladder moves) and where the
 * way bends; then close on both sides of where the rig begins to work in another way (a tether falls slack, the load begins
 * to drift); then wherever a check could peak between two moments (`whereToLook`).
 */
export function sweepStage(plan: Plan, index: number, stepM: number): SweptStage {
  const gathered: Gathered = { worst: keepWorst(), figures: seriesTable(), ratios: seriesTable() };
  const swept = (moments: readonly Swept[], unsettled: readonly Unsettled[] = []): SweptStage => ({
    ...gathered,
    moments,
    unsettled,
    letOuts: stageLetOuts(
      plan,
      moments.map((m) => m.swings),
    ),
  });
  const stage = plan.evolution.stages[index];
  if (!stage) return swept([]);
  // An empty yoke on its way changes nothing that is judged.
  const goesM = stage.aboard.length > 0 ? wayLengthM(stageWay(plan, index)) : 0;
  const asked = Math.ceil(Math.max(goesM > 0 ? goesM / stepM : 0, tipWayM(plan, index) / TIP_STEP_M));
  const solve = momentSolver(plan, stage, index, gathered);
  const steps = asked === 0 ? 1 : Math.min(MOST_STEPS, Math.max(LEAST_STEPS, asked));
  const places = new Set([...Array.from({ length: steps + 1 }, (_, k) => k / steps), ...waypoints(plan, index)]);
  const moments = [...places].sort((a, b) => a - b).map(solve);
  if (asked === 0) return swept(moments);
  findChanges(moments, solve);
  return swept(moments, findPeaks(moments, solve, gathered.ratios));
}

/** How far the tip goes in a stage, m: 0 where the ladder stays as it is. */
function tipWayM(plan: Plan, index: number): number {
  const stage = plan.evolution.stages[index];
  if (stage?.action !== "moveLadder" || stage.pose === null) return 0;
  const tips = Array.from({ length: TIP_CHORDS + 1 }, (_, k) => {
    const { device, place, pose } = momentPlan(plan, { stage: index, along: k / TIP_CHORDS }).aerial;
    return poseAerial(device, place, pose).tip;
  });
  return wayLengthM(tips);
}
const TIP_CHORDS = 16;

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

/**
 * Looks again, check by check, those nearest their limit first, until every peak is known well enough or the looks are used
 * up: by how much what is far over is over, or how little what is far within takes, matters least.
 */
function findPeaks(swept: Swept[], solve: (along: number) => Swept, { ids, value }: SeriesTable): readonly Unsettled[] {
  const unsettled: Unsettled[] = [];
  const highest = (id: string): number => swept.reduce((most, s) => Math.max(most, value(s.ratios, id) ?? 0), 0);
  const order = ids()
    .flatMap((id) => {
      const most = highest(id);
      return most > 0 ? [{ id, fromLimit: Math.abs(Math.log(most)) }] : [];
    })
    .sort((a, b) => a.fromLimit - b.fromLimit);
  let pieces = piecesOf(swept);
  let looks = 0;
  for (const { id } of order) {
    while (!isFlat(swept, (s) => value(s.ratios, id))) {
      const look = whereToLook(
        swept.map((s, i) => ({ along: s.moment.when.along, value: value(s.ratios, id), piece: pieces[i] ?? 0 })),
      );
      if (look === null) break;
      if (looks >= MOST_LOOKS) {
        unsettled.push({ checkId: id, found: highest(id), couldBe: look.value });
        break;
      }
      looks++;
      swept.splice(
        swept.findIndex((s) => s.moment.when.along > look.along),
        0,
        solve(look.along),
      );
      pieces = piecesOf(swept);
    }
  }
  return unsettled;
}

/** The same at every moment: nothing to look for. */
function isFlat(swept: readonly Swept[], figure: (one: Swept) => number | null): boolean {
  const first = swept[0] ? figure(swept[0]) : null;
  return first !== null && swept.every((one) => figure(one) === first);
}

/** Number of each moment's piece: a new one begins where the rig begins to work in another way. */
function piecesOf(swept: readonly Swept[]): readonly number[] {
  let piece = 0;
  return swept.map((s, i) => (i > 0 && s.mode !== swept[i - 1]?.mode ? ++piece : piece));
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
  let standing: readonly Finding[] | null = null;
  return (along) => {
    const when: When = { stage: index, along };
    const situation = assess(momentPlan(plan, when), [], ladderMoves ? null : stand, true);
    if (standing === null || ladderMoves) standing = judgeStanding(situation).filter(applies);
    stand = situation.stand;
    const moving = judgeMoving(situation).filter(applies);
    const checks = [...standing, ...moving];
    gathered.worst.see(checks, when);
    const ratios = gathered.ratios.row();
    for (const found of checks)
      gathered.ratios.note(ratios, found.id, () => ({ label: found.words().subject, quantity: "ratio" }), found.ratio);
    const figures = gathered.figures.row();
    const swings = empty ? [] : swingsOf(situation);
    noteFigures(gathered.figures, figures, situation, empty);
    for (const { lineId, name, swing } of swings)
      gathered.figures.note(
        figures,
        `swing/${lineId}`,
        () => ({ label: `${name} let go, swing from plumb`, quantity: "length" }),
        swing?.amplitudeM ?? null,
      );
    return {
      moment: {
        when,
        wanted: situation.load.wanted,
        yoke: situation.load.yoke,
        holds: empty ? "held" : situation.holding.state,
        worst: worstOf(
          ladderMoves ? checks : [...standing.filter(isFault), ...moving.filter((c) => !isSame(c, plan) || isFault(c))],
        ),
      },
      ratios,
      figures,
      work: empty ? null : workPoint(situation),
      faults: empty ? [] : momentFaults(situation),
      swings: { when, geometry: situation.geometry, swings },
      mode: empty ? "" : modeOf(situation),
    };
  };
}

/** What is the same at every moment of a stage says which is worst only where it is a fault. */
const isFault = ({ status }: Finding): boolean => status === "over" || status === "unknown";

/** The rope of the tether's tackle is brought for the tackle run out: the same at every moment. */
const isSame = ({ id }: Finding, { rig }: Plan): boolean =>
  rig.tether !== null && id === `rope-length/${rig.tether.id}`;

/** How the rig works: whether the load is held, or down, which main lines are slack, whether the tether's pulley is pulled, and into what. */
const modeOf = ({ holding, state }: Situation): string => {
  if (state === null) return holding.state;
  const { groundN, mains, tether } = state;
  const slack = mains.map(({ tensionsN }) => (tensionsN.raise[0] === 0 ? "slack" : "taut"));
  return [holding.state, groundN !== null, ...slack, tether?.pulled, tether?.against].join(" ");
};
