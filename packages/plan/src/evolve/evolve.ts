import type { Geometry } from "../evaluation.ts";
import { findProblems } from "../find-problems.ts";
import { declare, tell, worstFirst } from "../judge.ts";
import { placeStructures } from "../place-geometry.ts";
import { entryChecks } from "../rules/missing-data.ts";
import type { Stage } from "../schema/evolution.ts";
import type { Plan } from "../schema/plan.ts";
import type { Evolution, Moment, Series, StageProblem, StageResult, TimedCheck } from "./evolution-types.ts";
import { freeRope } from "./free-rope.ts";
import { gatherFaults } from "./moment-faults.ts";
import { stageStart, stageWay, wayLengthM } from "./moment-plan.ts";
import type { StageMemory } from "./stage-memory.ts";
import { writtenProblems } from "./stage-problems.ts";
import { stageWork } from "./stage-work.ts";
import { type SweptStage, sweepStage, sweepStepM } from "./sweep-stage.ts";
import { runningProblems, unsettledProblems } from "./swept-problems.ts";
import { keepWorst, worseMoment } from "./worst-checks.ts";

/**
 * The whole evolution from ground to ground: every stage solved along its way, every check at its worst.
 *
 * Each stage is solved at even steps, then again wherever a check could peak between two of them by more than half a
 * per cent (`whereToLook`), so that each worst ratio is found to within 1 % of its true value. A moment is
 * `momentPlan` judged by the rules that judge a single position; stages and moments that cannot be solved are said, and
 * the rest is still worked. A plan without stages gives none.
 *
 * @param stepM even steps to begin with, m of the load's way; left out: a quarter of a metre, or finer, for 200 moments or more
 * @param memory stages swept before, of which those that nothing has changed for are taken again
 */
export function evolve(plan: Plan, stepM = sweepStepM(plan), memory: StageMemory | null = null): Evolution {
  const problems = findProblems(plan);
  const swept =
    memory === null ? plan.evolution.stages.map((_, i) => sweepStage(plan, i, stepM)) : memory.sweep(plan, stepM);
  const worst = keepWorst();
  for (const own of swept) worst.take(own.worst);
  const structures = placeStructures(plan);
  const results: StageResult[] = [];
  const moments: Moment[] = [];
  for (const [i, own] of swept.entries()) {
    for (const { check, when } of own.letOuts.checks) worst.see([check], when);
    const { result, judged } = stageResult(plan, i, own, moments.length, structures);
    for (const m of judged) moments.push({ ...m, at: (i + m.when.along) / swept.length });
    results.push(result);
  }
  const ledger = [
    ...worst.all(),
    ...entryChecks(problems).map((found) => ({ ...tell(found), when: null })),
    ...results.flatMap((r) => r.problems.map((p) => problemCheck(plan, p))),
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
    series: curvesOf(swept, ledger),
  };
}

/** All curves: the figures, then the ratio of every check that has one, in the ledger's order. */
function curvesOf(swept: readonly SweptStage[], ledger: readonly TimedCheck[]): readonly Series[] {
  const figures = new Set(swept.flatMap((s) => s.figures.ids()));
  return [
    ...[...figures].flatMap((id) => seriesOf(swept, "figures", id) ?? []),
    ...ledger.flatMap((c): Series[] => {
      const curve = c.ratio === null ? null : seriesOf(swept, "ratios", c.id);
      return curve ? [{ ...curve, id: `ratio/${c.id}`, label: c.subject }] : [];
    }),
  ];
}

/** The curve of one figure through all stages; it is not known in a stage that does not have it. null: no stage has it. */
function seriesOf(swept: readonly SweptStage[], of: "figures" | "ratios", id: string): Series | null {
  const parts = swept.map((s) =>
    s[of].series(
      s.moments.map((m) => m[of]),
      id,
    ),
  );
  const head = parts.find((part) => part !== null);
  return head ? { ...head, values: swept.flatMap((s, i) => parts[i]?.values ?? s.moments.map(() => null)) } : null;
}

