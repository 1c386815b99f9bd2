import { declare } from "../judge.ts";
import type { Rule } from "./rule.ts";

/** Is the ladder shut down and locked out before anyone is on rope? */
export const lockOut: Rule = ({ plan, geometry, sum }) => [
  declare(
    {
      id: "lock-out",
      rule: "lock-out",
      demand: null,
      limit: null,
      words: () => ({
        subject: "Ladder shut down and locked out",
        question: "Powered movement isolated before anyone is on rope?",
        reading: plan.aerial.lockedOut ? ["Planned shut down and locked out."] : ["Not locked out."],
        ifOver: [
          sum.persons > 0 ? "Nobody goes on rope while the ladder can move." : "Shut it down and lock it out first.",
        ],
        ifUnknown: ["Not confirmed that the ladder is shut down and locked out."],
        working: {
          formula: "locked out: yes or no",
          terms: [],
          limitSource:
            "29 CFR 1910.147(d) for the order of steps; the maker's manual and local authority for the device",
        },
        at: geometry.posed.pivot,
        field: "aerial.lockedOut",
      }),
    },
    plan.aerial.lockedOut === null ? "unknown" : plan.aerial.lockedOut ? "within" : "over",
  ),
];
