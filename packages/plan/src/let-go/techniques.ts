import { asSite, distance } from "@gantline/engine";
import { assess } from "../assess.ts";
import type { Check } from "../check.ts";
import type { When } from "../evolve/evolution-types.ts";
import { momentPlan } from "../evolve/moment-plan.ts";
import { rankOf, worstFirst } from "../judge.ts";
import { letGoChecks } from "../rules/let-go.ts";
import { lineNames } from "../rules/line-names.ts";
import { tipRating } from "../rules/tip-rating.ts";
import type { Plan } from "../schema/plan.ts";
import type { Situation } from "../situation.ts";
import type { Phrase } from "../units/quantity.ts";
import { letGoCase } from "./let-go-case.ts";
import type { LetGoCase, TechniqueId, TechniqueRow, TipChoice } from "./let-go-plan-types.ts";
import { linesOn } from "./sweep-cuts.ts";
import { type TechniquePlan, techniquePlans } from "./technique-plans.ts";
import { isWorse, rankOfOutcome } from "./worse-case.ts";

export interface TechniqueOptions extends TipChoice {
  /** Only these. Left out: all. */
  readonly ids?: readonly TechniqueId[];
}

/**
 * The same scene and load by other techniques, side by side, each with an attendant on the load and without.
 *
 * Each is a variant of the plan, solved, felt and cut as any plan is. At a moment, or of the plan's one position.
 */
