import type { Check } from "../check.ts";
import { amount, amountOr, judge, limitTerm, tell } from "../judge.ts";
import type { Band, LetGoCase } from "../let-go/let-go-plan-types.ts";
import { LET_GO_LIMITS_TEXT } from "../let-go/model-limits.ts";
import type { Basis } from "../rig/component-strengths.ts";
import type { Plan } from "../schema/plan.ts";
import type { Limit, Policy } from "../schema/policy.ts";
import type { Phrase, Quantity } from "../units/quantity.ts";
import { lineNames } from "./line-names.ts";

/** Something that is highest at one moment after a line has gone, and what it may be. */
export interface PeakQuestion {
  readonly id: string;
  readonly subject: string;
  readonly question: string;
  /** A figure without a band is the highest of all runs. */
  readonly peak: Band | number;
  /** Left out: a force. */
  readonly quantity?: Quantity;
  /** Before what is asked of it is divided off; null: not known. */
  readonly strength: number | null;
  readonly strengthMeaning: string;
  readonly strengthSource: string;
  /** Left out: the strength as it stands. */
  readonly divisor?: Limit;
  readonly field: string;
  /** Said before the figures: which part it is. */
  readonly about?: string;
  readonly ifOver?: Phrase;
  /** Where no limit is known. Left out: that none is. */
  readonly ifUnlimited?: Phrase;
  readonly counts?: boolean;
  /** It rests on how far the load goes: held fast it is no upper figure. */
  readonly onTheWay?: boolean;
}

/** As it stands, divided by nothing. */
export const ONE: Limit = { value: 1, source: "as it stands" };

/** What a strength is divided by before a peak may be held against it. */
export function divisorOf(policy: Policy, basis: Basis): Limit {
  if (basis === "working") return policy.peakRatingFactor;
  if (basis === "breaking") return policy.peakStrengthFactor;
  if (basis === "structural") return policy.structuralFactor;
  return { value: null, source: "not said whether the figure is a working load or a breaking strength" };
}

/** What a strength leaves to a peak; null: not known. */
export const allowedOf = (strength: number | null, { value }: Limit): number | null =>
  strength === null || value === null || value <= 0 ? null : strength / value;

/** Is the high end of a peak within what is allowed? Unknown while a brake is only taken to hold fast. @param gone what has gone, in words: "Main A gone" */
export function peakCheck(plan: Plan, one: LetGoCase, gone: string, q: PeakQuestion): Check {
  const { quantity = "force", divisor = ONE, about = "" } = q;
  const band = typeof q.peak === "number" ? null : q.peak;
  const high = amount(typeof q.peak === "number" ? q.peak : q.peak.high, quantity);
  const limit = amountOr(allowedOf(q.strength, divisor), quantity);
  const slips = one.slipUnknown.length === 0;
  return tell(
    judge(plan.policy, {
      id: `let-go/${q.id}`,
      rule: "let-go",
      demand: slips ? high : null,
      limit,
      ...(q.counts === undefined ? {} : { counts: q.counts }),
      words: () => ({
        subject: q.subject,
        question: q.question,
        reading: limit
          ? [
              `${gone}: ${about}`,
              high,
              " of ",
              limit,
              ...(band ? [", band (", amount(band.low, quantity), " to ", high, ")"] : []),
              ".",
            ]
          : [],
        ifOver: q.ifOver ?? ["Share the load more evenly, take slack out, lighten the load, or use a stronger part."],
        ifUnknown: slips
          ? (q.ifUnlimited ?? ["No limit is known to hold the peak against."])
          : [
              `The slip force of the brake of ${lineNames(plan, one.slipUnknown)} is not known`,
              ...(q.onTheWay
                ? [", nor how far the load would go."]
                : [`. Held fast it would be ${about}`, high, ...(limit ? [" of ", limit] : []), ", an upper figure."]),
              " Enter the maker's figure, or one in the policy.",
            ],
        working: {
          formula: divisor.value === 1 ? "F ÷ S" : "F × n ÷ S",
          terms: [
            {
              symbol: "F",
              meaning: band ? "peak, high end of its band" : "peak, highest of all runs",
              value: high.value,
              quantity,
            },
            ...(band
              ? [
                  { symbol: "F as entered", meaning: "peak by the figures entered", value: band.entered, quantity },
                  { symbol: "F low", meaning: "low end of its band", value: band.low, quantity },
                ]
              : []),
            { symbol: "S", meaning: q.strengthMeaning, value: q.strength, quantity, source: q.strengthSource },
            ...(divisor.value === 1 ? [] : [limitTerm("n", "factor asked for at a peak", divisor, "ratio")]),
          ],
          limitSource: `${q.strengthSource}; ${divisor.source}. ${LET_GO_LIMITS_TEXT}`,
        },
        at: one.yoke,
        field: q.field,
      }),
    }),
  );
}
