import { amount, amountOr, judge, limitTerm } from "../judge.ts";
import { needsWind } from "./needs-wind.ts";
import type { Rule } from "./rule.ts";

/** Do both ropes carry their part? The larger share, whichever way they run, against the largest the policy allows. */
export const sharing: Rule = (s) => (s.plan.rig.load.drive === "position" ? shared : sharedAsHung)(s);

const shared: Rule = (s) => {
  const { policy, rig } = s.plan;
  // Held in place, the lines share as entered; hung by their lengths, only the answer tells.
  const asEntered = rig.load.drive === "position" ? rig.mainLines.map((l) => l.share) : [];
  const ways = s.state
    ? s.cases.map((travel) => s.state?.mains.map((m) => m.tensionsN[travel][0] ?? 0) ?? [])
    : [asEntered];
  const [carried = [], ...others] = [...ways].sort((a, b) => (largestShare(b) ?? 0) - (largestShare(a) ?? 0));
  const largest = [carried, ...others].some((way) => largestShare(way) === null) ? null : largestShare(carried);
  const single = rig.mainLines.length === 1;
  return [
    judge(policy, {
      id: "sharing",
      rule: "sharing",
      demand: amountOr(largest, "ratio"),
      limit: amountOr(policy.shareMax.value, "ratio"),
      words: () => ({
        subject: single ? "One main line carries everything" : "Sharing between the main lines",
        question: "Larger share of the load against the largest allowed",
        reading: largest === null ? [] : ["The larger share is ", amount(largest, "ratio"), "."],
        ifOver: single
          ? ["Nothing else holds if it fails: add a second, equally tensioned line."]
          : ["Even them out: if the tighter rope fails, the other takes the blow."],
        ifUnknown: [largest === null ? "Shares not known." : "No largest share is set."],
        working: {
          formula: "largest share ÷ largest allowed",
          terms: [
            ...rig.mainLines.map((l, i) => ({
              symbol: `T${i + 1}`,
              meaning: `${l.name}, at the load`,
              value: s.state ? (carried[i] ?? null) : null,
              quantity: "force" as const,
            })),
            limitTerm("allowed", "largest share", policy.shareMax, "ratio"),
          ],
          limitSource: policy.shareMax.source,
        },
        at: s.load.yoke,
        field: "rig.mainLines[0].share",
      }),
    }),
  ];
};

/** How ropes of set lengths share depends on where the wind leaves the load. */
const sharedAsHung = needsWind(shared);

/** Of all that the lines carry; null: they carry nothing. */
function largestShare(carriedN: readonly number[]): number | null {
  const total = carriedN.reduce((a, b) => a + b, 0);
  return total > 0 ? Math.max(...carriedN) / total : null;
}
