import { type Check, type Status, writeRatio } from "@gantline/plan";
import type { MarkShape, Tone } from "../primitives.ts";

/** A status as a sign: its shape and word say it, its tone only helps. */
export const STATUS_SIGN: Readonly<Record<Status, MarkShape>> = {
  within: "tick",
  close: "triangleUp",
  over: "cross",
  unknown: "question",
};
export const STATUS_TONE: Readonly<Record<Status, Tone>> = {
  within: "within",
  close: "close",
  over: "over",
  unknown: "unknown",
};

/** "over, 112 % of its limit"; a finding without a ratio is its word alone. */
export function statusWords(check: Pick<Check, "status" | "ratio">): string {
  return check.ratio === null ? check.status : `${check.status}, ${writeRatio(check.ratio)}`;
}
