import { amountOr, type Finding, judge } from "../judge.ts";
import type { Policy } from "../schema/policy.ts";
import type { Situation } from "../situation.ts";
import type { Quantity } from "../units/quantity.ts";
import type { Rule } from "./rule.ts";
import { notSolved, worstCase } from "./worst-case.ts";

type Kind = "resultant" | "bending" | "compression";

/** Does this use of the tip rating decide, or does it stand beside those that do? */
export const decidesAtTip = (kind: Kind, { tipBasis }: Pick<Policy, "tipBasis">): boolean =>
  kind !== "compression" || tipBasis === "all";

interface Wording {
  readonly subject: string;
  readonly question: string;
  readonly formula: string;
  readonly quantity: Quantity;
  readonly demandMeaning: string;
  readonly limitMeaning: string;
}

const WORDING: Readonly<Record<Kind, Wording>> = {
  resultant: {
    subject: "Tip, resultant of all rigging points",
    question: "Resultant at the tip against the rated vertical tip load",
    formula: "R ÷ R rated",
    quantity: "force",
    demandMeaning:
      "size of the sum of the forces at the rigging points: both tensions of each rope, and half the weight of its parts there",
    limitMeaning: "rated vertical tip load at this elevation and length",
  },
  bending: {
    subject: "Ladder in bending",
    question: "Bending moment along the ladder against that of the rated tip load",
    formula: "M ÷ M rated, worst along the ladder",
    quantity: "moment",
    demandMeaning: "bending moment in the ladder's vertical plane",
    limitMeaning: "moment of the rated vertical tip load at the same place",
  },
  compression: {
    subject: "Ladder in compression",
    question: "Push along the ladder against that of the rated tip load",
    formula: "N ÷ (R rated · sin φ)",
    quantity: "force",
    demandMeaning: "push along the ladder toward its pivot",
    limitMeaning: "push of the rated vertical tip load along the ladder",
  },
};

/**
 * How much of the maker's tip rating do the ropes use: as a resultant, in bending, in compression?
 * Three separate checks. Resultant and bending decide: a lever on a platform can bend the ladder harder than the rated load
 * does while the resultant is still below it. The policy says whether compression decides as well or stands beside them.
 */
export const tipRating: Rule = (s) => (["resultant", "bending", "compression"] as const).map((kind) => use(s, kind));

function use(s: Situation, kind: Kind): Finding {
  const { plan, rating } = s;
  const wording = WORDING[kind];
  const worst = worstCase(s, (felt) => felt.utilisations[kind].demand);
  const found = worst?.felt.utilisations[kind];
  const demand = found ? amountOr(found.demand, wording.quantity) : null;
  const limit = found ? amountOr(found.limit, wording.quantity) : null;
  const source = plan.aerial.device.tipRating.source;
  return judge(plan.policy, {
    id: `tip-rating/${kind}`,
    rule: "tip-rating",
    demand,
    limit,
    counts: decidesAtTip(kind, plan.policy),
    words: () => ({
      subject: wording.subject,
      question: wording.question,
      reading:
        demand && limit
          ? [
              demand,
              " of ",
              limit,
              worst && s.cases.length > 1 ? ` (${worst.travel === "raise" ? "raising" : "lowering"}).` : ".",
            ]
          : [],
      ifOver: ["Steepen or shorten the ladder, lighten the load, or bring the returning ropes off the tip."],
      ifUnknown: !found
        ? notSolved(s)
        : [rating.ratedTipLoadN === null ? `${rating.reason} Ask the maker's manual.` : found.reason],
      working: {
        formula: wording.formula,
        terms: [
          {
            symbol: kind === "bending" ? "M" : kind === "compression" ? "N" : "R",
            meaning: wording.demandMeaning,
            value: found?.demand ?? null,
            quantity: wording.quantity,
          },
          {
            symbol: kind === "bending" ? "M rated" : kind === "compression" ? "R rated · sin φ" : "R rated",
            meaning: wording.limitMeaning,
            value: found?.limit ?? null,
            quantity: wording.quantity,
            source,
          },
          ...(kind === "bending" && typeof found?.stationM === "number"
            ? [
                {
                  symbol: "s",
                  meaning: "from the pivot along the ladder, where it is worst",
                  value: found.stationM,
                  quantity: "length" as const,
                },
              ]
            : []),
          { symbol: "φ", meaning: "elevation", value: plan.aerial.pose.elevationRad, quantity: "angle" },
          { symbol: "L", meaning: "ladder length", value: plan.aerial.pose.lengthM, quantity: "length" },
        ],
        limitSource: `${source}. ${rating.reason}`,
      },
      at: s.geometry.posed.tip,
      field: "aerial.device.tipRating",
    }),
  });
}
