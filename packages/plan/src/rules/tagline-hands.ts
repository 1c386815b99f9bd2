import { amount, amountOr, judge, limitTerm } from "../judge.ts";
import type { Rule } from "./rule.ts";

/** Can the hands on each tagline hold it? */
export const taglineHands: Rule = (s) =>
  (s.state?.tags ?? []).map(({ laid, tensionN }) => {
    const { line } = laid;
    const pull = s.plan.policy.pullPerPersonN;
    const canHold = pull.value === null ? null : pull.value * line.people;
    return judge(s.plan.policy, {
      id: `tagline-hands/${line.id}`,
      rule: "tagline-hands",
      subject: `${line.name}, hands`,
      question: "Pull to be held against what its crew can hold",
      demand: amount(tensionN, "force"),
      limit: amountOr(canHold, "force"),
      reading:
        canHold === null
          ? []
          : [
              amount(tensionN, "force"),
              " for ",
              amount(line.people, "count"),
              line.people === 1 ? " person." : " people.",
            ],
      ifOver: ["Put more hands on it, or take a turn round something fixed."],
      ifUnknown: ["No pull per person is set."],
      working: {
        formula: "T ÷ (people × pull)",
        terms: [
          { symbol: "T", meaning: "tagline tension", value: tensionN, quantity: "force" },
          { symbol: "people", meaning: "on this line", value: line.people, quantity: "count" },
          limitTerm("pull", "by one person", pull, "force"),
        ],
        limitSource: pull.source,
      },
      at: laid.handsAt,
      field: `rig.taglines[${s.plan.rig.taglines.indexOf(line)}].people`,
    });
  });
