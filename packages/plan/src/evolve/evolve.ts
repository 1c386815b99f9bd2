import { asSite } from "@gantline/engine";
import { assess, judgeMoving, judgeStanding } from "../assess.ts";
import type { Check, Status } from "../check.ts";
import { findProblems } from "../find-problems.ts";
import { declare, rankOf, worstFirst } from "../judge.ts";
import type { Stage } from "../schema/evolution.ts";
import type { Plan } from "../schema/plan.ts";
import type { Evolution, Moment, StageProblem, StageResult, TimedCheck, When } from "./evolution-types.ts";
import { type Figures, figuresOf, findSeries } from "./figures.ts";
import { whereToLook } from "./find-peaks.ts";
import { freeRope } from "./free-rope.ts";
import { momentPlan, stageStart, stageWay, wayLengthM } from "./moment-plan.ts";
import { momentProblem, writtenProblems } from "./stage-problems.ts";
import { stageWork, type WorkPoint, workPoint } from "./stage-work.ts";

/** Moments of a stage to begin with: one each quarter of a metre of its way, within these bounds. */
const STEP_M = 0.25;
const LEAST_STEPS = 8;
const MOST_STEPS = 80;
/** Further looks for a peak in one stage, at most. */
const MOST_LOOKS = 40;

/** Rules that hold of the vehicle and the ladder alone: the only ones for a stage with nothing on the ropes. */
const STAND_RULES: ReadonlySet<string> = new Set([
  "reach",
  "elevation",
  "wind",
  "jacks",
  "parking",
  "lock-out",
  "example-data",
]);
const holdsWithoutLoad = (c: Check): boolean =>
  STAND_RULES.has(c.rule) ||
  c.id.startsWith("clearance/ladder/") ||
  /^power-line\/power\/(ladder|vehicle)\//.test(c.id);

/** One solved moment, with what the sweep keeps of it. */
interface Swept {
  readonly moment: Omit<Moment, "at">;
  readonly ratios: ReadonlyMap<string, number | null>;
  readonly checks: readonly Check[];
  readonly figures: Figures;
  readonly work: WorkPoint | null;
  readonly problem: StageProblem | null;
}

/**
 * The whole evolution from ground to ground: every stage solved along its way, every check at its worst.
 *
 * Each stage is solved at even steps, then again wherever a check could peak between two of them by more than half a
 * per cent (`whereToLook`), so that each worst ratio is found to within 1 % of its true value. A moment is
 * `momentPlan` judged by the rules that judge a single position; stages and moments that cannot be solved are said, and
 * the rest is still worked. A plan without stages gives none.
 */
export function evolve(plan: Plan): Evolution {
  const problems = findProblems(plan);
  const swept = plan.evolution.stages.map((_, i) => sweepStage(plan, i));
  const results: StageResult[] = [];
  const moments: Moment[] = [];
  const count = Math.max(1, swept.length);
  for (const [i, stage] of plan.evolution.stages.entries()) {
    const own = swept[i] ?? [];
    const first = moments.length;
    for (const s of own) moments.push({ ...s.moment, at: (i + s.moment.when.along) / count });
    results.push(stageResult(plan, i, stage, own, [first, moments.length - 1]));
  }
  const all = swept.flat();
  const ledger = [...worstChecks(all), ...results.flatMap((r, i) => problemChecks(plan, i, r.problems))].sort(
    worstFirst,
  );
  const deciding = ledger.find((c) => c.counts);
  return {
    problems,
    stages: results,
    moments,
    ledger,
    worst: {
      status: deciding?.status ?? "unknown",
      ratio: deciding?.ratio ?? null,
      checkId: deciding?.id ?? null,
      when: deciding?.when ?? null,
    },
    series: findSeries(
      all.map((s) => s.figures),
      all.map((s) => s.ratios),
      ledger,
    ),
  };
}

function sweepStage(plan: Plan, index: number): readonly Swept[] {
  const stage = plan.evolution.stages[index];
  if (!stage) return [];
  const pathM = wayLengthM(stageWay(plan, index));
  const moves = pathM > 0 || stage.action === "moveLadder";
  const steps = moves ? Math.min(MOST_STEPS, Math.max(LEAST_STEPS, Math.ceil(pathM / STEP_M))) : 1;
  const solve = momentSolver(plan, stage, index);
  const places = new Set([...Array.from({ length: steps + 1 }, (_, k) => k / steps), ...waypoints(plan, index)]);
  const swept = [...places].sort((a, b) => a - b).map(solve);
  if (!moves) return swept;
  let looks = 0;
  for (const id of new Set(swept.flatMap((s) => [...s.ratios.keys()]))) {
    const samples = swept.map((s) => ({ along: s.moment.when.along, value: s.ratios.get(id) ?? null }));
    while (looks < MOST_LOOKS) {
      const along = whereToLook(samples);
      if (along === null) break;
      looks++;
      const found = solve(along);
      const place = samples.findIndex((s) => s.along > along);
      samples.splice(place, 0, { along, value: found.ratios.get(id) ?? null });
      swept.splice(place, 0, found);
    }
  }
  return swept;
}

