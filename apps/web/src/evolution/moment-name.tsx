import { stageAndPercent } from "@gantline/drawing";
import { useDesk, usePlan } from "../state/desk-context.tsx";

/** The moment looked at, in words. */
export function MomentName() {
  const when = useDesk((desk) => desk.when);
  const name = usePlan((plan) => (when === null ? null : (plan.evolution.stages[when.stage]?.name ?? null)));
  return <span>{when === null ? "the rig's own position, no stage" : `${stageAndPercent(when)}: ${name}`}</span>;
}
