import { assess } from "../assess.ts";
import type { FeltForces } from "../evaluation.ts";
import type { When } from "../evolve/evolution-types.ts";
import { momentPlan } from "../evolve/moment-plan.ts";
import type { Plan } from "../schema/plan.ts";
import type { Situation } from "../situation.ts";
import type { Phrase } from "../units/quantity.ts";
import { letGoCase } from "./let-go-case.ts";
import type { LetGoCase, TechniqueRow } from "./let-go-plan-types.ts";
import { linesOn } from "./sweep-cuts.ts";
import { type TechniquePlan, techniquePlans } from "./technique-plans.ts";
import { rankOfOutcome } from "./worse-case.ts";

/**
 * The same scene and load by other techniques, side by side, each with an attendant on the load and without.
 *
 * Each is a variant of the plan, solved, felt and cut as any plan is. At a moment, or of the plan's one position.
 */
export function techniques(plan: Plan, when: When | null = null): readonly TechniqueRow[] {
  const then = when === null ? plan : momentPlan(plan, when);
  return [false, true].flatMap((attendant) => {
    const situation = assess(withAttendant(then, attendant));
    return techniquePlans(situation).map((technique) => rowOf(technique, attendant, when));
  });
}

/** The plan as it is rigged by one of the techniques, at the moment; null: that cannot be on this scene. */
export function techniquePlan(
  plan: Plan,
  when: When | null,
  { id, attendant }: Pick<TechniqueRow, "id" | "attendant">,
): Plan | null {
  const then = when === null ? plan : momentPlan(plan, when);
  return techniquePlans(assess(withAttendant(then, attendant))).find((t) => t.id === id)?.plan ?? null;
}

function withAttendant(plan: Plan, attendant: boolean): Plan {
  const { load } = plan.rig;
  const without = load.parts.filter((p) => p.kind !== "attendant");
  const there = load.parts.length > without.length;
  const massKg = plan.policy.attendantMassKg.value;
  const parts = !attendant
    ? without
    : there
      ? load.parts
      : [...without, { id: "attendant-asked", name: "Attendant", kind: "attendant" as const, massKg }];
  return { ...plan, rig: { ...plan.rig, load: { ...load, parts } } };
}

function rowOf(technique: TechniquePlan, attendant: boolean, when: When | null): TechniqueRow {
  const { id, name, needs } = technique;
  const base = { id, name, attendant, needs };
  if (technique.plan === null) return { ...base, figures: null, says: [technique.says], worst: null };
  const situation = assess(technique.plan);
  const figures = figuresOf(situation, technique);
  const worst = worstCut(situation, technique, when);
  return { ...base, figures, says: figures === null ? notSolved(situation) : worst.says, worst };
}

const notSolved = ({ holding }: Situation): Phrase =>
  holding.state === "unsolved" ? holding.says : ["No balance of forces was found."];

function figuresOf(situation: Situation, { parts }: TechniquePlan): TechniqueRow["figures"] {
  const { cases, felt, lines, plan } = situation;
  const all = cases.flatMap((travel) => (felt[travel] ? [felt[travel]] : []));
  const [first, ...others] = all;
  if (!first || situation.laid.mains.some((m) => m.efficiencies[0] === null)) return null;
  const worst = others.reduce<FeltForces>((a, b) => (b.inBeam.resultantN > a.inBeam.resultantN ? b : a), first);
  const tipping = worst.tipping.map((t) => t.momentNm);
  return {
    tipInBeam: worst.inBeam,
    ladderMomentNm: worst.utilisations.bending.demand,
    tippingNm: tipping.length > 0 ? Math.max(...tipping) : null,
    ropeM: lines.reduce((total, l) => total + l.neededM + ((parts[l.id] ?? 1) - 1) * l.pathM, 0),
    people:
      plan.rig.taglines.reduce((total, t) => total + t.people, 0) +
      (plan.rig.tether?.people ?? 0) +
      (Object.keys(parts).length > 0 ? 1 : plan.rig.mainLines.length),
  };
}

/** Each line cut in turn, those that are one rope together: the worst. */
function worstCut(situation: Situation, technique: TechniquePlan, when: When | null): LetGoCase {
  const { mainLines } = situation.plan.rig;
  const { fast, slackM, oneRope } = technique;
  const cuts = oneRope ? [mainLines.map((l) => l.id)] : linesOn(situation.plan).map((l) => [l.id]);
  const cases = cuts.map((cut) => letGoCase(situation, when, cut, { fast, slackM: without(slackM, cut) }));
  return cases.reduce((a, b) => (isHarder(b, a) ? b : a));
}

/** Slack is run in by what is left when another line goes; the slack line itself going changes nothing. */
const without = (slackM: Readonly<Record<string, number>>, cut: readonly string[]): Readonly<Record<string, number>> =>
  Object.fromEntries(Object.entries(slackM).filter(([id]) => !cut.includes(id)));

const hardest = ({ figures }: LetGoCase): number => Math.max(0, ...(figures?.lines ?? []).map((l) => l.peakN.high));

/** Worse of two losses: by what holds, then by the highest tension of any line. */
const isHarder = (a: LetGoCase, b: LetGoCase): boolean =>
  a.outcome === b.outcome ? hardest(a) > hardest(b) : rankOfOutcome(a.outcome) < rankOfOutcome(b.outcome);