/** A stage's moments with what is wrong with the stage folded into them, and what they come to. */
function stageResult(
  plan: Plan,
  index: number,
  { moments: swept, unsettled, letOuts }: SweptStage,
  first: number,
  structures: Geometry["structures"],
): { readonly result: StageResult; readonly judged: readonly Omit<Moment, "at">[] } {
  const stage = plan.evolution.stages[index] as Stage;
  const way = stageWay(plan, index);
  const from = stageStart(plan, index);
  // A ladder that moves works on what hangs from it; that is not counted.
  const worked = stage.action === "moveLadder" ? null : stageWork(swept.map((s) => s.work));
  const written = [
    ...writtenProblems(plan, index, structures),
    ...runningProblems(index, stage.motion, worked?.runs ?? []),
    ...unsettledProblems(index, unsettled),
  ];
  const faults = gatherFaults(
    index,
    swept.map(({ moment, faults }) => ({ when: moment.when, faults })),
  );
  const problems = [...written, ...faults.values()].map((fault, k) => ({ ...fault, id: problemId(plan, index, k) }));
  const kinds = [...faults.keys()];
  const judged = swept.map((s) => {
    const own = problems.filter((p, k) =>
      k < written.length
        ? isBetween(s.moment.when.along, p.between)
        : s.faults.some((f) => f.kind === kinds[k - written.length]),
    );
    return { ...s.moment, worst: withProblems(s.moment.worst, own), problems: own.map((p) => p.id) };
  });
  let worst: (typeof judged)[number] | null = null;
  for (const m of judged) if (worst === null || worseMoment(m.worst, worst.worst)) worst = m;
  const result: StageResult = {
    stage,
    from,
    to: way.at(-1) ?? from,
    pathM: wayLengthM(way),
    moments: [first, first + judged.length - 1],
    worst: worst
      ? { ...worst.worst, when: worst.when }
      : { status: "unknown", ratio: null, checkId: null, when: { stage: index, along: 0 } },
    problems,
    freeRope: stage.action === "moveLadder" ? freeRope(plan, index) : [],
    runs: worked?.runs ?? [],
    // A load that is not held goes by jumps, and no work is told of those.
    work: swept.every(({ moment }) => moment.holds === "held") ? (worked?.work ?? null) : null,
    letOuts: letOuts.found,
    unsettled,
  };
  return { result, judged };
}

const SAME_MOMENT = 1e-9;
const isBetween = (along: number, [from, to]: StageProblem["between"]): boolean =>
  along >= from - SAME_MOMENT && along <= to + SAME_MOMENT;

function withProblems(worst: Moment["worst"], problems: readonly StageProblem[]): Moment["worst"] {
  let most = worst;
  for (const { status, id } of problems) {
    const asWorst = { status, ratio: null, checkId: id };
    if (worseMoment(asWorst, most)) most = asWorst;
  }
  return most;
}

/** Of its check in the ledger: by the stage's id, and by its number too where another stage has the same id. */
function problemId({ evolution: { stages } }: Plan, index: number, k: number): string {
  const id = stages[index]?.id ?? `${index + 1}`;
  const isFirst = stages.findIndex((s) => s.id === id) === index;
  return `stage/${isFirst ? id : `${id}.${index + 1}`}/${k + 1}`;
}

/** What is wrong with a stage, as a check of the ledger. */
function problemCheck(plan: Plan, p: StageProblem): TimedCheck {
  const check = declare(
    {
      id: p.id,
      rule: "stage",
      demand: null,
      limit: null,
      words: () => ({
        subject: `Stage ${p.stage + 1}, ${plan.evolution.stages[p.stage]?.name ?? ""}`,
        question: "Can the stage be carried out as it is written?",
        reading: p.says,
        ifOver: [],
        ifUnknown: p.says,
        working: {
          formula: "carried out as written: yes or no",
          terms: [],
          limitSource: "the stage as entered; nobody on rope and no rope fast while the ladder moves",
        },
        at: p.drift?.goesTo ?? stageStart(plan, p.stage),
        field: p.field,
      }),
    },
    p.status,
  );
  return { ...tell(check), when: p.when };
}
