import { amount, amountOr, judge, limitTerm } from "../judge.ts";
import type { Rule } from "./rule.ts";

/** Are there more people on the ropes than the policy allows? */
export const persons: Rule = ({ plan, sum, load }) => [
  judge(plan.policy, {
    id: "persons",
    rule: "persons",
    demand: amount(sum.persons, "count"),
    limit: amountOr(plan.policy.personsMax.value, "count"),
    words: () => ({
      subject: "People on the ropes",
      question: "People on the load against the most allowed",
      reading: [amount(sum.persons, "count"), sum.persons === 1 ? " person on the ropes." : " people on the ropes."],
      ifOver: ["Take people off the load."],
      ifUnknown: ["No limit is set."],
      working: {
        formula: "people ÷ most allowed",
        terms: [
          ...plan.rig.load.parts.map((p) => ({
            symbol: p.name,
            meaning: p.kind,
            value: p.massKg,
            quantity: "mass" as const,
          })),
          limitTerm("most allowed", "people", plan.policy.personsMax, "count"),
        ],
        limitSource: plan.policy.personsMax.source,
      },
      at: load.yoke,
      field: "rig.load.parts",
    }),
  }),
];
