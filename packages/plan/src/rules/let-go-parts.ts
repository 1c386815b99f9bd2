import type { Check } from "../check.ts";
import type { When } from "../evolve/evolution-types.ts";
import { momentPlan } from "../evolve/moment-plan.ts";
import type { LetGoCase, LetGoFigures } from "../let-go/let-go-plan-types.ts";
import { type Component, listComponents } from "../rig/components.ts";
import type { Plan } from "../schema/plan.ts";
import { solvePlan } from "../solve-plan.ts";
import { allowedOf, divisorOf, peakCheck } from "./let-go-peak-check.ts";

/** How strong each part is, by its id, for the moment of a case. */
export type PartsKnown = (when: When | null, ids: readonly string[]) => ReadonlyMap<string, Component>;

/** The parts of a plan's load paths: strengths do not change from moment to moment, only which parts there are. */
export function partsOf(plan: Plan): PartsKnown {
  const known = new Map<string, Component>();
  return (when, ids) => {
    if (ids.some((id) => !known.has(id))) {
      const { plan: then, state, sum, cases } = solvePlan(when === null ? plan : momentPlan(plan, when));
      for (const c of state ? listComponents(then, state, sum, cases) : []) known.set(c.id, c);
    }
    return known;
  };
}

/** Parts that have checks of their own. */
const APART = /^(?!load\/).*\/(rope|knot|brake)$/;

interface JudgedPart {
  readonly part: Component;
  readonly peakN: number;
  readonly ratio: number | null;
}

/**
 * Does every other part of a line's path hold its peak, and yoke, bridle and litter theirs: connectors, sheaves, slings, the
 * anchors of redirects and brakes? One check a line, of its part that is worst off; the others like it are named.
 */
export function partChecks(
  plan: Plan,
  one: LetGoCase,
  { partsN }: LetGoFigures,
  gone: string,
  known: PartsKnown,
): readonly Check[] {
  const ids = Object.keys(partsN);
  if (ids.length === 0) return [];
  const parts = known(one.when, ids);
  const owners = new Map<string, JudgedPart[]>();
  for (const [id, peakN] of Object.entries(partsN)) {
    const part = parts.get(id);
    const owner = id.slice(0, id.indexOf("/"));
    if (!part || (APART.test(id) && owner !== plan.rig.tether?.id)) continue;
    const allowedN = allowedOf(keptN(part), divisorOf(plan.policy, part.basis));
    const judged = { part, peakN, ratio: allowedN === null || allowedN <= 0 ? null : peakN / allowedN };
    owners.set(owner, [...(owners.get(owner) ?? []), judged]);
  }
  return [...owners].map(([owner, judged]) => worstPart(plan, one, gone, owner, judged));
}

/** What knots and hitches leave of its strength, N; null: not known. */
const keptN = ({ strengthN, reductions }: Component): number | null =>
  reductions.reduce<number | null>(
    (kept, r) => (kept === null || r.factor === null ? null : kept * r.factor),
    strengthN,
  );

/** Over, not known, by ratio. */
const badness = ({ ratio }: JudgedPart): number => (ratio === null ? 1 : ratio > 1 ? 1 + ratio : ratio);

function worstPart(plan: Plan, one: LetGoCase, gone: string, owner: string, judged: readonly JudgedPart[]): Check {
  const { part, peakN, ratio } = judged.reduce((a, b) => (badness(b) > badness(a) ? b : a));
  const others = judged.filter(
    (j) => j.part !== part && (ratio === null ? j.ratio === null : ratio > 1 && (j.ratio ?? 0) > 1),
  );
  const also = others.length === 0 ? "" : ` So with ${others.map((o) => o.part.subject).join("; ")}.`;
  const line = [...plan.rig.mainLines, ...plan.rig.taglines, ...(plan.rig.tether ? [plan.rig.tether] : [])].find(
    (l) => l.id === owner,
  );
  return peakCheck(plan, one, gone, {
    id: `parts/${owner}`,
    subject: `A line gone: parts of ${line?.name ?? "what the load hangs by"}`,
    question: "Highest force in the part that is worst off against what is left of its strength, over the factor",
    about: `${part.subject}: `,
    peak: peakN,
    strength: keptN(part),
    strengthMeaning: "strength after knots and hitches",
    strengthSource: part.strengthSource,
    divisor: divisorOf(plan.policy, part.basis),
    field: part.field,
    ifOver: [`Use a stronger part, share the load more evenly, or take slack out.${also}`],
    ifUnlimited: [`${gone}: the strength of ${part.subject} is not known, or not by which word it is given.${also}`],
  });
}
