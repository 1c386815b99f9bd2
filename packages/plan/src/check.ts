import type { SiteVector } from "@gantline/engine";
import type { Amount, Phrase, Quantity } from "./units/quantity.ts";

/** `close` is over the policy's close ratio (90 % unless changed). Nothing says more than `within`. */
export type Status = "within" | "close" | "over" | "unknown";

/** One number put into a formula. */
export interface Term {
  readonly symbol: string;
  readonly meaning: string;
  /** null: not known. */
  readonly value: number | null;
  readonly quantity: Quantity;
  /** Where the number comes from, where that is not the plan's own geometry. */
  readonly source?: string;
}

/** How a check was worked: the formula in symbols, each number put in, and where the limit comes from. */
export interface Working {
  readonly formula: string;
  readonly terms: readonly Term[];
  readonly limitSource: string;
}

export interface Check {
  /** Stable: rule, then what it is about, as `component-strength/main-a/tip.sheave`. */
  readonly id: string;
  /** The rule's file name. */
  readonly rule: string;
  /** Plain words: what is judged, "Main A, sheave at the tip". */
  readonly subject: string;
  /** Plain words: what is asked of it, "force × 10 against breaking strength". */
  readonly question: string;
  readonly demand: Amount | null;
  readonly limit: Amount | null;
  /** demand ÷ limit, or wanted ÷ available where more is better; at most 99; null: cannot be told. */
  readonly ratio: number | null;
  readonly status: Status;
  /** One sentence a person can act on; always there for `over` and `unknown`. */
  readonly says: Phrase;
  /** False for figures shown beside the ledger that do not decide whether the plan may be released. */
  readonly counts: boolean;
  readonly working: Working;
  /** Where on the drawing. */
  readonly at?: SiteVector;
  /** Path of the plan's field to mend, where there is one. */
  readonly field?: string;
}
