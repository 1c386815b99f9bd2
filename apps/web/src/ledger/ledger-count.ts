import type { Check, Status } from "@gantline/plan";

/** How many of the checks that count have each status. */
export function countByStatus(ledger: readonly Check[]): Readonly<Record<Status, number>> {
  const counts: Record<Status, number> = { over: 0, unknown: 0, close: 0, within: 0 };
  for (const check of ledger) if (check.counts) counts[check.status]++;
  return counts;
}
