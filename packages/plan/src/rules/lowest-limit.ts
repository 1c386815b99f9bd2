import type { Limit } from "../schema/policy.ts";
import { OVER_BY } from "../units/write-amount.ts";

/**
 * The lower of what the maker and what the policy allow. Where the policy sets none the maker's holds; where the maker's
 * is not known the lowest is not known either, unless the demand is over the policy's already.
 */
export function lowestLimit(maker: Limit, policy: Limit, demand: number | null): Limit {
  if (maker.value === null) {
    const isOver = policy.value !== null && demand !== null && demand > policy.value * (1 + OVER_BY);
    return isOver ? policy : maker;
  }
  return policy.value !== null && policy.value < maker.value ? policy : maker;
}
