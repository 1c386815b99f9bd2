import type { Check } from "./check.ts";
import { declare, worstFirst } from "./judge.ts";
import type { Plan } from "./schema/plan.ts";
import { writeRatio } from "./units/write-amount.ts";

/**
 * What would the ledger be with an attendant on the load, or without the one there is?
 * Stands beside the ledger: it tells, it does not decide.
 */
export function attendantCheck(
  plan: Plan,
  asPlanned: readonly Check[],
  judged: (variant: Plan) => readonly Check[],
): Check {
  const has = plan.rig.load.parts.some((p) => p.kind === "attendant");
  const mass = plan.policy.attendantMassKg;
  const parts = has
    ? plan.rig.load.parts.filter((p) => p.kind !== "attendant")
    : [
        ...plan.rig.load.parts,
        { id: "attendant-asked", name: "Attendant", kind: "attendant" as const, massKg: mass.value },
      ];
  const other = judged({ ...plan, rig: { ...plan.rig, load: { ...plan.rig.load, parts } } });
  const now = worstMeasured(asPlanned);
  const then = worstMeasured(other);
  const how = has ? "Without the attendant" : "With an attendant";
  const says = (c: Check | null): string =>
    c ? `${c.subject}, ${writeRatio(c.ratio)} (${c.status})` : "nothing measured";
  return declare(
    {
      id: "attendant",
      rule: "attendant-check",
      subject: how,
      question: "What would the worst measured check be?",
      demand: null,
      limit: null,
      reading: [`${how} the worst is: ${says(then)}. As planned: ${says(now)}.`],
      ifOver: [],
      ifUnknown: [`${how} the worst cannot be told: ${says(then)}.`],
      counts: false,
      working: {
        formula: "the whole ledger, worked again with the other load",
        terms: [
          {
            symbol: "attendant",
            meaning: has ? "taken off" : "put on",
            value: mass.value,
            quantity: "mass",
            source: mass.source,
          },
        ],
        limitSource: mass.source,
      },
      field: "rig.load.parts",
    },
    then === null || (!has && mass.value === null) ? "unknown" : then.status,
  );
}

/** The worst check that has a ratio: example data and yes-or-no findings do not change with the load. */
function worstMeasured(checks: readonly Check[]): Check | null {
  return [...checks].filter((c) => c.counts && c.ratio !== null).sort(worstFirst)[0] ?? null;
}