/** Where the way bends, as shares of it: a figure can peak there between two even steps. */
function waypoints(plan: Plan, index: number): readonly number[] {
  const way = stageWay(plan, index);
  const whole = wayLengthM(way);
  return whole > 0 ? way.slice(1, -1).map((_, k) => wayLengthM(way.slice(0, k + 2)) / whole) : [];
}

/** Solves the moments of one stage. What does not change along a stage with the ladder still is judged once. */
function momentSolver(plan: Plan, stage: Stage, index: number): (along: number) => Swept {
  const empty = stage.aboard.length === 0;
  const ladderMoves = stage.action === "moveLadder";
  const applies = (c: Check): boolean => (!empty || holdsWithoutLoad(c)) && !(ladderMoves && c.rule === "lock-out");
  let standing: readonly Check[] | null = null;
  return (along) => {
    const when: When = { stage: index, along };
    const situation = assess(momentPlan(plan, when), []);
    if (standing === null || ladderMoves) standing = judgeStanding(situation).filter(applies);
    const checks = [...standing, ...judgeMoving(situation).filter(applies)];
    return {
      moment: {
        when,
        wanted: situation.load.wanted,
        yoke: situation.load.yoke,
        holds: empty ? "held" : situation.holding.state,
        worst: worstOf(checks),
      },
      ratios: new Map(checks.map((c) => [c.id, c.ratio])),
      checks,
      figures: figuresOf(situation, empty),
      work: empty ? null : workPoint(situation),
      problem: empty ? null : momentProblem(situation, when),
    };
  };
}

function worstOf(checks: readonly Check[]): Moment["worst"] {
  let worst: Check | null = null;
  for (const c of checks) if (c.counts && isWorse(c, worst)) worst = c;
  return { status: worst?.status ?? "unknown", ratio: worst?.ratio ?? null, checkId: worst?.id ?? null };
}

/** Example data is as unknown at one moment as at the next: it does not say which moment is worst. */
const STANDING = "example-data";

function isWorse(a: Check, b: Check | null): boolean {
  if (b === null) return true;
  const [standsA, standsB] = [a.rule === STANDING, b.rule === STANDING];
  if (standsA !== standsB) return standsB;
  return rankOf(a.status) - rankOf(b.status) < 0 || (a.status === b.status && (a.ratio ?? -1) > (b.ratio ?? -1));
}

/** Every check at its worst over all moments. */
function worstChecks(swept: readonly Swept[]): TimedCheck[] {
  const worst = new Map<string, { readonly check: Check; readonly when: When }>();
  for (const { checks, moment } of swept) {
    for (const check of checks) {
      const known = worst.get(check.id);
      if (!known || isWorse(check, known.check)) worst.set(check.id, { check, when: moment.when });
    }
  }
  return [...worst.values()].map(({ check, when }) => ({ ...check, when: check.rule === STANDING ? null : when }));
}

function stageResult(
  plan: Plan,
  index: number,
  stage: Stage,
  swept: readonly Swept[],
  moments: readonly [number, number],
): StageResult {
  const way = stageWay(plan, index);
  const from = stageStart(plan, index);
  const { structures } = assess(plan, []).geometry;
  const solved = swept.flatMap((s) => (s.problem ? [s.problem] : []));
  const problems = [...writtenProblems(plan, index, structures), ...solved.slice(0, 1)];
  let worst: Swept | null = null;
  for (const s of swept) if (worst === null || worseMoment(s, worst)) worst = s;
  const start: When = { stage: index, along: 0 };
  return {
    stage,
    from,
    to: way.at(-1) ?? from,
    pathM: wayLengthM(way),
    moments,
    worst: worst
      ? { ...worst.moment.worst, when: worst.moment.when }
      : { status: "unknown", ratio: null, checkId: null, when: start },
    problems,
    freeRope: stage.action === "moveLadder" ? freeRope(plan, index) : [],
    work: stageWork(swept.map((s) => s.work)),
  };
}

function worseMoment(a: Swept, b: Swept): boolean {
  const [x, y] = [a.moment.worst, b.moment.worst];
  return rankOf(x.status) < rankOf(y.status) || (x.status === y.status && (x.ratio ?? -1) > (y.ratio ?? -1));
}

/** What is wrong with a stage, as checks of the ledger. */
function problemChecks(plan: Plan, index: number, problems: readonly StageProblem[]): TimedCheck[] {
  const stage = plan.evolution.stages[index];
  return problems.map((p, k) => {
    const status: Status =
      p.field.endsWith(".aboard") && p.says.some((part) => typeof part === "string" && part.includes("not known"))
        ? "unknown"
        : "over";
    const check = declare(
      {
        id: `stage/${stage?.id ?? index}/${k + 1}`,
        rule: "stage",
        subject: `Stage ${index + 1}, ${stage?.name ?? ""}`,
        question: "Can the stage be carried out as it is written?",
        demand: null,
        limit: null,
        reading: p.says,
        ifOver: [],
        ifUnknown: p.says,
        working: {
          formula: "carried out as written: yes or no",
          terms: [],
          limitSource: "the stage as entered; nobody on rope and no rope fast while the ladder moves",
        },
        at: asSite(plan.evolution.startM),
        field: p.field,
      },
      status,
    );
    return { ...check, when: { stage: index, along: 0 } };
  });
}
