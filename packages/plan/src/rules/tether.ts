import { amount, amountOr, declare, judge, judgeDistance, limitTerm } from "../judge.ts";
import { tetherHandN } from "../rig/tether-hand.ts";
import type { Rule } from "./rule.ts";

/** Can the tackle of the skate tether be that long, do hands hold it, and does its pulley ride free and clear of the ladder? */
export const tether: Rule = (s) => {
  const { tether: t, state } = s;
  if (t === null || !state?.tether) return [];
  const { line } = state.tether.laid;
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
      subject: `${t.name}, length of the tackle`,
      question: "Yoke to riding pulley against what the tackle can do",
      demand: amount(tooShort ? t.lengthMinM : t.lengthM, "length"),
      limit: amount(tooShort ? t.lengthM : t.lengthMaxM, "length"),
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
    judge(policy, {
      id: "tether/hands",
      rule: "tether",
      subject: `${t.name}, hands`,
      question: "Pull on the free end while drawing in against what its crew can hold",
      demand: amountOr(hand, "force"),
      limit: amountOr(canHold, "force"),
      reading:
        hand === null
          ? []
          : [amount(hand, "force"), " for ", amount(line.people, "count"), line.people === 1 ? " person." : " people."],
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
            value: state.tether.laid.efficiency,
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
    declare(
      {
        id: "tether/rides-free",
        rule: "tether",
        subject: `${t.name}, riding pulley`,
        question: "Does the pulley ride free on the returning ropes?",
        demand: null,
        limit: null,
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
      },
      t.against === null ? "within" : "over",
    ),
    judgeDistance(policy, t.ladderClearM <= 0, {
      id: "tether/clear-of-ladder",
      rule: "tether",
      subject: `${t.name}, riding pulley to ladder`,
      question: "Distance wanted against distance there is",
      demand: amountOr(policy.ropeClearanceM.value, "length"),
      limit: amount(t.ladderClearM, "length"),
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
  ];
};

const AGAINST = { tip: "tip sheave", redirect: "first redirect", yoke: "yoke" } as const;
