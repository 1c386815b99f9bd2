import type { Plan } from "@gantline/plan";

/** Which parts of a plan are marked as invented, in words; empty: none. */
export function restsOnExamples(plan: Plan): string {
  const parts = [
    plan.example ? "plan" : "",
    plan.scene.example ? "site" : "",
    plan.aerial.device.example ? "vehicle" : "",
    plan.gear.some((one) => one.example) ? "gear" : "",
  ].filter((part) => part !== "");
  if (parts.length === 0) return "";
  const last = parts.pop() ?? "";
  return parts.length === 0 ? `${last} is` : `${parts.join(", ")} and ${last} are`;
}