export function techniques(
  plan: Plan,
  when: When | null = null,
  { tipGives = false, ids }: TechniqueOptions = {},
): readonly TechniqueRow[] {
  const then = when === null ? plan : momentPlan(plan, when);
  return [false, true].flatMap((attendant) => {
    const situation = assess(withAttendant(then, attendant));
    const rides = then.rig.load.parts.some((p) => p.kind === "attendant");
    const lacksAttendant = attendant && !rides ? ["an attendant"] : [];
    const wanted = techniquePlans(situation).filter(({ id }) => ids?.includes(id) ?? true);
    return wanted.map((technique) => rowOf(technique, attendant, { when, tipGives }, lacksAttendant));
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

function rowOf(
  technique: TechniquePlan,
  attendant: boolean,
  how: Followed,
  lacksAttendant: readonly string[],
): TechniqueRow {
  const { id, name } = technique;
  const base = {
    id,
    name,
    attendant,
    tip: how.tipGives ? ("gives" as const) : ("stiff" as const),
    needs: [...technique.needs, ...lacksAttendant],
    behindEdge: behindEdges(technique),
  };
  const nothing = { ...base, figures: null, tipAtRest: null, worst: null, gone: "", verdict: null };
  if (technique.plan === null) return { ...nothing, says: [technique.says] };
  const situation = assess(technique.plan);
  const figures = figuresOf(situation, technique);
  const worst = worstLoss(situation, technique, how);
  if (worst === null) return { ...nothing, says: notSolved(situation) };
  return {
    ...base,
    figures,
    tipAtRest: tipAtRest(situation),
    says: figures === null ? notSolved(situation) : worst.one.says,
    worst: worst.one,
    gone: lineNames(technique.plan, worst.one.cut),
    verdict: verdictOf(technique.plan, worst),
  };
}

/** How the tip is used at rest, of its uses that count the worst. */
function tipAtRest(situation: Situation): TechniqueRow["tipAtRest"] {
  const [worst] = [...tipRating(situation)].sort(worstFirst);
  return worst ? { status: worst.status, ratio: worst.ratio } : null;
}

const notSolved = ({ holding }: Situation): Phrase =>
  holding.state === "unsolved" ? holding.says : ["No balance of forces was found."];

function figuresOf(situation: Situation, technique: TechniquePlan): TechniqueRow["figures"] {
  const { cases, felt, lines } = situation;
  const all = cases.flatMap((travel) => (felt[travel] ? [felt[travel]] : []));
  if (all.length === 0 || situation.laid.mains.some((m) => m.efficiencies[0] === null)) return null;
  const { parts } = technique;
  const beyondM = behindEdges(technique).reduce((total, [edge, brake]) => total + distance(edge, brake), 0);
  const tipping = all.flatMap((f) => f.tipping.map((t) => t.momentNm));
  return {
    tipInBeam: {
      compressionN: largest(all.map((f) => f.inBeam.compressionN)),
      normalN: largest(all.map((f) => f.inBeam.normalN)),
      lateralN: largest(all.map((f) => f.inBeam.lateralN)),
      resultantN: largest(all.map((f) => f.inBeam.resultantN)),
    },
    ladderMomentNm: largest(all.map((f) => f.utilisations.bending.demand)),
    tippingNm: tipping.length > 0 ? Math.max(...tipping) : null,
    ropeM: lines.reduce((total, l) => total + l.neededM + ((parts[l.id] ?? 1) - 1) * l.pathM, beyondM),
    ...peopleOn(situation, technique),
  };
}

/** From where each belay turns over an edge to its brake. */
const behindEdges = ({ plan, belays }: TechniquePlan): TechniqueRow["behindEdge"] =>
  (plan?.rig.taglines ?? []).flatMap(({ id, handler }) => {
    const over = belays[id]?.over;
    return over ? [[asSite(handler), over.brakeAt] as const] : [];
  });

/** Of several the one that is farthest from nothing, with its sign. */
const largest = (values: readonly number[]): number => values.reduce((a, b) => (Math.abs(b) > Math.abs(a) ? b : a), 0);

/**
 * Who is on the ropes: crews, and one at each brake; while raising by hand as many at each rope's end as its pull there takes,
 * by the policy's pull for each person. A tackle is one rope, pulled at its lead; one between brake and hands is not reckoned.
 */
function peopleOn(
  { plan, state }: Situation,
  { parts }: TechniquePlan,
): { readonly people: number; readonly peopleRaising: number | null } {
  const ends = (state?.mains ?? []).filter((m) => parts[m.laid.line.id] === undefined);
  const crews = plan.rig.taglines.reduce((total, t) => total + t.people, 0) + (plan.rig.tether?.people ?? 0);
  const pullN = plan.policy.pullPerPersonN.value;
  const haulers = (endN: number): number => (pullN ? Math.max(1, Math.ceil(endN / pullN)) : 0);
  return {
    people: crews + ends.length,
    peopleRaising: pullN ? ends.reduce((total, m) => total + haulers(m.tensionsN.raise.at(-1) ?? 0), crews) : null,
  };
}

/** At which moment losses are followed, and with what tip. */
interface Followed {
  readonly when: When | null;
  readonly tipGives: boolean;
}

/** A loss, and the check on it that is worst with its brakes held fast. */
interface JudgedLoss {
  readonly one: LetGoCase;
  readonly ifHeld: Check | null;
}

/** Each line cut in turn, those that are one rope together: the worst by what is judged. */
function worstLoss(situation: Situation, technique: TechniquePlan, { when, tipGives }: Followed): JudgedLoss | null {
  const { plan } = situation;
  const { belays, slackM, oneRope } = technique;
  const cuts = oneRope ? [plan.rig.mainLines.map((l) => l.id)] : linesOn(plan).map((l) => [l.id]);
  const losses = cuts.map((cut): JudgedLoss => {
    const one = letGoCase(situation, when, cut, { belays, slackM: without(slackM, cut), tipGives });
    return { one, ifHeld: worstCheck(plan, { ...one, slipUnknown: [] }) };
  });
  return losses.reduce<JudgedLoss | null>((a, b) => (a === null || isHarder(b, a) ? b : a), null);
}

/** The plan is that of the moment already. */
const worstCheck = (plan: Plan, one: LetGoCase): Check | null => letGoChecks(plan, [{ ...one, when: null }])[0] ?? null;

function verdictOf(plan: Plan, { one, ifHeld }: JudgedLoss): TechniqueRow["verdict"] {
  const found = one.slipUnknown.length === 0 ? ifHeld : worstCheck(plan, one);
  if (found === null || ifHeld === null) return null;
  const { subject, status, ratio } = ifHeld;
  return { status: found.status, ifHeld: { subject, status, ratio } };
}

/** Slack is run in by what is left when another line goes; the slack line itself going changes nothing. */
const without = (slackM: Readonly<Record<string, number>>, cut: readonly string[]): Readonly<Record<string, number>> =>
  Object.fromEntries(Object.entries(slackM).filter(([id]) => !cut.includes(id)));

/** Worse of two losses: by what holds, then by their worst checks, then by force, drop, slip and hits. */
function isHarder(a: JudgedLoss, b: JudgedLoss): boolean {
  const outcomes = rankOfOutcome(a.one.outcome) - rankOfOutcome(b.one.outcome);
  const checks = a.ifHeld && b.ifHeld ? rankOf(a.ifHeld.status) - rankOf(b.ifHeld.status) : 0;
  const ratios = (b.ifHeld?.ratio ?? 0) - (a.ifHeld?.ratio ?? 0);
  const order = outcomes || checks || ratios;
  return order === 0 ? isWorse(a.one, b.one) : order < 0;
}
