import type { Check } from "../check.ts";
import type { LetGoCase } from "../let-go/let-go-plan-types.ts";
import { knotted, strengthOf } from "../rig/component-strengths.ts";
import { gearOf } from "../rig/gear-of.ts";
import type { Plan } from "../schema/plan.ts";
import { type PartsKnown, partChecks } from "./let-go-parts.ts";
import { allowedOf, divisorOf, peakCheck } from "./let-go-peak-check.ts";
import { tipChecks } from "./let-go-tip.ts";
import { wayChecks } from "./let-go-way.ts";

/**
 * Does nothing get more than the policy allows when a line goes: ladder, rigging points, persons, brakes, ropes, the other
 * parts, hands; and does the load strike anything?
 *
 * @param gone what has gone, in words
 */
export function peakChecks(plan: Plan, one: LetGoCase, gone: string, known: PartsKnown): readonly Check[] {
  const { figures } = one;
  if (figures === null) return [];
  const { device } = plan.aerial;
  const checks: Check[] = [
    ...tipChecks(plan, one, figures, gone),
    ...partChecks(plan, one, figures, gone, known),
    ...wayChecks(plan, one, figures, gone),
  ];
  for (const { pointId, peakN } of figures.points) {
    const point = device.riggingPoints.find((p) => p.id === pointId);
    checks.push(
      peakCheck(plan, one, gone, {
        id: `point/${pointId}`,
        subject: `A line gone: peak at ${point?.name ?? pointId}`,
        question: "Highest force at the rigging point against its rating",
        peak: peakN,
        strength: point?.ratingN ?? null,
        strengthMeaning: "rating",
        strengthSource: point?.ratingSource || "no document named",
        divisor: divisorOf(plan.policy, point?.ratingBasis ?? null),
        field: "aerial.device.riggingPoints",
      }),
    );
  }
  if (figures.person)
    checks.push(
      peakCheck(plan, one, gone, {
        id: "person",
        subject: "A line gone: peak on a person",
        question: "Highest force on the heaviest person, all ropes' peaks as at one moment, against the most allowed",
        peak: figures.person.peakN,
        strength: plan.policy.peakPersonN.value,
        strengthMeaning: "most allowed on a person",
        strengthSource: plan.policy.peakPersonN.source,
        field: "policy.peakPersonN",
      }),
    );
  for (const [i, main] of plan.rig.mainLines.entries()) {
    const line = figures.lines.find((l) => l.lineId === main.id);
    if (!line) continue;
    const brake = strengthOf(gearOf(plan, "brake", main.brake.device));
    const divided = divisorOf(plan.policy, brake.basis);
    const byStrengthN = allowedOf(brake.strengthN, divided);
    const most = plan.policy.peakBrakeN;
    checks.push(
      peakCheck(plan, one, gone, {
        id: `brake/${main.id}`,
        subject: `A line gone: peak on the brake of ${main.name}`,
        question: "Highest force on the brake against the lower of the policy's limit and its strength over the factor",
        peak: line.atEndN,
        strength: byStrengthN === null || most.value === null ? null : Math.min(byStrengthN, most.value),
        strengthMeaning: "lower of the policy's limit and strength ÷ factor",
        strengthSource: `${most.source}; ${brake.strengthSource}, ${divided.source}`,
        field: `rig.mainLines[${i}].brake.device`,
      }),
    );
  }
  for (const line of figures.lines.filter((l) => l.role !== "tether")) {
    const main = plan.rig.mainLines.find((l) => l.id === line.lineId);
    const tag = plan.rig.taglines.find((l) => l.id === line.lineId);
    const rope = gearOf(plan, "rope", (main ?? tag)?.rope ?? null);
    const strength = knotted(rope, gearOf(plan, "knot", main?.loadKnot ?? tag?.knot ?? null));
    const kept = strength.reductions[0]?.factor ?? null;
    checks.push(
      peakCheck(plan, one, gone, {
        id: `rope/${line.lineId}`,
        subject: `A line gone: peak in the rope of ${line.name}`,
        question: "Highest tension against what its knot leaves of its strength, over the factor",
        peak: line.peakN,
        strength: strength.strengthN === null || kept === null ? null : strength.strengthN * kept,
        strengthMeaning: "strength with its knot",
        strengthSource: strength.strengthSource,
        divisor: divisorOf(plan.policy, strength.basis),
        field: "gear",
      }),
    );
  }
  return checks;
}
