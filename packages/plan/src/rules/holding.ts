import { distance } from "@gantline/engine";
import { amount, declare, judge } from "../judge.ts";
import { HELD_WITHIN_M } from "../rig/held-there.ts";
import type { Rule } from "./rule.ts";

/** Does the load hang where it is wanted? */
export const holding: Rule = (s) => {
  const { holding: held, load, plan } = s;
  const base = { id: "holding", rule: "holding" } as const;
  const about = {
    subject: "Load held where it is wanted",
    question: "Distance between where the load is wanted and where the ropes let it hang",
    at: load.yoke,
    field: "rig.load.positionM",
  } as const;
  if (held.state === "unsolved") {
    const working = { formula: "balance of forces at the yoke", terms: [], limitSource: "equilibrium" };
    const says = [...held.says];
    return [
      declare(
        {
          ...base,
          demand: null,
          limit: null,
          words: () => ({ ...about, reading: says, ifOver: [], ifUnknown: says, working }),
        },
        held.code === "unknown" || held.code === "not-converged" ? "unknown" : "over",
      ),
    ];
  }
  const drift = distance(load.yoke, load.wanted);
  return [
    judge(plan.policy, {
      ...base,
      demand: amount(drift, "length"),
      limit: amount(HELD_WITHIN_M, "length"),
      words: () => ({
        ...about,
        reading: held.state === "drifts" ? held.says : ["Hangs ", amount(drift, "length"), " from where it is wanted."],
        ifOver: ["Add or move a tagline, or move the tip."],
        ifUnknown: [],
        working: {
          formula: "drift ÷ allowance",
          terms: [
            {
              symbol: "drift",
              meaning: "from the wanted place to where the load hangs",
              value: drift,
              quantity: "length",
            },
            {
              symbol: "residual",
              meaning: "force left over at the yoke in the answer",
              value: s.state?.residualN ?? null,
              quantity: "force",
            },
            {
              symbol: "allowance",
              meaning: "counted as held",
              value: HELD_WITHIN_M,
              quantity: "length",
              source: "planning default, no source",
            },
          ],
          limitSource: "planning default, no source",
        },
      }),
    }),
  ];
};
