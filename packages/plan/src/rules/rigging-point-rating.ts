import { amountOr, judge, limitTerm } from "../judge.ts";
import type { Rule } from "./rule.ts";
import { strengthDivisor } from "./strength-divisor.ts";
import { notSolved, worstCase } from "./worst-case.ts";

/** Does any rigging point carry more than its rating allows? */
export const riggingPointRating: Rule = (s) => {
  const { device } = s.plan.aerial;
  const used = device.riggingPoints.filter((p) => s.plan.rig.mainLines.some((l) => l.tip.pointId === p.id));
  return used.map((point) => {
    const worst = worstCase(s, (felt) => felt.points.find((p) => p.pointId === point.id)?.resultantN ?? null);
    const divisor = strengthDivisor(s.plan.policy, point.ratingBasis);
    const allowedN = point.ratingN === null || divisor.value === null ? null : point.ratingN / divisor.value;
    const demand = amountOr(worst?.value ?? null, "force");
    const limit = amountOr(allowedN, "force");
    return judge(s.plan.policy, {
      id: `rigging-point-rating/${point.id}`,
      rule: "rigging-point-rating",
      demand,
      limit,
      words: () => ({
        subject: `Rigging point: ${point.name}`,
        question: "Force at the point against its rating",
        reading: demand && limit ? [demand, " of ", limit, "."] : [],
        ifOver: ["Share the load over more points, or use a stronger one."],
        ifUnknown: !worst
          ? notSolved(s)
          : point.ratingN === null
            ? ["No rating is known for this point. Ask the maker."]
            : point.ratingBasis === null
              ? ["Not said whether its rating is a working load or a breaking strength. Ask the maker."]
              : [`No factor is set for a ${point.ratingBasis} rating.`],
        working: {
          formula: divisor.value === 1 ? "F ÷ rating" : "F × n ÷ rating",
          terms: [
            {
              symbol: "F",
              meaning: "force at the point, worst of raising and lowering",
              value: worst?.value ?? null,
              quantity: "force",
            },
            {
              symbol: "rating",
              meaning: point.ratingBasis === null ? "rating" : `${point.ratingBasis} rating`,
              value: point.ratingN,
              quantity: "force",
              source: point.ratingSource || "no document named",
            },
            ...(divisor.value === 1 ? [] : [limitTerm("n", "factor asked for", divisor, "ratio")]),
          ],
          limitSource: point.ratingSource || "no document named",
        },
        at: s.geometry.riggingPoints.find((p) => p.id === point.id)?.at,
        field: "aerial.device.riggingPoints",
      }),
    });
  });
};
