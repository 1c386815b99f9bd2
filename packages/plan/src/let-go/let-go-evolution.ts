import type { When } from "../evolve/evolution-types.ts";
import { letGoChecks } from "../rules/let-go.ts";
import type { Plan } from "../schema/plan.ts";
import { commonPoints } from "./critical-points.ts";
import { letGoAt } from "./let-go-at.ts";
import type { LetGoCase, LetGoEvolution, PointsAt, ShareSlackMap, TipChoice, WorstCut } from "./let-go-plan-types.ts";
import { roomiestMoment } from "./most-room.ts";
import { shareSlackMap } from "./share-slack-map.ts";
import { letGoMoments, linesOn, type SweptCase, sweepCuts } from "./sweep-cuts.ts";
import { isWorse } from "./worse-case.ts";
import { type WorstTask, worstCases, worstOf, worstTasks } from "./worst-cuts.ts";

export interface LetGoSweepOptions extends TipChoice {
  /** Asked before each moment; once true, the answer is null. */
  readonly cancelled?: () => boolean;
  /** How many of all moments are done, what is left to do after them counted as one more and told by its parts. */
  readonly progress?: (done: number, of: number) => void;
}

/**
 * Every line cut at every moment of the evolution: the worst, and how much it rests on even shares.
 *
 * First all cuts are followed loosely, with the softest ropes and with the stiffest; then for each figure that is judged the
 * cut at which it is highest is followed finely, with its band, there or half way to the moment before or after. A plan without
 * stages is judged at its one position. null: cancelled.
 */
export function letGoEvolution(plan: Plan, options: LetGoSweepOptions = {}): LetGoEvolution | null {
  const moments = letGoMoments(plan);
  const { cancelled = () => false, progress = () => {}, tipGives = false } = options;
  const of = moments.length + 1;
  const swept = sweepCuts(plan, moments, { cancelled, tipGives, done: (done) => progress(done, of) });
  if (swept === null) return null;
  const tasks = letGoTasks(plan, swept);
  const parts: LetGoPart[] = [];
  for (const [i, task] of tasks.entries()) {
    if (cancelled()) return null;
    parts.push(doLetGoTask(plan, task, { tipGives }));
    progress(moments.length + (i + 1) / tasks.length, of);
  }
  return gatherLetGo(plan, swept, parts, { tipGives });
}

/** A piece of what is left to do after a sweep; pieces do not wait for each other. */
export type LetGoTask =
  | { readonly kind: "worst"; readonly of: WorstTask }
  /** A plan without moments: one line at its one position. */
  | { readonly kind: "line"; readonly lineId: string }
  | { readonly kind: "map"; readonly when: When | null }
  | { readonly kind: "common" };

/** What a piece comes to. */
export type LetGoPart =
  | { readonly kind: "cases"; readonly cases: readonly LetGoCase[] }
  | { readonly kind: "map"; readonly map: ShareSlackMap | null }
  | { readonly kind: "common"; readonly points: readonly PointsAt[] };

/** What is left to do after all cuts of a sweep, the longest first; for callers that spread it over several workers. */
export function letGoTasks(plan: Plan, swept: readonly SweptCase[]): readonly LetGoTask[] {
  return [
    { kind: "map", when: roomiestMoment(plan) },
    { kind: "common" },
    ...worstTasks(swept).map((of): LetGoTask => ({ kind: "worst", of })),
    ...(swept.length === 0 ? linesOn(plan).map(({ id }): LetGoTask => ({ kind: "line", lineId: id })) : []),
  ];
}

export function doLetGoTask(plan: Plan, task: LetGoTask, tip: TipChoice = {}): LetGoPart {
  switch (task.kind) {
    case "worst":
      return { kind: "cases", cases: worstCases(plan, task.of, tip) };
    case "line":
      return { kind: "cases", cases: [letGoAt(plan, null, task.lineId, tip)] };
    case "map":
      return { kind: "map", map: shareSlackMap(plan, task.when, tip) };
    case "common":
      return { kind: "common", points: commonPoints(plan, tip) };
  }
}

/** The answer from all cuts of a sweep, in order, and all that was left to do after them, in any order. */
export function gatherLetGo(
  plan: Plan,
  swept: readonly SweptCase[],
  parts: readonly LetGoPart[] = letGoTasks(plan, swept).map((task) => doLetGoTask(plan, task)),
  { tipGives = false }: TipChoice = {},
): LetGoEvolution {
  const deciding = distinct(parts.flatMap((part) => (part.kind === "cases" ? part.cases : [])));
  const worst = linesOn(plan).flatMap(({ id, name }): WorstCut[] => {
    const top = worstOf(deciding.filter(({ cut }) => cut.includes(id)));
    return top ? [{ lineId: id, name, worst: top }] : [];
  });
  return {
    tip: tipGives ? "gives" : "stiff",
    cuts: swept.map(({ fall: _fall, judged: _judged, ...cut }) => cut),
    worst: [...worst].sort((a, b) => (isWorse(a.worst, b.worst) ? -1 : isWorse(b.worst, a.worst) ? 1 : 0)),
    deciding,
    ledger: letGoChecks(
      plan,
      deciding,
      parts.flatMap((part) => (part.kind === "common" ? part.points : [])),
    ),
    map: parts.flatMap((part) => (part.kind === "map" && part.map ? [part.map] : []))[0] ?? null,
  };
}

/** Each once, in order of moment, then of line: whoever worked them out, and whenever. */
function distinct(cases: readonly LetGoCase[]): readonly LetGoCase[] {
  const byKey = new Map(cases.map((one) => [`${one.when?.stage}/${one.when?.along}/${one.cut.join("+")}`, one]));
  const place = ({ when }: LetGoCase): number => (when === null ? 0 : when.stage + 0.5 * when.along);
  return [...byKey.values()].sort((a, b) => place(a) - place(b) || a.cut.join("+").localeCompare(b.cut.join("+")));
}
