import type { OtherLoad } from "./evaluation.ts";
import { declare, type Finding, worstFirst } from "./judge.ts";
import type { Plan } from "./schema/plan.ts";
import { writeRatio } from "./units/write-amount.ts";

const isAttendant = ({ kind }: { readonly kind: string }): boolean => kind === "attendant";

/** The same plan with the policy's attendant on the load, or without the one there is. */
export function withOtherLoad(plan: Plan): Plan {
  const { parts } = plan.rig.load;
  const { attendantMassKg } = plan.policy;
  const other = parts.some(isAttendant)
    ? parts.filter((p) => !isAttendant(p))
    : [
        ...parts,
        { id: "attendant-asked", name: "Attendant", kind: "attendant" as const, massKg: attendantMassKg.value },
      ];
  return { ...plan, rig: { ...plan.rig, load: { ...plan.rig.load, parts: other } } };
}

/** How `withOtherLoad` changes the load of a plan, in words. */
export const otherLoadSays = ({ rig }: Plan): OtherLoad["says"] =>
  rig.load.parts.some(isAttendant) ? "Without the attendant" : "With an attendant";

/**
 * What would the ledger be with an attendant on the load, or without the one there is?
 * Stands beside the ledger: it tells, it does not decide. Where something that counts is unknown, and nothing is over,
 * the worst is not known either.
 */
export function attendantCheck(plan: Plan, asPlanned: readonly Finding[], other: readonly Finding[]): Finding {
  const mass = plan.policy.attendantMassKg;
  const how = otherLoadSays(plan);
  const deciding = other.filter(decides);
  const then = worst(deciding);
  const untold = deciding.filter((c) => c.status === "unknown").length;
  const told = worst(deciding.filter((c) => c.ratio !== null));
  return declare(
    {
      id: "attendant",
      rule: "attendant-check",
      demand: null,
      limit: null,
      counts: false,
      words: () => ({
        subject: how,
        question: "What would the worst check be?",
        reading: [`${how} the worst is: ${said(then)}. As planned: ${said(worst(asPlanned.filter(decides)))}.`],
        ifOver: [],
        ifUnknown: [
          `${how} the worst cannot be told: ${then?.words().subject ?? "anything"} is unknown${untold > 1 ? `, and ${untold - 1} more` : ""}. Of what is known the worst is: ${said(told)}.`,
        ],
        working: {
          formula: "the whole ledger, worked again with the other load",
          terms: [
            {
              symbol: "attendant",
              meaning: plan.rig.load.parts.some(isAttendant) ? "taken off" : "put on",
              value: mass.value,
              quantity: "mass",
              source: mass.source,
            },
          ],
          limitSource: mass.source,
        },
        field: "rig.load.parts",
      }),
    },
    then?.status ?? "unknown",
  );
}

/** Example data is as unknown with one load as with the other: it does not say which is worse. */
const decides = ({ counts, rule }: Finding): boolean => counts && rule !== "example-data";

const worst = (checks: readonly Finding[]): Finding | null =>
  checks.reduce<Finding | null>((a, b) => (a === null || worstFirst(b, a) < 0 ? b : a), null);

const said = (c: Finding | null): string =>
  c === null
    ? "nothing"
    : `${c.words().subject}, ${c.ratio === null ? c.status : `${writeRatio(c.ratio)} (${c.status})`}`;
