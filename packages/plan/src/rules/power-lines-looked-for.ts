import { declare } from "../judge.ts";
import type { Rule } from "./rule.ts";

/** Did anybody look for power lines? None drawn is not none there. */
export const powerLinesLookedFor: Rule = ({ plan: { scene }, geometry }) => [
  declare(
    {
      id: "power-lines-looked-for",
      rule: "power-lines-looked-for",
      demand: null,
      limit: null,
      words: () => ({
        subject: "Power lines looked for",
        question: "Did anybody look for every power line within reach of ladder, ropes and load?",
        reading: scene.powerLinesLookedFor
          ? [
              "Looked for; ",
              scene.powerLines.length === 0 ? "none found." : "those found are drawn: ",
              ...(scene.powerLines.length === 0
                ? []
                : [{ value: scene.powerLines.length, quantity: "count" } as const, "."]),
            ]
          : ["Nobody has looked for power lines."],
        ifOver: ["Look for power lines before the ladder is raised, and draw each of them."],
        ifUnknown: [
          "It is not said whether power lines were looked for. That none is drawn does not mean that none is there.",
        ],
        working: {
          formula: "looked for: yes or no",
          terms: [],
          limitSource:
            "29 CFR 1926.1408(a) as a benchmark, from memory: before work it is found out whether anything could come near a power line",
        },
        at: geometry.posed.pivot,
        field: "scene.powerLinesLookedFor",
      }),
    },
    scene.powerLinesLookedFor === null ? "unknown" : scene.powerLinesLookedFor ? "within" : "over",
  ),
];
