import { amount, amountOr, declare, judge, judgeDistance, limitTerm } from "../judge.ts";
import { tetherHandN } from "../rig/tether-hand.ts";
import type { Rule } from "./rule.ts";
import { notSolved } from "./worst-case.ts";

/** Can the tackle of the skate tether be that long, do hands hold it, and does its pulley ride free and clear of the ladder? */
export const tether: Rule = (s) => {
  const { tether: t, state } = s;
  if (t === null || !state?.tether) return unsolved(s);
  const { line, efficiency } = state.tether.laid;
  const { policy } = s.plan;
  const tooShort = t.lengthM < t.lengthMinM;
  const hand = tetherHandN(state.tether);
  const pull = policy.pullPerPersonN;
  const canHold = pull.value === null ? null : pull.value * line.people;
  const at = t.pulleyAt;
  return [
    judge(policy, {
      id: "tether/reach",
      rule: "tether",
      demand: amount(tooShort ? t.lengthMinM : t.lengthM, "length"),
      limit: amount(tooShort ? t.lengthM : t.lengthMaxM, "length"),
      words: () => ({
        subject: subjectOf("reach", t.name),
        question: ASKED.reach[1],
        reading: [
          amount(t.lengthM, "length"),
          " long; it can be from ",
          amount(t.lengthMinM, "length"),
          " to ",
          amount(t.lengthMaxM, "length"),
          ".",
        ],
        ifOver: [
          tooShort
            ? "The tackle is two-blocked before the load is that near."
            : "The tackle runs out before the load is that far.",
        ],
        ifUnknown: [],
        working: {
          formula: tooShort ? "shortest ÷ length" : "length ÷ longest",
          terms: [
            { symbol: "length", meaning: "yoke to riding pulley", value: t.lengthM, quantity: "length" },
            { symbol: "shortest", meaning: "tackle drawn together", value: t.lengthMinM, quantity: "length" },
            { symbol: "longest", meaning: "tackle run out", value: t.lengthMaxM, quantity: "length" },
          ],
          limitSource: "the tackle as entered",
        },
        at,
        field: "rig.tether.lengthMaxM",
      }),
    }),
    judge(policy, {
      id: "tether/hands",
      rule: "tether",
      demand: amountOr(hand, "force"),
      limit: amountOr(canHold, "force"),
      words: () => ({
        subject: subjectOf("hands", t.name),
        question: ASKED.hands[1],
        reading:
          hand === null
            ? []
            : [
                amount(hand, "force"),
                " for ",
                amount(line.people, "count"),
                line.people === 1 ? " person." : " people.",
              ],
        ifOver: ["More hands, or more ropes in the tackle."],
        ifUnknown: [
          hand === null ? "The efficiency of the tackle's sheaves is not known." : "No pull per person is set.",
        ],
        working: {
          formula: "T ÷ (1 + η + η² + …) ÷ (people × pull)",
          terms: [
            { symbol: "T", meaning: "pull of the tether", value: t.tensionN, quantity: "force" },
            { symbol: "ropes", meaning: "of the tackle", value: line.parts, quantity: "count" },
            {
              symbol: "η",
              meaning: "efficiency of its sheaves, taken as the riding pulley's",
              value: efficiency,
              quantity: "ratio",
            },
            { symbol: "people", meaning: "on this line", value: line.people, quantity: "count" },
            limitTerm("pull", "by one person", pull, "force"),
          ],
          limitSource: pull.source,
        },
        at,
        field: "rig.tether.people",
      }),
    }),
    declare(
      {
        id: "tether/rides-free",
        rule: "tether",
        demand: null,
        limit: null,
        words: () => ({
          subject: subjectOf("rides-free", t.name),
          question: ASKED["rides-free"][1],
          reading: [t.against === null ? "Rides free." : `Runs up against the ${AGAINST[t.against]}.`],
          ifOver: ["Pull from lower down, or let the load hang farther out."],
          ifUnknown: [],
          working: {
            formula: "place of least Σ T × distance on the ropes",
            terms: [{ symbol: "T", meaning: "pull of the tether", value: t.tensionN, quantity: "force" }],
            limitSource: "equilibrium",
          },
          at,
          field: "rig.tether",
        }),
      },
      t.against === null ? "within" : "over",
    ),
    judgeDistance(policy, t.ladderClearM <= 0, {
      id: "tether/clear-of-ladder",
      rule: "tether",
      demand: amountOr(policy.ropeClearanceM.value, "length"),
      limit: amount(t.ladderClearM, "length"),
      words: () => ({
        subject: subjectOf("clear-of-ladder", t.name),
        question: ASKED["clear-of-ladder"][1],
        reading: [amount(t.ladderClearM, "length"), " from pulley to ladder."],
        ifOver: ["It rides into the ladder's rungs or beams: lead the returning ropes farther off the ladder."],
        ifUnknown: ["No least distance is set."],
        working: {
          formula: "wanted ÷ distance",
          terms: [
            limitTerm("wanted", "least distance", policy.ropeClearanceM, "length"),
            {
              symbol: "distance",
              meaning: "pulley (10 cm about its middle; planning default, no source) to ladder",
              value: t.ladderClearM,
              quantity: "length",
            },
          ],
          limitSource: policy.ropeClearanceM.source,
        },
        at,
        field: "rig.tether",
      }),
    }),
  ];
};

const AGAINST = { tip: "tip sheave", redirect: "first redirect", yoke: "yoke" } as const;

/** What is asked of it, and how. */
const ASKED = {
  reach: ["length of the tackle", "Yoke to riding pulley against what the tackle can do"],
  hands: ["hands", "Pull on the free end while drawing in against what its crew can hold"],
  "rides-free": ["riding pulley", "Does the pulley ride free on the returning ropes?"],
  "clear-of-ladder": ["riding pulley to ladder", "Distance wanted against distance there is"],
} as const;

const subjectOf = (part: keyof typeof ASKED, name: string): string => `${name}, ${ASKED[part][0]}`;

/** Where nothing could be solved, neither its pull nor where its pulley rides is known. */
const unsolved: Rule = (s) => {
  const line = s.plan.rig.tether;
  if (line === null) return [];
  return (Object.keys(ASKED) as (keyof typeof ASKED)[]).map((part) =>
    declare(
      {
        id: `tether/${part}`,
        rule: "tether",
        demand: null,
        limit: null,
        words: () => ({
          subject: subjectOf(part, line.name),
          question: ASKED[part][1],
          reading: [],
          ifOver: [],
          ifUnknown: notSolved(s),
          working: { formula: "from the balance of forces", terms: [], limitSource: "the tackle as entered" },
          at: s.load.yoke,
          field: "rig.tether",
        }),
      },
      "unknown",
    ),
  );
};
