import type { Check } from "../check.ts";
import { amount, amountOr, declare, judge, tell } from "../judge.ts";
import type { LetGoCase, LetGoFigures } from "../let-go/let-go-plan-types.ts";
import { FALL_MS } from "../let-go/load-falls.ts";
import { BELOW } from "../let-go/load-stops.ts";
import { LET_GO_LIMITS_TEXT } from "../let-go/model-limits.ts";
import type { Plan } from "../schema/plan.ts";
import { type PeakQuestion, peakCheck } from "./let-go-peak-check.ts";
import { lineNames } from "./line-names.ts";

/** Does the load run hard against something on its way, come too near to it, or pull a rope out of hands? */
export const wayChecks = (plan: Plan, one: LetGoCase, figures: LetGoFigures, gone: string): readonly Check[] => [
  contactCheck(plan, one, figures, gone),
  ...clearanceChecks(plan, one, figures, gone),
  ...handsChecks(plan, one, figures, gone),
];

const CONTACT = {
  id: "contact",
  subject: "A line gone: what the load runs against",
  question: "Highest speed at which the load meets a wall or what is below it",
} as const;

function contactCheck(plan: Plan, one: LetGoCase, { hits, nearest }: LetGoFigures, gone: string): Check {
  const hardest = hits.reduce<(typeof hits)[number] | null>((a, b) => (a && a.speedMS >= b.speedMS ? a : b), null);
  const untold = nearest.find((n) => n.distanceM === 0 && LADDER.has(n.what));
  if (untold && one.slipUnknown.length === 0) {
    return tell(
      declare(
        {
          id: `let-go/${CONTACT.id}`,
          rule: "let-go",
          demand: null,
          limit: null,
          words: () => ({
            subject: CONTACT.subject,
            question: CONTACT.question,
            reading: [],
            ifOver: [],
            ifUnknown: [`${gone}: the load runs against ${untold.what}. How hard is not in the model.`],
            working: { formula: "touches: yes or no", terms: [], limitSource: LET_GO_LIMITS_TEXT },
            at: untold.yoke,
          }),
        },
        "unknown",
      ),
    );
  }
  return peakCheck(plan, one, gone, {
    ...CONTACT,
    peak: hardest?.speedMS ?? 0,
    quantity: "speed",
    about: hardest ? `the load meets ${hardest.what} at ` : "the load meets nothing, ",
    strength: FALL_MS,
    strengthMeaning: "counted as a fall above this: the speed from 0.2 m",
    strengthSource: "planning choice, no source",
    field: "rig.load.positionM",
    onTheWay: true,
    ifOver: ["Hold the load farther off, keep it lower, or take slack out."],
  });
}

/** The load's nearest to structures and to the ladder. What is wanted at work is not asked of an accident: shown beside, not counted. */
function clearanceChecks(plan: Plan, one: LetGoCase, { nearest }: LetGoFigures, gone: string): readonly Check[] {
  const { policy } = plan;
  const told = one.slipUnknown.length === 0;
  return nearest
    .filter((n) => n.what !== BELOW)
    .map(({ what, distanceM, yoke }) => {
      const wanted = LADDER.has(what) ? policy.loadToLadderClearanceM : policy.loadClearanceM;
      const distance = amount(distanceM, "length");
      return tell(
        judge(policy, {
          id: `let-go/clearance/${what}`,
          rule: "let-go",
          demand: amountOr(wanted.value, "length"),
          limit: told ? distance : null,
          counts: false,
          words: () => ({
            subject: `A line gone: load to ${what}`,
            question: "Distance wanted at work against the nearest that the load comes",
            reading: [`${gone}: `, distance, " from it at the nearest."],
            ifOver: ["At work more is wanted; whether it strikes is judged apart."],
            ifUnknown: told
              ? ["No least distance is set."]
              : [
                  `The slip force of the brake of ${lineNames(plan, one.slipUnknown)} is not known, nor how far the load would go.`,
                ],
            working: {
              formula: "wanted ÷ distance",
              terms: [
                { symbol: "distance", meaning: "nearest on its way", value: distanceM, quantity: "length" },
                {
                  symbol: "wanted",
                  meaning: "at work",
                  value: wanted.value,
                  quantity: "length",
                  source: wanted.source,
                },
              ],
              limitSource: `${wanted.source}. ${LET_GO_LIMITS_TEXT}`,
            },
            at: yoke,
          }),
        }),
      );
    });
}

/** Measured to, and nothing that stops the load. */
const LADDER: ReadonlySet<string> = new Set(["ladder", "platform"]);

/** Crews on lines that are left, against what they can hold: over where the rope is pulled out of their hands. */
const handsChecks = (plan: Plan, one: LetGoCase, { lines }: LetGoFigures, gone: string): readonly Check[] =>
  lines.flatMap(({ lineId, name, letGo, handsHoldN, atEndN }): Check[] => {
    if (handsHoldN === null) return [];
    const question: PeakQuestion = {
      id: `hands/${lineId}`,
      subject: `A line gone: hands on ${name}`,
      question: "Highest pull on the hands against what they can hold",
      peak: atEndN,
      strength: handsHoldN,
      strengthMeaning: "people × pull of each, by the tackle they hold",
      strengthSource: plan.policy.pullPerPersonN.source,
      field: "policy.pullPerPersonN",
      onTheWay: true,
      ifOver: ["Put more hands on it, or give it something to slip over."],
    };
    const check = peakCheck(plan, one, gone, question);
    if (!letGo || check.status === "unknown") return [check];
    // What they let go of never pulls harder than they can hold.
    const says = [`${gone}: the rope is pulled out of hands that hold `, amount(handsHoldN, "force"), ". "];
    return [
      { ...check, status: "over", ratio: Math.max(check.ratio ?? 1, 1), says: [...says, ...(question.ifOver ?? [])] },
    ];
  });
