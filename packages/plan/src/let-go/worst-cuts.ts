import type { When } from "../evolve/evolution-types.ts";
import type { Plan } from "../schema/plan.ts";
import type { SolvedPlan } from "../solve-plan.ts";
import { judgedFigures } from "./judged-figures.ts";
import { type CaseOptions, letGoCase } from "./let-go-case.ts";
import type { LetGoCase, TipChoice } from "./let-go-plan-types.ts";
import { solvedMoment } from "./solved-moment.ts";
import type { SweptCase } from "./sweep-cuts.ts";
import { isWorse } from "./worse-case.ts";

/** Some of what is judged is highest in a sweep at one of these cuts: to be followed finely, there and close by. */
export interface WorstTask {
  /** Names of what is highest there. */
  readonly figures: readonly string[];
  /** The highest of each line, as far as it may be the highest of all once it is followed for longer than in a sweep. */
  readonly cuts: readonly CutPlace[];
}

export interface CutPlace {
  readonly when: When;
  readonly lineId: string;
  /** Half way to the sweep's moments before and after, in the same stage. */
  readonly beside: readonly When[];
}

/** A line whose highest is below the highest of all by no more than this part of it may yet be the highest; of these so many are looked at for longer. */
const MAY_BE = 0.15;
const MOST_OTHERS = 2;

/** For each figure that is judged the cuts at which it is highest, and of each line the hardest that falls and the first that is not known. */
export function worstTasks(swept: readonly SweptCase[]): readonly WorstTask[] {
  const tops = new Map<string, Map<string, Valued>>();
  const see = (figure: string, value: number, cut: SweptCase): void => {
    const ofLine = tops.get(figure) ?? new Map<string, Valued>();
    tops.set(figure, ofLine);
    const known = ofLine.get(cut.lineId);
    if (known === undefined || value > known.value) ofLine.set(cut.lineId, { value, cut });
  };
  for (const cut of swept) {
    const { fall, judged } = cut;
    if (fall) see(`falls/${cut.lineId}`, fall.speedMS + 1e-3 * fall.heightM, cut);
    else if (cut.outcome !== "held" || judged === null) see(`${cut.outcome}/${cut.lineId}`, 1, cut);
    for (const [figure, value] of judged ?? []) see(figure, value, cut);
  }
  const tasks = new Map<SweptCase, { readonly figures: string[]; readonly cuts: Set<SweptCase> }>();
  for (const [figure, ofLine] of tops) {
    const [top, ...others] = [...ofLine.values()].sort((a, b) => b.value - a.value);
    if (!top) continue;
    const task = tasks.get(top.cut) ?? { figures: [], cuts: new Set([top.cut]) };
    tasks.set(top.cut, task);
    task.figures.push(figure);
    const near = others.filter(({ value }) => top.value - value <= MAY_BE * Math.abs(top.value));
    for (const { cut } of near.slice(0, MOST_OTHERS)) task.cuts.add(cut);
  }
  return [...tasks.values()].map(({ figures, cuts }) => ({
    figures,
    cuts: [...cuts].map((cut) => ({
      when: cut.when,
      lineId: cut.lineId,
      beside: cut.judged === null ? [] : besideOf(swept, cut),
    })),
  }));
}

interface Valued {
  readonly value: number;
  readonly cut: SweptCase;
}

function besideOf(swept: readonly SweptCase[], { when, lineId }: SweptCase): readonly When[] {
  const others = swept.filter((s) => s.lineId === lineId && s.when.stage === when.stage).map((s) => s.when.along);
  const before = Math.max(...others.filter((along) => along < when.along));
  const after = Math.min(...others.filter((along) => along > when.along));
  return [before, after].flatMap((along) =>
    Number.isFinite(along) ? [{ stage: when.stage, along: 0.5 * (along + when.along) }] : [],
  );
}

/**
 * The cuts of a task at which its figures are highest, followed finely: at the sweep's moment or half way to the next.
 *
 * Where several lines come into question, all are first looked at for as long as a fine pass takes: what comes late is not in a
 * sweep. The places between are looked at with the tether's pulley riding, as in a fine pass.
 */
export function worstCases(
  plan: Plan,
  { figures, cuts }: WorstTask,
  { tipGives = false }: TipChoice = {},
): readonly LetGoCase[] {
  const look = (place: CutPlace, when: When, options: CaseOptions): Look => {
    const situation = solvedMoment(plan, when);
    return { place, when, situation, found: letGoCase(situation, when, [place.lineId], { ...options, tipGives }) };
  };
  const few =
    cuts.length < 2
      ? cuts
      : chosenOf(
          cuts.map((place) => look(place, place.when, { pass: "long", rider: "stays" })),
          figures,
        ).map(({ place }) => place);
  const fine = (when: When, lineId: string): LetGoCase =>
    letGoCase(solvedMoment(plan, when), when, [lineId], { tipGives });
  const [only, ...more] = few;
  if (only && more.length === 0 && only.beside.length === 0) return [fine(only.when, only.lineId)];
  const looked = few.flatMap((place) =>
    [place.when, ...place.beside].map((when) => look(place, when, { pass: "look" })),
  );
  return chosenOf(looked, figures).map(({ situation, when, place }) =>
    letGoCase(situation, when, [place.lineId], { tipGives }),
  );
}

interface Look {
  readonly place: CutPlace;
  readonly when: When;
  readonly situation: SolvedPlan;
  readonly found: LetGoCase;
}

/** Of some looks those at which a figure is highest, and those that are not held. */
function chosenOf(looks: readonly Look[], figures: readonly string[]): readonly Look[] {
  const valued = looks.map((look) => ({ look, values: new Map(judgedFigures(look.found)) }));
  const chosen = new Set(looks.filter(({ found }) => found.outcome !== "held"));
  for (const figure of figures) {
    const value = (v: (typeof valued)[number]): number => v.values.get(figure) ?? Number.NEGATIVE_INFINITY;
    const [top, ...more] = valued;
    if (top) chosen.add(more.reduce((a, b) => (value(b) > value(a) ? b : a), top).look);
  }
  return [...chosen];
}

/** Of some cases the worst; null: of none. */
export const worstOf = (cases: readonly LetGoCase[]): LetGoCase | null =>
  cases.reduce<LetGoCase | null>((a, b) => (a === null || isWorse(b, a) ? b : a), null);
