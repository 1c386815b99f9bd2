import type { Check } from "../check.ts";
import { amount, amountOr, judge, limitTerm } from "../judge.ts";
import type { Band, LetGoCase } from "../let-go/let-go-plan-types.ts";
import { LET_GO_LIMITS_TEXT } from "../let-go/model-limits.ts";
import { type Basis, knotted, strengthOf } from "../rig/component-strengths.ts";
import { gearOf } from "../rig/gear-of.ts";
import type { Plan } from "../schema/plan.ts";
import type { Limit, Policy } from "../schema/policy.ts";
import type { Phrase } from "../units/quantity.ts";
import { lineNames } from "./line-names.ts";

/** Does no rigging point, person, brake or rope get more than the policy allows? @param gone what has gone, in words */
export function peakChecks(plan: Plan, one: LetGoCase, gone: string): readonly Check[] {
  const checks: Check[] = [];
  const { figures } = one;
  if (figures === null) return checks;
  const { device } = plan.aerial;
  const { resultant } = figures.utilisations;
  const rating = plan.policy.peakRatingFactor;
  checks.push(
    peakCheck(plan, one, gone, {
      id: "tip",
      subject: "A line gone: peak at the tip",
      question: "Highest sum of the forces at the rigging points against the rated tip load",
      peak: figures.tipN,
      strengthN: resultant.limit,
      strengthMeaning: "rated tip load at this elevation and length",
      strengthSource: device.tipRating.source,
      divisor: rating,
      field: "aerial.device.tipRating",
    }),
  );
  for (const { pointId, peakN } of figures.points) {
    const point = device.riggingPoints.find((p) => p.id === pointId);
    checks.push(
      peakCheck(plan, one, gone, {
        id: `point/${pointId}`,
        subject: `A line gone: peak at ${point?.name ?? pointId}`,
        question: "Highest force at the rigging point against its rating",
        peak: peakN,
        strengthN: point?.ratingN ?? null,
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
        strengthN: plan.policy.peakPersonN.value,
        strengthMeaning: "most allowed on a person",
        strengthSource: plan.policy.peakPersonN.source,
        divisor: ONE,
        field: "policy.peakPersonN",
      }),
    );
  for (const [i, main] of plan.rig.mainLines.entries()) {
    const line = figures.lines.find((l) => l.lineId === main.id);
    if (!line) continue;
    const brake = strengthOf(gearOf(plan, "brake", main.brake.device));
    const divided = divisorOf(plan.policy, brake.basis);
    const byStrengthN =
      brake.strengthN === null || divided.value === null || divided.value <= 0 ? null : brake.strengthN / divided.value;
    const most = plan.policy.peakBrakeN;
    checks.push(
      peakCheck(plan, one, gone, {
        id: `brake/${main.id}`,
        subject: `A line gone: peak on the brake of ${main.name}`,
        question: "Highest force on the brake against the lower of the policy's limit and its strength over the factor",
        peak: line.atEndN,
        strengthN: byStrengthN === null || most.value === null ? null : Math.min(byStrengthN, most.value),
        strengthMeaning: "lower of the policy's limit and strength ÷ factor",
        strengthSource: `${most.source}; ${brake.strengthSource}, ${divided.source}`,
        divisor: ONE,
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
        strengthN: strength.strengthN === null || kept === null ? null : strength.strengthN * kept,
        strengthMeaning: "strength with its knot",
        strengthSource: strength.strengthSource,
        divisor: divisorOf(plan.policy, strength.basis),
        field: "gear",
      }),
    );
  }
  return checks;
}

const ONE: Limit = { value: 1, source: "as it stands" };

/** What a strength is divided by before a peak may be held against it. */
function divisorOf(policy: Policy, basis: Basis): Limit {
  if (basis === "working") return policy.peakRatingFactor;
  if (basis === "breaking") return policy.peakStrengthFactor;
  if (basis === "structural") return policy.structuralFactor;
  return { value: null, source: "not said whether the figure is a working load or a breaking strength" };
}

interface PeakQuestion {
  readonly id: string;
  readonly subject: string;
  readonly question: string;
  readonly peak: Band;
  readonly strengthN: number | null;
  readonly strengthMeaning: string;
  readonly strengthSource: string;
  readonly divisor: Limit;
  readonly field: string;
}

function peakCheck(plan: Plan, one: LetGoCase, gone: string, q: PeakQuestion): Check {
  const { peak, divisor } = q;
  const allowedN =
    q.strengthN === null || divisor.value === null || divisor.value <= 0 ? null : q.strengthN / divisor.value;
  const slips = one.slipUnknown.length === 0;
  const limit = amountOr(allowedN, "force");
  const high = amount(peak.high, "force");
  const band: Phrase = [" (", amount(peak.low, "force"), " to ", high, ")"];
  return judge(plan.policy, {
    id: `let-go/${q.id}`,
    rule: "let-go",
    subject: q.subject,
    question: q.question,
    demand: slips ? high : null,
    limit,
    reading: limit ? [`${gone} gone: `, high, " of ", limit, ", band", ...band, "."] : [],
    ifOver: ["Share the load more evenly, take slack out, lighten the load, or use a stronger part."],
    ifUnknown: slips
      ? ["No limit is known to hold the peak against."]
      : [
          `The slip force of the brake of ${lineNames(plan, one.slipUnknown)} is not known. Held fast it would be `,
          high,
          ...(limit ? [" of ", limit] : []),
          ", an upper figure. Enter the maker's figure, or one in the policy.",
        ],
    working: {
      formula: divisor.value === 1 ? "F ÷ S" : "F × n ÷ S",
      terms: [
        { symbol: "F", meaning: "peak, high end of its band", value: peak.high, quantity: "force" },
        { symbol: "F as entered", meaning: "peak by the figures entered", value: peak.entered, quantity: "force" },
        { symbol: "F low", meaning: "low end of its band", value: peak.low, quantity: "force" },
        { symbol: "S", meaning: q.strengthMeaning, value: q.strengthN, quantity: "force", source: q.strengthSource },
        ...(divisor.value === 1 ? [] : [limitTerm("n", "factor asked for at a peak", divisor, "ratio")]),
      ],
      limitSource: `${q.strengthSource}; ${divisor.source}. ${LET_GO_LIMITS_TEXT}`,
    },
    at: one.yoke,
    field: q.field,
  });
}
