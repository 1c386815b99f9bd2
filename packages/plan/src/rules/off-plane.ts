import { angleBetween, subtract } from "@gantline/engine";
import { amountOr, type Finding, judge, limitTerm } from "../judge.ts";
import type { MainLine } from "../schema/rig.ts";
import type { Situation } from "../situation.ts";
import type { Rule } from "./rule.ts";
import { notSolved, worstCase } from "./worst-case.ts";

/** Do the ropes pull the ladder sideways, all together, and does each run back in line with it? */
export const offPlane: Rule = (s) => [sidePull(s), ...s.plan.rig.mainLines.map((line, i) => inLine(s, line, i))];

/** The sum of the pulls, by the maker's side rating where there is one, else by a planning limit on the angle. */
function sidePull(s: Situation): Finding {
  const { policy, aerial } = s.plan;
  const byForce = aerial.device.sideRatingN !== null;
  const worst = worstCase(s, (felt) => (byForce ? Math.abs(felt.inBeam.lateralN) : Math.abs(felt.inBeam.offPlaneRad)));
  const quantity = byForce ? "force" : "angle";
  const demand = amountOr(worst?.value ?? null, quantity);
  const limit = amountOr(byForce ? aerial.device.sideRatingN : policy.offPlaneMaxRad.value, quantity);
  return judge(policy, {
    id: "off-plane",
    rule: "off-plane",
    demand,
    limit,
    words: () => ({
      subject: "Sideways pull on the tip",
      question: byForce
        ? "Side load against the maker's side rating"
        : "Angle of the pull out of the ladder's vertical plane",
      reading: demand && limit ? [demand, " of ", limit, byForce ? "." : " out of the ladder's plane."] : [],
      ifOver: ["Swing the ladder into line, bring the redirects under it, or hold the load nearer its plane."],
      ifUnknown: worst ? ["No limit for side load is set."] : notSolved(s),
      working: {
        formula: byForce ? "F lateral ÷ side rating" : "angle ÷ planning limit, sin angle = F lateral ÷ F",
        terms: [
          {
            symbol: byForce ? "F lateral" : "angle",
            meaning: byForce
              ? "sum of the pulls square to the ladder's plane"
              : "of the sum F of the pulls, the push along the ladder with them, out of the ladder's vertical plane",
            value: worst?.value ?? null,
            quantity,
          },
          ...(byForce || !worst
            ? []
            : [
                {
                  symbol: "F lateral",
                  meaning: "part of it square to that plane",
                  value: Math.abs(worst.felt.inBeam.lateralN),
                  quantity: "force" as const,
                },
              ]),
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
  });
}

/**
 * Each rope by itself: pulls led off to either side cancel in the sum, and one of them is left alone when the other rope goes.
 * Moving ropes in line with the ladder, never off its centre: common practice, no source.
 */
function inLine(s: Situation, { id, name }: MainLine, index: number): Finding {
  const { policy } = s.plan;
  const main = s.state?.mains.find((m) => m.laid.line.id === id);
  const tip = main ? main.nodes.findIndex((n) => n.kind === "tip") : -1;
  const [from, to] = [main?.nodes[tip]?.at, main?.nodes[tip + 1]?.at];
  const way = from && to ? subtract(to, from) : null;
  const angleRad = way ? Math.abs(Math.PI / 2 - angleBetween(way, s.geometry.posed.axes.lateral)) : null;
  const demand = amountOr(angleRad, "angle");
  const limit = amountOr(policy.offPlaneMaxRad.value, "angle");
  return judge(policy, {
    id: `off-plane/return/${id}`,
    rule: "off-plane",
    demand,
    limit,
    words: () => ({
      subject: `${name}, in line with the ladder`,
      question: "Angle of the rope behind the tip sheave out of the ladder's vertical plane",
      reading: demand && limit ? [demand, " of ", limit, " out of the ladder's plane."] : [],
      ifOver: ["Lead it back to a redirect under the ladder."],
      ifUnknown: way ? ["No limit for side load is set."] : notSolved(s),
      working: {
        formula: "angle ÷ planning limit",
        terms: [
          {
            symbol: "angle",
            meaning: "from tip sheave to where the rope runs next",
            value: angleRad,
            quantity: "angle",
          },
          limitTerm("planning limit", "on the angle", policy.offPlaneMaxRad, "angle"),
        ],
        limitSource: policy.offPlaneMaxRad.source,
      },
      at: from ?? s.geometry.posed.tip,
      field: `rig.mainLines[${index}].redirects`,
    }),
  });
}
