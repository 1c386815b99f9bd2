import { amount, amountOr, declare, judge, limitTerm, type Question } from "../judge.ts";
import { bridleLegs, LEGS_COUNTED } from "../rig/bridle.ts";
import type { Rule } from "./rule.ts";

/** Do the bridle's legs lie too flat? */
export const slingAngle: Rule = (s) => {
  const { policy, rig } = s.plan;
  const { angleRad, counted } = bridleLegs(s.plan, s.sum.weightN);
  const question: Question = {
    id: "sling-angle",
    rule: "sling-angle",
    demand: amountOr(policy.slingAngleMinRad.value, "angle"),
    limit: amount(angleRad, "angle"),
    words: () => ({
      subject: "Bridle legs",
      question: "Least angle from horizontal wanted against the angle there is",
      reading: ["Legs at ", amount(angleRad, "angle"), " from horizontal."],
      ifOver: ["Lengthen the bridle or bring its feet in: flat legs carry far more than their share."],
      ifUnknown: ["No least angle is set."],
      working: {
        formula: "α min ÷ α, α = atan(height ÷ spread)",
        terms: [
          { symbol: "height", meaning: "yoke above the load", value: rig.load.bridle.heightM, quantity: "length" },
          {
            symbol: "spread",
            meaning: "level, from below the yoke to where a leg meets the load",
            value: rig.load.bridle.spreadM,
            quantity: "length",
          },
          { symbol: "α", meaning: "leg from horizontal", value: angleRad, quantity: "angle" },
          {
            symbol: "legs",
            meaning:
              rig.load.bridle.legs > LEGS_COUNTED
                ? "counted on; of four or more on a rigid load two may carry all (common practice, no source)"
                : "counted on",
            value: counted,
            quantity: "count",
          },
          limitTerm("α min", "least angle", policy.slingAngleMinRad, "angle"),
        ],
        limitSource: policy.slingAngleMinRad.source,
      },
      at: s.load.yoke,
      field: "rig.load.bridle.heightM",
    }),
  };
  if (rig.load.bridle.legs === 1 || rig.load.bridle.spreadM === 0)
    return [
      declare({ ...question, words: () => ({ ...question.words(), reading: ["Hangs plumb: no angle."] }) }, "within"),
    ];
  return [judge(policy, question)];
};
