import { amountOr, judge } from "../judge.ts";
import { lowestLimit } from "./lowest-limit.ts";
import type { Rule } from "./rule.ts";

/** Is the wind under the lowest limit that applies: the maker's or the policy's? */
export const wind: Rule = ({ plan, load }) => {
  const { device } = plan.aerial;
  const gust = plan.scene.wind.gustMS;
  const lowest = lowestLimit({ value: device.maxWindMS, source: device.maxWindSource }, plan.policy.windMaxMS, gust);
  const demand = amountOr(gust, "speed");
  const limit = amountOr(lowest.value, "speed");
  return [
    judge(plan.policy, {
      id: "wind",
      rule: "wind",
      demand,
      limit,
      words: () => ({
        subject: "Wind",
        question: "Gust against the lowest limit that applies",
        reading: demand && limit ? [demand, " of ", limit, "."] : [],
        ifOver: ["Nobody goes on rope in this wind."],
        ifUnknown:
          gust === null
            ? ["Wind not measured: measure it at the height of the load."]
            : ["Not known how much wind the maker allows: take it from the manual."],
        working: {
          formula: "gust ÷ lowest limit",
          terms: [
            { symbol: "gust", meaning: "3-second gust at the load's height", value: gust, quantity: "speed" },
            {
              symbol: "maker's",
              meaning: "highest wind the maker allows",
              value: device.maxWindMS,
              quantity: "speed",
              source: device.maxWindSource,
            },
            {
              symbol: "policy",
              meaning: "highest wind the policy allows",
              value: plan.policy.windMaxMS.value,
              quantity: "speed",
              source: plan.policy.windMaxMS.source,
            },
          ],
          limitSource: lowest.source || "no document named",
        },
        at: load.yoke,
        field: "scene.wind.gustMS",
      }),
    }),
  ];
};
