import type { Check } from "../check.ts";
import type { LetGoCase, LineForce } from "../let-go/let-go-plan-types.ts";
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
 * @param gone what has gone, in words: "Main A gone"
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
  for (const line of figures.lines) checks.push(...brakeChecks(plan, one, line, gone));
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

/** Does a brake hold, and let no more rope through than it may: of main lines, and of a belay? */
function brakeChecks(plan: Plan, one: LetGoCase, line: LineForce, gone: string): readonly Check[] {
  if (line.brake === null) return [];
  const brake = strengthOf(gearOf(plan, "brake", line.brake));
  const divided = divisorOf(plan.policy, brake.basis);
  const byStrengthN = allowedOf(brake.strengthN, divided);
  const { peakBrakeN, peakSlipM } = plan.policy;
  const i = plan.rig.mainLines.findIndex((l) => l.id === line.lineId);
  const field = i < 0 ? "gear" : `rig.mainLines[${i}].brake.device`;
  return [
    peakCheck(plan, one, gone, {
      id: `brake/${line.lineId}`,
      subject: `A line gone: peak on the brake of ${line.name}`,
      question: "Highest force on the brake against the lower of the policy's limit and its strength over the factor",
      peak: line.atEndN,
      strength: byStrengthN === null || peakBrakeN.value === null ? null : Math.min(byStrengthN, peakBrakeN.value),
      strengthMeaning: "lower of the policy's limit and strength ÷ factor",
      strengthSource: `${peakBrakeN.source}; ${brake.strengthSource}, ${divided.source}`,
      field,
    }),
    peakCheck(plan, one, gone, {
      id: `slip/${line.lineId}`,
      subject: `A line gone: rope through the brake of ${line.name}`,
      question: "Rope that the brake lets through until it holds against the most allowed",
      peak: line.slippedM,
      quantity: "length",
      strength: peakSlipM.value,
      strengthMeaning: "most rope allowed through a brake",
      strengthSource: peakSlipM.source,
      field: i < 0 ? "policy.peakSlipM" : field,
      onTheWay: true,
      ifOver: ["Use a brake that holds more, share the load more evenly, or take slack out."],
      ifUnlimited: ["The policy says nothing of how much rope may run through a brake."],
    }),
  ];
}
