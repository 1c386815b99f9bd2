import type { Basis } from "../rig/component-strengths.ts";
import type { Limit, Policy } from "../schema/policy.ts";

/** What a strength is divided by before a force may be held against it, by the word it was given under; null value: not known. */
export function strengthDivisor(policy: Policy, basis: Basis): Limit {
  if (basis === "working") return { value: 1, source: "a working load is used as it stands" };
  if (basis === "breaking") return policy.strengthFactor;
  if (basis === "structural") return policy.structuralFactor;
  return { value: null, source: "not said whether the figure is a working load or a breaking strength" };
}
