import { asSite } from "@gantline/engine";
import { amount, amountOr, judge, limitTerm } from "../judge.ts";
import { endPulls } from "../rig/hanging-tag.ts";
import type { Rule } from "./rule.ts";
import { notSolved } from "./worst-case.ts";

/** Rope on a smooth metal post, as measured low: 0.14 to 0.25 in a physics text for rope technicians (secondary source). */
const POST_FRICTION = 0.14;

/** Half turns round a post that let a crew hold more than its hands can, by the capstan equation: T ÷ hold = e^(µβ). */
function turnsToHold(tensionN: number, holdN: number): number {
  if (!(tensionN > holdN)) return 1;
  return Math.ceil((2 * Math.log(tensionN / holdN)) / (2 * Math.PI * POST_FRICTION)) / 2;
}

/** Can the hands on each tagline hold it? */
export const taglineHands: Rule = (s) =>
  s.plan.rig.taglines.map((line, i) => {
    const tag = s.state?.tags[i];
    const tensionN = s.state && tag ? endPulls(tag, s.state.yoke).handsN : null;
    const pull = s.plan.policy.pullPerPersonN;
    const canHold = pull.value === null ? null : pull.value * line.people;
    return judge(s.plan.policy, {
      id: `tagline-hands/${line.id}`,
      rule: "tagline-hands",
      demand: amountOr(tensionN, "force"),
      limit: amountOr(canHold, "force"),
      words: () => ({
        subject: `${line.name}, hands`,
        question: "Pull to be held against what its crew can hold",
        reading:
          canHold === null || tensionN === null
            ? []
            : [
                amount(tensionN, "force"),
                " for ",
                amount(line.people, "count"),
                line.people === 1 ? " person." : " people.",
              ],
        ifOver:
          tensionN === null || canHold === null || canHold <= 0
            ? ["Nobody holds it: put hands on it."]
            : [
                "Put more hands on it, or take turns round something fixed: ",
                { value: turnsToHold(tensionN, canHold), quantity: "count" },
                " would do.",
              ],
        ifUnknown: tensionN === null ? notSolved(s) : ["No pull per person is set."],
        working: {
          formula: "T ÷ (people × pull)",
          terms: [
            {
              symbol: "T",
              meaning: "pull of the tagline at the hands, as it hangs by its own weight",
              value: tensionN,
              quantity: "force",
            },
            { symbol: "people", meaning: "on this line", value: line.people, quantity: "count" },
            limitTerm("pull", "by one person", pull, "force"),
          ],
          limitSource: pull.source,
        },
        at: asSite(line.handler),
        field: `rig.taglines[${i}].people`,
      }),
    });
  });
