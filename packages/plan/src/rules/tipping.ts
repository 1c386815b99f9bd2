import type { TippingMoment } from "@gantline/engine";
import { lerp } from "@gantline/engine";
import { amount, amountOr, type Finding, judge } from "../judge.ts";
import type { Situation } from "../situation.ts";
import type { Rule } from "./rule.ts";
import { notSolved } from "./worst-case.ts";

/** Do load, taglines and off-vehicle anchors tip the vehicle over its jacks more than the rated load does? The worst jack line. */
export const tipping: Rule = (s) => {
  const frictionKnown = s.laid.mains.every((m) => !m.efficiencies.includes(null));
  const reachKnown = s.plan.aerial.device.jacks.every((j) => (s.plan.aerial.jackReach[j.id] ?? null) !== null);
  const all = frictionKnown && reachKnown ? s.cases.flatMap((travel) => s.felt[travel]?.tipping ?? []) : [];
  const worst = all.reduce<TippingMoment | null>((a, b) => (a === null || severity(b) > severity(a) ? b : a), null);
  return [tippingCheck(s, worst, reachKnown)];
};

/** A line with no ratio is worst of all when something tips over it. */
const severity = (m: TippingMoment): number => (m.momentNm <= 0 ? 0 : (m.ratio ?? 1e9));

function tippingCheck(s: Situation, worst: TippingMoment | null, reachKnown: boolean): Finding {
  const names = new Map(s.geometry.jacks.map((j) => [j.id, j.name.toLowerCase()]));
  const name = worst
    ? `${names.get(worst.line.from.id) ?? worst.line.from.id} to ${names.get(worst.line.to.id) ?? worst.line.to.id}`
    : "";
  const holds = worst !== null && worst.momentNm <= 0;
  const limitNm =
    worst === null ? null : worst.ratedWorstNm !== null && worst.ratedWorstNm > 0 ? worst.ratedWorstNm : null;
  const demand = worst === null ? null : amount(Math.max(0, worst.momentNm), "moment");
  const limit = holds ? amount(limitNm ?? 1, "moment") : amountOr(limitNm, "moment");
  return judge(s.plan.policy, {
    id: "tipping",
    rule: "tipping",
    demand,
    limit: holds && limitNm === null ? null : limit,
    words: () => ({
      subject: worst ? `Tipping over the jacks, ${name}` : "Tipping over the jacks",
      question:
        "Moment from everything outside the vehicle against that of the rated tip load, swung to where it bears hardest",
      reading: holds
        ? ["Nothing outside the vehicle tips it over any jack line."]
        : demand && limit
          ? [demand, " of ", limit, "."]
          : [],
      ifOver: [
        "More than the maker's rated load does: steepen or shorten the ladder, lighten the load, or move the off-vehicle anchors.",
      ],
      ifUnknown: !reachKnown
        ? ["Not known how far every jack is run out, so not where the vehicle would tip."]
        : worst === null
          ? s.stand.ratedTipping.length === 0
            ? ["The jacks enclose no ground."]
            : notSolved(s)
          : s.rating.ratedTipLoadN === null
            ? [`${s.rating.reason} Ask the maker's manual.`]
            : holds
              ? ["Nothing tips outward, but there is no rating to hold it against."]
              : ["The rated load gives no tipping moment over this line to compare with. Ask the maker."],
      working: {
        formula: "M ÷ M rated",
        terms: [
          {
            symbol: "M",
            meaning: "overturning moment of ropes at rigging points, redirects and brakes on the vehicle",
            value: worst?.momentNm ?? null,
            quantity: "moment",
          },
          {
            symbol: "M rated",
            meaning: "rated tip load at this elevation and length, at the bearing where it bears hardest on this line",
            value: worst?.ratedWorstNm ?? null,
            quantity: "moment",
            source: s.plan.aerial.device.tipRating.source,
          },
        ],
        limitSource: `${s.plan.aerial.device.tipRating.source}; jacks out as entered`,
      },
      at: worst ? lerp(worst.line.from.position, worst.line.to.position, 0.5) : undefined,
      field: "aerial.place.turntableX",
    }),
  });
}
