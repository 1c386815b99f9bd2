import { declare } from "../judge.ts";
import type { Rule } from "./rule.ts";

/** Is anything hung from a fitting that is not structural? */
export const nonStructuralPoint: Rule = ({ plan, geometry }) =>
  plan.aerial.device.riggingPoints
    .filter((p) => plan.rig.mainLines.some((l) => l.tip.pointId === p.id))
    .map((point) =>
      declare(
        {
          id: `non-structural-point/${point.id}`,
          rule: "non-structural-point",
          demand: null,
          limit: null,
          words: () => ({
            subject: `Rigging point: ${point.name}`,
            question: "Is it part of the structure?",
            reading: point.structural ? ["Structural, as the device's data says."] : ["Marked not structural."],
            ifOver: ["Nothing may be hung there: move the line to a structural point."],
            ifUnknown: ["Not known whether this point is structural. Ask the maker before hanging anything there."],
            working: {
              formula: "structural: yes or no",
              terms: [],
              limitSource: point.ratingSource || "no document named",
            },
            at: geometry.riggingPoints.find((p) => p.id === point.id)?.at,
            field: "aerial.device.riggingPoints",
          }),
        },
        point.structural === null ? "unknown" : point.structural ? "within" : "over",
      ),
    );
