import { type JackLine, lerp, momentAboutLine } from "@gantline/engine";
import { amount, amountOr, type Finding, judge, limitTerm } from "../judge.ts";
import type { Rule } from "./rule.ts";
import { vehicleForces } from "./vehicle-forces.ts";

/**
 * Does the vehicle's own weight hold against what the ropes do, with the policy's factor? The worst jack line.
 * Its ladder as posed is part of the weight that holds.
 */
export const stability: Rule = (s): readonly Finding[] => {
  const { plan } = s;
  const factor = plan.policy.stabilityFactor;
  const forces = vehicleForces(s);
  const overs = forces.known
    ? s.stand.ratedTipping.flatMap(({ line }) =>
        forces.ropes.map((ropes) => ({
          line,
          overturningNm: Math.max(0, momentAboutLine(line, ropes)),
          holdingNm: 0 - momentAboutLine(line, forces.weights),
        })),
      )
    : [];
  const worst = overs.reduce<Over | null>((a, b) => (a === null || severity(b) > severity(a) ? b : a), null);
  // What tips over by itself is over, whatever the ropes do.
  const demand =
    worst === null || factor.value === null
      ? null
      : Math.max(worst.overturningNm * factor.value, worst.holdingNm > 0 ? 0 : 1);
  const names = new Map(s.geometry.jacks.map((j) => [j.id, j.name.toLowerCase()]));
  return [
    judge(plan.policy, {
      id: "stability",
      rule: "stability",
      demand: amountOr(demand, "moment"),
      limit: amountOr(worst?.holdingNm ?? null, "moment"),
      words: () => ({
        subject: worst
          ? `Stability, ${names.get(worst.line.from.id) ?? worst.line.from.id} to ${names.get(worst.line.to.id) ?? worst.line.to.id}`
          : "Stability",
        question: "Overturning moment of the ropes × factor against the moment of the vehicle's own weight that holds",
        reading: worst
          ? [amount(worst.overturningNm, "moment"), " tips it, ", amount(worst.holdingNm, "moment"), " holds it."]
          : [],
        ifOver: [
          "Steepen or shorten the ladder, run the jacks out, lighten the load, or move the off-vehicle anchors.",
        ],
        ifUnknown: forces.known ? [worst === null ? "The jacks enclose no ground." : "No factor is set."] : forces.says,
        working: {
          formula: "M × factor ÷ M holding",
          terms: [
            {
              symbol: "M",
              meaning: "overturning moment of ropes at rigging points, redirects and brakes on the vehicle",
              value: worst?.overturningNm ?? null,
              quantity: "moment",
            },
            limitTerm("factor", "holding ÷ overturning that is asked", factor, "ratio"),
            {
              symbol: "M holding",
              meaning: "of the vehicle's weight with its ladder as posed, all on its jacks",
              value: worst?.holdingNm ?? null,
              quantity: "moment",
              source: plan.aerial.device.source,
            },
          ],
          limitSource: factor.source,
        },
        at: worst ? lerp(worst.line.from.position, worst.line.to.position, 0.5) : undefined,
        field: forces.known ? "aerial.place.turntableX" : "aerial.device.massCentre",
      }),
    }),
  ];
};

interface Over {
  readonly line: JackLine;
  readonly overturningNm: number;
  readonly holdingNm: number;
}

/** A line that nothing holds is worst of all. */
const severity = ({ overturningNm, holdingNm }: Over): number => (holdingNm > 0 ? overturningNm / holdingNm : 1e9);
