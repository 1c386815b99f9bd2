import { amount, declare, judge, type Question } from "../judge.ts";
import type { Rule } from "./rule.ts";

/** Is the ladder's elevation within what the device can do? */
export const elevation: Rule = ({ plan, geometry }) => {
  const { device, pose } = plan.aerial;
  const tooLow = pose.elevationRad < device.elevationMinRad - 1e-9;
  const question: Question = {
    id: "elevation",
    rule: "elevation",
    demand: amount(pose.elevationRad, "angle"),
    limit: amount(device.elevationMaxRad, "angle"),
    words: () => ({
      subject: "Ladder elevation",
      question: "Elevation against the steepest and lowest the device can do",
      reading: [
        "Ladder at ",
        amount(pose.elevationRad, "angle"),
        ", device from ",
        amount(device.elevationMinRad, "angle"),
        " to ",
        amount(device.elevationMaxRad, "angle"),
        ".",
      ],
      ifOver: tooLow
        ? ["The device cannot go that low."]
        : ["The device cannot stand that steep: stand farther off or shorten the ladder."],
      ifUnknown: ["Elevation not known."],
      working: {
        formula: "φ min ≤ φ ≤ φ max",
        terms: [
          { symbol: "φ", meaning: "elevation above horizontal", value: pose.elevationRad, quantity: "angle" },
          {
            symbol: "φ min",
            meaning: "lowest",
            value: device.elevationMinRad,
            quantity: "angle",
            source: device.source,
          },
          {
            symbol: "φ max",
            meaning: "steepest",
            value: device.elevationMaxRad,
            quantity: "angle",
            source: device.source,
          },
        ],
        limitSource: device.source,
      },
      at: geometry.posed.pivot,
      field: "aerial.pose.elevationRad",
    }),
  };
  if (tooLow) return [declare(question, "over")];
  const within = pose.elevationRad <= device.elevationMaxRad + 1e-9;
  // Steep is what is wanted: near the limit is no warning, beyond it is.
  return [within ? declare(question, "within") : judge(plan.policy, question)];
};
