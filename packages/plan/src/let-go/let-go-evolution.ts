import type { When } from "../evolve/evolution-types.ts";
import { letGoChecks } from "../rules/let-go.ts";
import type { Plan } from "../schema/plan.ts";
import { commonPoints } from "./critical-points.ts";
import { letGoAt } from "./let-go-at.ts";
import type { LetGoCase, LetGoEvolution, WorstCut } from "./let-go-plan-types.ts";
import { shareSlackMap } from "./share-slack-map.ts";
import { letGoMoments, linesOn, type SweptCase, sweepCuts } from "./sweep-cuts.ts";
import { isWorse } from "./worse-case.ts";

export interface LetGoSweepOptions {
  /** Asked before each moment; once true, the answer is null. */
  readonly cancelled?: () => boolean;
  /** How many of all moments are done, fine passes counted as one each. */
  readonly progress?: (done: number, of: number) => void;
}

/**
 * Every line cut at every moment of the evolution: the worst, and how much it rests on even shares.
 *
 * First all cuts are followed loosely by the figures entered; then for each figure that is judged its worst cut is followed
 * finely, with its band. A plan without stages is judged at its one position. null: cancelled.
 */
export function letGoEvolution(plan: Plan, options: LetGoSweepOptions = {}): LetGoEvolution | null {
  const moments = letGoMoments(plan);
  const { cancelled = () => false, progress = () => {} } = options;
  const swept = sweepCuts(plan, moments, { cancelled, done: (done) => progress(done, moments.length + 1) });
  if (swept === null) return null;
  const found = gatherLetGo(plan, swept);
  progress(moments.length + 1, moments.length + 1);
  return found;
}

/** The answer from all cuts of a sweep, in order; for callers that have spread the moments over several workers. */
export function gatherLetGo(plan: Plan, swept: readonly SweptCase[]): LetGoEvolution {
  const fine = new Map<string, LetGoCase>();
  const finely = (when: When | null, lineId: string): LetGoCase => {
    const key = `${when?.stage}/${when?.along}/${lineId}`;
    const known = fine.get(key) ?? letGoAt(plan, when, lineId);
    fine.set(key, known);
    return known;
  };
  const lines = linesOn(plan);
  const worst = lines.flatMap(({ id, name }): WorstCut[] => {
    const own = swept.filter((s) => s.lineId === id);
    const top = own.reduce<SweptCase | null>((a, b) => (a === null || isWorse(b.found, a.found) ? b : a), null);
    if (top) return [{ lineId: id, name, worst: finely(top.when, id) }];
    return swept.length === 0 ? [{ lineId: id, name, worst: finely(null, id) }] : [];
  });
  for (const { when, lineId } of decidingCuts(swept)) finely(when, lineId);
  const deciding = [...fine.values()];
  const highest = swept.reduce<SweptCase | null>(
    (a, b) => (a === null || b.found.yoke[2] > a.found.yoke[2] ? b : a),
    null,
  );
  return {
    cuts: swept.map(({ found: _found, ...cut }) => cut),
    worst: [...worst].sort((a, b) => (isWorse(a.worst, b.worst) ? -1 : isWorse(b.worst, a.worst) ? 1 : 0)),
    deciding,
    ledger: letGoChecks(plan, deciding, commonPoints(plan)),
    map: shareSlackMap(plan, highest?.when ?? null),
  };
}

/** For each figure that is judged the cut at which it is highest, and every cut that falls or is not known first. */
function decidingCuts(swept: readonly SweptCase[]): readonly SweptCase[] {
  const top = new Map<string, { readonly value: number; readonly cut: SweptCase }>();
  const see = (figure: string, value: number, cut: SweptCase): void => {
    const known = top.get(figure);
    if (known === undefined || value > known.value) top.set(figure, { value, cut });
  };
  for (const cut of swept) {
    const { figures, outcome } = cut.found;
    if (outcome !== "held") see(outcome, 1, cut);
    if (figures === null) continue;
    see("tip", figures.utilisations.resultant.ratio ?? 0, cut);
    see("drop", figures.dropM.entered, cut);
    if (figures.person) see("person", figures.person.peakN.entered, cut);
    for (const p of figures.points) see(`point/${p.pointId}`, p.peakN.entered, cut);
    for (const l of figures.lines) {
      see(`rope/${l.lineId}`, l.peakN.entered, cut);
      see(`end/${l.lineId}`, l.atEndN.entered, cut);
    }
  }
  return [...new Set([...top.values()].map((t) => t.cut))];
}
