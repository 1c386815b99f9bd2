import { amountOr, judge, limitTerm } from "../judge.ts";
import type { Rule } from "./rule.ts";
import { notSolved, worstCase } from "./worst-case.ts";

/** Are two rigging points that carry the load together loaded alike? Larger force over their mean. */
export const pairedPoints: Rule = (s) => {
  const { policy, rig } = s.plan;
  const points = new Set(rig.mainLines.map((l) => l.tip.pointId));
  if (points.size < 2) return [];
  const worst = worstCase(s, (felt) => {
    const forces = felt.points.map((p) => p.resultantN);
    const mean = forces.reduce((a, b) => a + b, 0) / forces.length;
    return mean > 0 ? Math.max(...forces) / mean : null;
  });
  const demand = amountOr(worst?.value ?? null, "ratio");
  const limit = amountOr(policy.pairUnevenMax.value, "ratio");
  return [
    judge(policy, {
      id: "paired-points",
      rule: "paired-points",
      demand,
      limit,
      words: () => ({
        subject: "Paired rigging points",
        question: "Larger force of the pair over their mean against the most allowed",
        reading: demand && limit ? [demand, " of ", limit, "."] : [],
        ifOver: ["One point carries too much of the pair: even out the lines, or centre the load between the points."],
        ifUnknown: worst ? ["No limit is set."] : notSolved(s),
        working: {
          formula: "(F max ÷ F mean) ÷ allowed",
          terms: [
            ...(worst?.felt.points ?? []).map((p) => ({
              symbol: p.name,
              meaning: "force at the point",
              value: p.resultantN,
              quantity: "force" as const,
            })),
            limitTerm("allowed", "larger over mean", policy.pairUnevenMax, "ratio"),
          ],
          limitSource: policy.pairUnevenMax.source,
        },
        at: s.geometry.posed.tip,
        field: "rig.mainLines[0].share",
      }),
    }),
  ];
};
