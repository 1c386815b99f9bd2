import { pointInPolygon } from "@gantline/engine";
import { amount, amountOr, judge, limitTerm } from "../judge.ts";
import { sheaveOf } from "../rig/rig-state.ts";
import type { Rule } from "./rule.ts";

/** Is the tip high enough over the destination for bridle, load and room to spare, over any parapet there? */
export const tipHeight: Rule = (s) => {
  const { plan } = s;
  const { bridle, box } = plan.rig.load;
  const goal = plan.scene.destination;
  const around = goal
    ? plan.scene.structures.filter((t) => pointInPolygon(t.outline, [goal.position[0], goal.position[1]]))
    : [];
  const surfaceM = goal ? Math.max(goal.position[2], ...around.map((t) => t.topZM + t.parapetHeightM)) : null;
  // Where nothing is solved a sheave is taken to hang as low as its sling lets it.
  const sheaves =
    s.state?.mains.map((m) => sheaveOf(m)[2]) ?? s.laid.mains.map((m) => m.pointAt[2] - m.line.tip.reachM);
  const sheaveM = sheaves.length > 0 ? Math.min(...sheaves) : null;
  const margin = plan.policy.tipMarginM;
  const wanted = margin.value === null ? null : bridle.heightM + box.heightM + margin.value;
  const available = surfaceM === null || sheaveM === null ? null : sheaveM - surfaceM;
  return [
    judge(plan.policy, {
      id: "tip-height",
      rule: "tip-height",
      demand: amountOr(wanted, "length"),
      limit: amountOr(available, "length"),
      words: () => ({
        subject: "Tip height over the destination",
        question: "Height wanted for bridle, load and margin against sheave above the landing or its parapet",
        reading:
          wanted !== null && available !== null
            ? [amount(wanted, "length"), " wanted, ", amount(available, "length"), " there."]
            : [],
        ifOver: ["Raise or extend the ladder, shorten the bridle, or choose another landing."],
        ifUnknown:
          goal === null ? ["No destination is set."] : ["Not known where the tip sheaves hang, or no margin is set."],
        working: {
          formula: "(bridle + load + margin) ÷ (sheave − surface)",
          terms: [
            { symbol: "bridle", meaning: "yoke above the load", value: bridle.heightM, quantity: "length" },
            { symbol: "load", meaning: "height of litter or rescuer", value: box.heightM, quantity: "length" },
            limitTerm("margin", "between yoke and sheave", margin, "length"),
            { symbol: "sheave", meaning: "height of the lower tip sheave", value: sheaveM, quantity: "length" },
            { symbol: "surface", meaning: "landing, or the parapet round it", value: surfaceM, quantity: "length" },
          ],
          limitSource: margin.source,
        },
        at: s.geometry.posed.tip,
        field: "scene.destination",
      }),
    }),
  ];
};
