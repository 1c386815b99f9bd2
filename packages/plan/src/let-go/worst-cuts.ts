import { assess } from "../assess.ts";
import type { When } from "../evolve/evolution-types.ts";
import { momentPlan } from "../evolve/moment-plan.ts";
import type { Plan } from "../schema/plan.ts";
import { BELOW, letGoCase } from "./let-go-case.ts";
import type { LetGoCase } from "./let-go-plan-types.ts";
import type { SweptCase } from "./sweep-cuts.ts";
import { isWorse } from "./worse-case.ts";

/** A cut at which some of what is judged is highest in a sweep: to be followed finely, there and close by. */
export interface WorstTask {
  readonly when: When;
  readonly lineId: string;
  /** Names of what is highest there. */
  readonly figures: readonly string[];
  /** Half way to the sweep's moments before and after, in the same stage. */
  readonly beside: readonly When[];
}

/** What is judged of a case, by name, each by the high end. */
function judged({ figures, cut }: LetGoCase): ReadonlyMap<string, number> {
  const found = new Map<string, number>();
  if (figures === null) return found;
  const { utilisations, tipInBeam, person, nearest } = figures;
  found.set("tip", figures.tipN.high);
  found.set("tip, of its rating", utilisations.resultant.ratio ?? 0);
  found.set("bending", utilisations.bending.ratio ?? 0);
  found.set("compression", utilisations.compression.ratio ?? 0);
  found.set("sideways", Math.abs(tipInBeam.lateralN));
  found.set("drop", figures.dropM.high);
  found.set("swing", figures.swingM.high);
  const ground = nearest.find((n) => n.what === BELOW);
  if (ground) found.set("near the ground", -ground.distanceM);
  for (const hit of figures.hits) found.set(`hit/${hit.what}`, hit.speedMS);
  if (person) found.set("person", person.peakN.high);
  for (const p of figures.points) found.set(`point/${p.pointId}`, p.peakN.high);
  for (const l of figures.lines) {
    found.set(`rope/${l.lineId}`, l.peakN.high);
    found.set(`end/${l.lineId}`, l.atEndN.high);
  }
  for (const id of cut) found.set(`line/${id}`, figures.tipN.high);
  return found;
}

/** For each figure that is judged the cut at which it is highest, and of each line the first that falls or is not known. */
export function worstTasks(swept: readonly SweptCase[]): readonly WorstTask[] {
  const top = new Map<string, { readonly value: number; readonly cut: SweptCase }>();
  const see = (figure: string, value: number, cut: SweptCase): void => {
    const known = top.get(figure);
    if (known === undefined || value > known.value) top.set(figure, { value, cut });
  };
  for (const cut of swept) {
    if (cut.outcome !== "held" || cut.found.figures === null) see(`${cut.outcome}/${cut.lineId}`, 1, cut);
    for (const [figure, value] of judged(cut.found)) see(figure, value, cut);
  }
  const tasks = new Map<SweptCase, string[]>();
  for (const [figure, { cut }] of top) tasks.set(cut, [...(tasks.get(cut) ?? []), figure]);
  return [...tasks].map(([cut, figures]) => ({
    when: cut.when,
    lineId: cut.lineId,
    figures,
    beside: cut.found.figures === null ? [] : besideOf(swept, cut),
  }));
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
 * The cut of a task followed finely, where each of its figures is highest: at the sweep's moment or half way to the next.
 *
 * The places between are looked at loosely, with the tether's pulley riding, as in a fine pass.
 */
export function worstCases(plan: Plan, { when, lineId, figures, beside }: WorstTask): readonly LetGoCase[] {
  const places = [when, ...beside].map((at) => ({ at, situation: assess(momentPlan(plan, at)) }));
  const chosen = new Set(beside.length === 0 ? places : []);
  if (beside.length > 0) {
    const looked = places.map((place) => {
      const found = letGoCase(place.situation, place.at, [lineId], { pass: "ends" });
      return { place, found, values: judged(found) };
    });
    for (const figure of figures) {
      const [first, ...more] = looked;
      if (!first) continue;
      const top = more.reduce(
        (a, b) =>
          (b.values.get(figure) ?? Number.NEGATIVE_INFINITY) > (a.values.get(figure) ?? Number.NEGATIVE_INFINITY)
            ? b
            : a,
        first,
      );
      chosen.add(top.place);
    }
    for (const { place, found } of looked) if (found.outcome !== "held") chosen.add(place);
  }
  return [...chosen].map(({ at, situation }) => letGoCase(situation, at, [lineId]));
}

/** Of some cases the worst; null: of none. */
export const worstOf = (cases: readonly LetGoCase[]): LetGoCase | null =>
  cases.reduce<LetGoCase | null>((a, b) => (a === null || isWorse(b, a) ? b : a), null);
