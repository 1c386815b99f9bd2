import type { When } from "../evolve/evolution-types.ts";
import type { Plan } from "../schema/plan.ts";
import { solvePlan } from "../solve-plan.ts";
import { letGoCase } from "./let-go-case.ts";
import type { CriticalPoint, LetGoCase, LetGoChoices, PointsAt, TipChoice } from "./let-go-plan-types.ts";
import { roomiestMoments } from "./most-room.ts";
import type { PathPart } from "./path-part.ts";
import { pathParts } from "./path-parts.ts";
import { solvedMoment } from "./solved-moment.ts";
import { isWorse, rankOfOutcome } from "./worse-case.ts";

/**
 * Every part, anchor and pair of hands taken away in turn: what holds then, and at what peak?
 *
 * Parts come from the load paths of the solved rig. What two lines share is found by its identity or its place: one yoke,
 * one vehicle eye, anchors nearer than 0.2 m to each other, one rigging point, the ladder. Everyone lets go at once as the
 * last. Worst first, what there is only one of on any rig after the rest of its outcome; empty where nothing is solved or
 * nothing hangs on the ropes.
 */
export function criticalPoints(plan: Plan, when: When | null, tip: TipChoice = {}): readonly CriticalPoint[] {
  return [...pointsAmong(plan, when, () => true, tip)].sort(worstFirst);
}

/**
 * What takes more than one line with it: points that several share though they need not, and everyone letting go at once.
 * These are judged; see `letGoChecks`. Each at the moment with most room to fall among the stages in which it takes the same
 * with it.
 */
export function commonPoints(plan: Plan, tip: TipChoice = {}): readonly PointsAt[] {
  const seen = new Set<string>();
  const isNew = (part: PathPart): boolean => {
    const key = `${part.id} ${JSON.stringify(part.effect)}`;
    if (!isCommon(part) || seen.has(key)) return false;
    seen.add(key);
    return true;
  };
  return roomiestMoments(plan).map((when) => ({ when, points: pointsAmong(plan, when, isNew, tip, passOf) }));
}

/** A line that goes alone is followed finely elsewhere, at its worst moment: here only what then holds is asked. */
const passOf = (cut: readonly string[], lost: readonly unknown[]): "fine" | "loose" =>
  cut.length === 1 && lost.length === 0 ? "loose" : "fine";

/** Is it judged: avoidable and more than one line's, or everyone? */
const isCommon = ({ kind, lines, unavoidable }: PathPart): boolean =>
  kind === "everyone" || (lines.length > 1 && !unavoidable);

function pointsAmong(
  plan: Plan,
  when: When | null,
  isWanted: (part: PathPart) => boolean,
  tip: TipChoice,
  pass: typeof passOf = () => "fine",
): readonly CriticalPoint[] {
  const situation = when === null ? solvePlan(plan) : solvedMoment(plan, when);
  const cases = new Map<string, LetGoCase>();
  const cutAway = (cut: readonly string[], lost: LetGoChoices["lost"] = []): LetGoCase => {
    const key = JSON.stringify([cut, lost]);
    const found = cases.get(key) ?? letGoCase(situation, when, cut, { ...tip, lost, pass: pass(cut, lost) });
    cases.set(key, found);
    return found;
  };
  return pathParts(situation).flatMap((part): CriticalPoint[] => {
    if (!isWanted(part)) return [];
    const { id, subject, kind, at, lines, unavoidable } = part;
    const mains = lines.filter((l) => situation.plan.rig.mainLines.some((m) => m.id === l));
    const base = { id, subject, kind, at, lines, unavoidable, shared: kind !== "everyone" && mains.length > 1 };
    return [{ ...base, ...whatHolds(part, cutAway) }];
  });
}

function whatHolds(
  { effect }: PathPart,
  cutAway: (cut: readonly string[], lost: LetGoChoices["lost"]) => LetGoCase,
): Pick<CriticalPoint, "outcome" | "says" | "result"> {
  if (effect.kind === "none") return { outcome: "held", says: [effect.says], result: null };
  if (effect.kind === "unknown") return { outcome: "unknown", says: [effect.says], result: null };
  const result = cutAway(effect.cut, effect.lost);
  return { outcome: result.outcome, says: result.says, result };
}

const worstFirst = (a: CriticalPoint, b: CriticalPoint): number => {
  if (a.outcome !== b.outcome) return rankOfOutcome(a.outcome) - rankOfOutcome(b.outcome);
  if (a.unavoidable !== b.unavoidable) return a.unavoidable ? 1 : -1;
  if (a.shared !== b.shared) return a.shared ? -1 : 1;
  if (a.result && b.result) return isWorse(a.result, b.result) ? -1 : isWorse(b.result, a.result) ? 1 : 0;
  return Number(a.result === null) - Number(b.result === null);
};
