import { amount, judge } from "../judge.ts";
import type { Rule } from "./rule.ts";

/** Is the ladder's length within what the device can reach? */
export const reach: Rule = ({ plan, geometry }) => {
  const { device, pose } = plan.aerial;
  const tooShort = pose.lengthM < device.lengthMinM;
  const demand = amount(tooShort ? device.lengthMinM : pose.lengthM, "length");
  const limit = amount(tooShort ? pose.lengthM : device.lengthMaxM, "length");
  return [
    judge(plan.policy, {
      id: "reach",
      rule: "reach",
      demand,
      limit,
      words: () => ({
        subject: "Ladder length",
        question: "Pivot to tip against the longest and shortest the device can do",
        reading: [
          "Ladder at ",
          amount(pose.lengthM, "length"),
          ", device from ",
          amount(device.lengthMinM, "length"),
          " to ",
          amount(device.lengthMaxM, "length"),
          ".",
        ],
        ifOver: tooShort
          ? ["It cannot be that short: stand farther off or lower the ladder."]
          : ["It cannot reach that far: stand nearer."],
        ifUnknown: ["Ladder length not known."],
        working: {
          formula: tooShort ? "L min ÷ L" : "L ÷ L max",
          terms: [
            { symbol: "L", meaning: "pivot to tip", value: pose.lengthM, quantity: "length" },
            {
              symbol: "L min",
              meaning: "shortest",
              value: device.lengthMinM,
              quantity: "length",
              source: device.source,
            },
            {
              symbol: "L max",
              meaning: "longest",
              value: device.lengthMaxM,
              quantity: "length",
              source: device.source,
            },
          ],
          limitSource: device.source,
        },
        at: geometry.posed.tip,
        field: "aerial.pose.lengthM",
      }),
    }),
  ];
};
