import { declare } from "../judge.ts";
import type { Rule } from "./rule.ts";

/** Does the plan still rest on invented data? Then nothing real is known of what it stands for. */
export const exampleData: Rule = ({ plan }) => {
  const gear = plan.gear.filter((g) => g.example).length;
  const found = [
    ...(plan.aerial.device.example
      ? [{ id: "vehicle", what: `Vehicle "${plan.aerial.device.name}"`, field: "aerial.device" }]
      : []),
    ...(plan.scene.example ? [{ id: "scene", what: `Scene "${plan.scene.name}"`, field: "scene.example" }] : []),
    ...(gear > 0 ? [{ id: "gear", what: `${gear} pieces of gear`, field: "gear" }] : []),
  ];
  return found.map(({ id, what, field }) =>
    declare(
      {
        id: `example-data/${id}`,
        rule: "example-data",
        demand: null,
        limit: null,
        words: () => ({
          subject: `Example data: ${what}`,
          question: "Is this real?",
          reading: [],
          ifOver: [],
          ifUnknown: ["Invented for learning. Put in your own before this plan may be used."],
          working: { formula: "example: yes or no", terms: [], limitSource: "the plan's own marks" },
          field,
        }),
      },
      "unknown",
    ),
  );
};
