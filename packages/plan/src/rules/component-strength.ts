import type { Term } from "../check.ts";
import { amountOr, judge, limitTerm } from "../judge.ts";
import { type Component, listComponents, listUnsolvedComponents } from "../rig/components.ts";
import type { Policy } from "../schema/policy.ts";
import type { Amount, Phrase } from "../units/quantity.ts";
import type { Rule } from "./rule.ts";
import { strengthDivisor } from "./strength-divisor.ts";
import { notSolved } from "./worst-case.ts";

/** Does any component in any load path carry more than its strength and the policy's factor allow? */
export const componentStrength: Rule = (s) => {
  const components =
    s.state === null ? listUnsolvedComponents(s.plan, s.laid) : listComponents(s.plan, s.state, s.sum, s.cases);
  return components.map((c) => {
    const asked = askedOf(c, s.plan.policy);
    const demand = amountOr(c.forceN, "force");
    const { limit } = asked;
    return judge(s.plan.policy, {
      id: asked.id,
      rule: "component-strength",
      demand,
      limit,
      words: () => ({
        subject: c.subject,
        question: "Force against what is left of its strength after knots, hitches and the factor",
        reading: demand && limit ? [demand, " of ", limit, " allowed."] : [],
        ifOver: ADVICE,
        ifUnknown: c.forceN === null ? notSolved(s) : asked.untold,
        working: {
          formula: asked.formula,
          terms: [
            { symbol: "F", meaning: "force in it, worst of the travel cases", value: c.forceN, quantity: "force" },
            ...asked.terms,
          ],
          limitSource: asked.limitSource,
        },
        at: c.at,
        field: c.field,
      }),
    });
  });
};

const ADVICE: Phrase = ["Use a stronger part, or take force off this line."];

/** What of the check is the same whatever force the part carries. */
interface Asked {
  readonly policy: Policy;
  readonly id: string;
  readonly limit: Amount | null;
  readonly formula: string;
  readonly terms: readonly Term[];
  readonly limitSource: string;
  readonly untold: Phrase;
}
const known = new WeakMap<object, Asked>();

function askedOf(c: Component, policy: Policy): Asked {
  const before = known.get(c.part);
  if (before?.policy === policy) return before;
  const divisor = strengthDivisor(policy, c.basis);
  const reduced = c.reductions.reduce<number | null>(
    (kept, r) => (kept === null || r.factor === null ? null : kept * r.factor),
    c.strengthN,
  );
  const allowedN = reduced === null || divisor.value === null || divisor.value <= 0 ? null : reduced / divisor.value;
  const symbols = ["S", ...c.reductions.map((r) => r.symbol)].join(" × ");
  const asked: Asked = {
    policy,
    id: `component-strength/${c.id}`,
    limit: amountOr(allowedN, "force"),
    formula: divisor.value === 1 ? `F ÷ (${symbols})` : `F × n ÷ (${symbols})`,
    terms: [
      {
        symbol: "S",
        meaning: c.basis === null ? "strength" : `${c.basis} strength`,
        value: c.strengthN,
        quantity: "force",
        source: c.strengthSource,
      },
      ...c.reductions.map((r) => ({
        symbol: r.symbol,
        meaning: r.meaning,
        value: r.factor,
        quantity: "ratio" as const,
        source: r.source,
      })),
      ...(divisor.value === 1 ? [] : [limitTerm("n", "factor asked for", divisor, "ratio")]),
    ],
    limitSource: `${c.strengthSource}; ${divisor.source}`,
    untold: [untoldOf(c)],
  };
  known.set(c.part, asked);
  return asked;
}

/** What is missing of what a component may carry. */
function untoldOf({ strengthN, reductions, basis }: Component): string {
  if (strengthN === null) return "Its strength is not known: look at its mark, or leave it out.";
  const kept = reductions.find((r) => r.factor === null);
  if (kept) return `Not known what is left of its strength: no figure for "${kept.meaning}".`;
  if (basis === null)
    return "Not said whether its strength is a working load or a breaking strength: look at its mark.";
  return `No factor is set for a ${basis} strength.`;
}
