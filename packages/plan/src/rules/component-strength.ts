import { amountOr, judge, limitTerm } from "../judge.ts";
import { type Component, listComponents, listUnsolvedComponents } from "../rig/components.ts";
import type { Rule } from "./rule.ts";
import { strengthDivisor } from "./strength-divisor.ts";
import { notSolved } from "./worst-case.ts";

/** Does any component in any load path carry more than its strength and the policy's factor allow? */
export const componentStrength: Rule = (s) => {
  const components =
    s.state === null ? listUnsolvedComponents(s.plan, s.laid) : listComponents(s.plan, s.state, s.sum, s.cases);
  return components.map((c) => {
    const divisor = strengthDivisor(s.plan.policy, c.basis);
    const reduced = c.reductions.reduce<number | null>(
      (kept, r) => (kept === null || r.factor === null ? null : kept * r.factor),
      c.strengthN,
    );
    const allowedN = reduced === null || divisor.value === null || divisor.value <= 0 ? null : reduced / divisor.value;
    const demand = amountOr(c.forceN, "force");
    const limit = amountOr(allowedN, "force");
    const symbols = ["S", ...c.reductions.map((r) => r.symbol)].join(" × ");
    return judge(s.plan.policy, {
      id: `component-strength/${c.id}`,
      rule: "component-strength",
      subject: c.subject,
      question: "Force against what is left of its strength after knots, hitches and the factor",
      demand,
      limit,
      reading: demand && limit ? [demand, " of ", limit, " allowed."] : [],
      ifOver: ["Use a stronger part, or take force off this line."],
      ifUnknown: c.forceN === null ? notSolved(s) : [untoldOf(c)],
      working: {
        formula: divisor.value === 1 ? `F ÷ (${symbols})` : `F × n ÷ (${symbols})`,
        terms: [
          { symbol: "F", meaning: "force in it, worst of the travel cases", value: c.forceN, quantity: "force" },
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
      },
      at: c.at,
      field: c.field,
    });
  });
};

/** What is missing of what a component may carry. */
function untoldOf({ strengthN, reductions, basis }: Component): string {
  if (strengthN === null) return "Its strength is not known: look at its mark, or leave it out.";
  const kept = reductions.find((r) => r.factor === null);
  if (kept) return `Not known what is left of its strength: no figure for "${kept.meaning}".`;
  if (basis === null)
    return "Not said whether its strength is a working load or a breaking strength: look at its mark.";
  return `No factor is set for a ${basis} strength.`;
}
