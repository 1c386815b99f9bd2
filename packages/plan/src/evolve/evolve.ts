import type { Status } from "../check.ts";
import type { Geometry } from "../evaluation.ts";
import { findProblems } from "../find-problems.ts";
import { declare, worstFirst } from "../judge.ts";
import { placeStructures } from "../place-geometry.ts";
import { entryChecks } from "../rules/missing-data.ts";
import type { Stage } from "../schema/evolution.ts";
import type { Plan } from "../schema/plan.ts";
import type { Evolution, Moment, Series, StageProblem, StageResult, TimedCheck, When } from "./evolution-types.ts";
import { freeRope } from "./free-rope.ts";
import { stageStart, stageWay, wayLengthM } from "./moment-plan.ts";
import { seriesTable } from "./series-table.ts";
import { writtenProblems } from "./stage-problems.ts";
import { stageWork } from "./stage-work.ts";
import { type Gathered, type Swept, sweepStage } from "./sweep-stage.ts";
import { keepWorst, worseMoment } from "./worst-checks.ts";

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
  const gathered: Gathered = { worst: keepWorst(), figures: seriesTable(), ratios: seriesTable() };
  const swept = plan.evolution.stages.map((_, i) => sweepStage(plan, i, gathered));
  const structures = placeStructures(plan);
  const results: StageResult[] = [];
  const moments: Moment[] = [];
  const count = Math.max(1, swept.length);
  for (const [i, stage] of plan.evolution.stages.entries()) {
    const own = swept[i] ?? [];
    const first = moments.length;
    for (const s of own) moments.push({ ...s.moment, at: (i + s.moment.when.along) / count });
    results.push(stageResult(plan, i, stage, own, [first, moments.length - 1], structures));
  }
  const all = swept.flat();
  const ledger = [
    ...gathered.worst.all(),
    ...entryChecks(problems).map((check) => ({ ...check, when: null })),
    ...results.flatMap((r, i) => problemChecks(plan, i, r.problems)),
  ].sort(worstFirst);
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
    series: curvesOf(all, gathered, ledger),
  };
}

/** All curves: the figures, then the ratio of every check that has one, in the ledger's order. */
function curvesOf(
  all: readonly Swept[],
  { figures, ratios }: Gathered,
  ledger: readonly TimedCheck[],
): readonly Series[] {
  const rows = { figures: all.map((s) => s.figures), ratios: all.map((s) => s.ratios) };
  return [
    ...figures.ids().flatMap((id) => figures.series(rows.figures, id) ?? []),
    ...ledger.flatMap((c): Series[] => {
      const curve = c.ratio === null ? null : ratios.series(rows.ratios, c.id);
      return curve ? [{ ...curve, id: `ratio/${c.id}`, label: c.subject }] : [];
    }),
  ];
}

function stageResult(
  plan: Plan,
  index: number,
  stage: Stage,
  swept: readonly Swept[],
  moments: readonly [number, number],
  structures: Geometry["structures"],
): StageResult {
  const way = stageWay(plan, index);
  const from = stageStart(plan, index);
  const solved = swept.flatMap((s) => (s.problem ? [s.problem] : []));
  const problems = [...writtenProblems(plan, index, structures), ...solved.slice(0, 1)];
  let worst: Swept | null = null;
  for (const s of swept) if (worst === null || worseMoment(s.moment.worst, worst.moment.worst)) worst = s;
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
        at: stageStart(plan, index),
        field: p.field,
      },
      status,
    );
    return { ...check, when: { stage: index, along: 0 } };
  });
}
