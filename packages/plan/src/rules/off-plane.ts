import { amountOr, judge, limitTerm } from "../judge.ts";
import type { Rule } from "./rule.ts";
import { notSolved, worstCase } from "./worst-case.ts";

/** Do the ropes pull the ladder sideways? By the maker's side rating where there is one, else by a planning limit on the angle. */
export const offPlane: Rule = (s) => {
  const { policy, aerial } = s.plan;
  const byForce = aerial.device.sideRatingN !== null;
  const worst = worstCase(s, (felt) => (byForce ? Math.abs(felt.inBeam.lateralN) : Math.abs(felt.inBeam.offPlaneRad)));
  const quantity = byForce ? "force" : "angle";
  const demand = amountOr(worst?.value ?? null, quantity);
  const limit = amountOr(byForce ? aerial.device.sideRatingN : policy.offPlaneMaxRad.value, quantity);
  return [
    judge(policy, {
      id: "off-plane",
      rule: "off-plane",
      subject: "Sideways pull on the tip",
      question: byForce
        ? "Side load against the maker's side rating"
        : "Angle of the pull out of the ladder's vertical plane",
      demand,
      limit,
      reading: demand && limit ? [demand, " of ", limit, byForce ? "." : " out of the ladder's plane."] : [],
      ifOver: ["Swing the ladder into line, bring the redirects under it, or hold the load nearer its plane."],
      ifUnknown: worst ? ["No limit for side load is set."] : notSolved(s),
      working: {
        formula: byForce ? "F lateral ÷ side rating" : "angle ÷ planning limit",
        terms: [
          {
            symbol: byForce ? "F lateral" : "angle",
            meaning: byForce
              ? "sum of the pulls square to the ladder's plane"
              : "of the sum of the pulls out of the ladder's vertical plane",
            value: worst?.value ?? null,
            quantity,
          },
          byForce
            ? {
                symbol: "side rating",
                meaning: "maker's",
                value: aerial.device.sideRatingN,
                quantity,
                source: aerial.device.sideRatingSource,
              }
            : limitTerm("planning limit", "on the angle", policy.offPlaneMaxRad, quantity),
        ],
        limitSource: byForce ? aerial.device.sideRatingSource : policy.offPlaneMaxRad.source,
      },
      at: s.geometry.posed.tip,
      field: byForce ? "aerial.pose.bearingRad" : "policy.offPlaneMaxRad",
    }),
  ];
};
