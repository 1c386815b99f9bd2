import type { SiteVector } from "@gantline/engine";
import type { Check, Status, Working } from "./check.ts";
import type { Limit, Policy } from "./schema/policy.ts";
import type { Amount, Phrase, Quantity } from "./units/quantity.ts";
import { OVER_BY } from "./units/write-amount.ts";

/** A ratio beyond this is written as this, so that no infinity reaches a screen or paper. */
export const RATIO_CAP = 99;

/** Where the policy sets no close ratio, everything over this is `close`. */
const CLOSE_RATIO = 0.9;

export const amount = (value: number, quantity: Quantity): Amount => ({ value, quantity });
export const amountOr = (value: number | null, quantity: Quantity): Amount | null =>
  value === null ? null : { value, quantity };

/** What is said of a finding. */
export interface Words {
  /** Plain words: what is judged, "Main A, sheave at the tip". */
  readonly subject: string;
  /** Plain words: what is asked of it. */
  readonly question: string;
  /** The finding in a few words, said whatever the status. */
  readonly reading: Phrase;
  /** Added where it is over. */
  readonly ifOver: Phrase;
  /** Said instead where it cannot be told. */
  readonly ifUnknown: Phrase;
  readonly working: Working;
  readonly at?: SiteVector | undefined;
  readonly field?: string | undefined;
}

export interface Question {
  readonly id: string;
  readonly rule: string;
  /** What is asked for; null: not known. Where more is better, this is what is wanted and the limit what there is. */
  readonly demand: Amount | null;
  readonly limit: Amount | null;
  readonly counts?: boolean;
  /** Asked for only where the finding is told: a sweep makes thousands and tells each at its worst. */
  readonly words: () => Words;
}

/** A question answered, not yet told. */
export interface Finding extends Question {
  readonly ratio: number | null;
  readonly status: Status;
  readonly counts: boolean;
}

/** Judge a demand against a limit: ratio and status. A missing number is `unknown`. */
export function judge(policy: Policy, q: Question): Finding {
  const ratio = ratioOf(q.demand, q.limit);
  return settle(q, statusOf(ratio, policy), ratio);
}

/** Judge a distance to keep. What touches is over, however little is asked; not where it is not known where it is. */
export const judgeDistance = (policy: Policy, touching: boolean, q: Question): Finding =>
  touching && q.limit !== null ? settle(q, "over", RATIO_CAP) : judge(policy, q);

/** A finding that is not a matter of degree. */
export const declare = (q: Question, status: Status): Finding => settle(q, status, null);

/** The same finding, where what was found cannot be relied on after all. */
export const asUnknown = (found: Finding, says: Phrase): Finding => ({
  ...found,
  ratio: null,
  status: "unknown",
  words: () => ({ ...found.words(), ifUnknown: says }),
});

const settle = (
  { id, rule, demand, limit, counts = true, words }: Question,
  status: Status,
  ratio: number | null,
): Finding => ({ id, rule, demand, limit, ratio, status, counts, words });

/** The finding as a check, with the sentence that goes with its status. */
export function tell({ id, rule, demand, limit, ratio, status, counts, words }: Finding): Check {
  const { subject, question, reading, ifOver, ifUnknown, working, at, field } = words();
  const says = status === "unknown" ? ifUnknown : status === "over" ? [...reading, " ", ...ifOver] : reading;
  const check = { id, rule, subject, question, demand, limit, ratio, status, says, counts, working };
  return { ...check, ...(at && { at }), ...(field && { field }) };
}

/** demand ÷ limit, capped; null where either is missing or not a number. Nothing asked for is 0 whatever the limit. */
export function ratioOf(demand: Amount | null, limit: Amount | null): number | null {
  if (demand === null || limit === null) return null;
  if (!Number.isFinite(demand.value) || !Number.isFinite(limit.value)) return null;
  if (demand.value <= 0) return 0;
  if (limit.value <= 0) return RATIO_CAP;
  return Math.min(demand.value / limit.value, RATIO_CAP);
}

export function statusOf(ratio: number | null, policy: Policy): Status {
  if (ratio === null) return "unknown";
  if (ratio > 1 + OVER_BY) return "over";
  return ratio > closeRatioOf(policy) ? "close" : "within";
}

/** Above this ratio, within the limit, it is `close`. */
export const closeRatioOf = (policy: Policy): number => Math.min(policy.closeRatio.value ?? CLOSE_RATIO, 1);

const RANK: Readonly<Record<Status, number>> = { over: 0, unknown: 1, close: 2, within: 3 };

/** How bad a status is: over, unknown, close, within. */
export const rankOf = (status: Status): number => RANK[status];

/** As much of a check as it is put in order by. */
type Judged = Pick<Check, "id" | "rule" | "ratio" | "status" | "counts">;

/** What is missing stands before all that cannot be told for want of it. */
const isCause = ({ rule }: Judged): boolean => rule === "missing-data";

/** Worst first: over, unknown, close, within; of unknowns their causes; then by ratio; what does not count after what does. */
export const worstFirst = (a: Judged, b: Judged): number =>
  Number(b.counts) - Number(a.counts) ||
  RANK[a.status] - RANK[b.status] ||
  Number(isCause(b)) - Number(isCause(a)) ||
  (b.ratio ?? 0) - (a.ratio ?? 0) ||
  (a.id < b.id ? -1 : 1);

/** A limit of the policy as a term of a formula. */
export const limitTerm = (symbol: string, meaning: string, limit: Limit, quantity: Quantity) => ({
  symbol,
  meaning,
  value: limit.value,
  quantity,
  source: limit.source,
});
