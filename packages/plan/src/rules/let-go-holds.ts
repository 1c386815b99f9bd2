import type { Check, Status } from "../check.ts";
import { declare, tell } from "../judge.ts";
import type { CriticalPoint, LetGoCase } from "../let-go/let-go-plan-types.ts";
import type { Plan } from "../schema/plan.ts";
import type { Phrase } from "../units/quantity.ts";
import { lineNames } from "./line-names.ts";

const ONE_PART = "failure of any one part must not cause total failure: critical point test, rope rescue practice";
const NO_HANDS = "the system must hold when all let go at once: whistle test, rope rescue practice, no source";

/** Is there still something that holds the load? */
export function holdsCheck(plan: Plan, one: LetGoCase): Check {
  const names = lineNames(plan, one.cut);
  const says: Phrase = [`${names} gone. `, ...one.says];
  return tell(
    declare(
      {
        id: `let-go/holds/${one.cut.join("+")}`,
        rule: "let-go",
        demand: null,
        limit: null,
        words: () => ({
          subject: `${names} gone: what holds the load`,
          question: "Does something else hold the load when this line goes, at every moment?",
          reading: says,
          ifOver: ["Put an independent second line on the load."],
          ifUnknown: says,
          working: {
            formula: "held by another main line: yes or no",
            terms: [],
            limitSource: ONE_PART,
          },
          at: one.yoke,
          field: "rig.mainLines",
        }),
      },
      statusOf(one.outcome, one),
    ),
  );
}

/** Does something hold when a point that more than one line hangs on goes, or when everyone lets go at once? */
export function pointCheck({ id, kind, subject, outcome, says, result, at }: CriticalPoint): Check {
  const hands = kind === "everyone";
  return tell(
    declare(
      {
        id: hands ? "let-go/hands-off" : `let-go/shared/${id}`,
        rule: "let-go",
        demand: null,
        limit: null,
        words: () => ({
          subject: hands ? "Everyone lets go at once: what holds the load" : `${subject}: shared, and gone`,
          question: hands
            ? "Does the load stay held when every hand on ropes and brakes lets go?"
            : "Does something else hold the load when this point goes, with all that hangs on it?",
          reading: says,
          ifOver: hands
            ? ["Use brakes that hold with no hand on them, or make them fast."]
            : ["Part them: one point for each line."],
          ifUnknown: says,
          working: { formula: "held: yes or no", terms: [], limitSource: hands ? NO_HANDS : ONE_PART },
          at,
          field: hands ? "gear" : "rig.mainLines",
        }),
      },
      statusOf(outcome, result),
    ),
  );
}

const statusOf = (outcome: LetGoCase["outcome"], result: LetGoCase | null): Status =>
  outcome === "falls" ? "over" : outcome === "unknown" || (result && isHeldFast(result)) ? "unknown" : "within";

/** Something moves, and whether a brake then holds is not known. */
const isHeldFast = ({ figures, slipUnknown }: LetGoCase): boolean => figures !== null && slipUnknown.length > 0;
