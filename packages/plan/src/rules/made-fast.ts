import { amount, amountOr, type Finding, judge } from "../judge.ts";
import { HELD_WITHIN_M } from "../rig/held-there.ts";
import { type SetLength, sheaveOf } from "../rig/rig-state.ts";
import type { Tagline, Tether } from "../schema/rig.ts";
import type { Situation } from "../situation.ts";
import type { Rule } from "./rule.ts";
import { notSolved } from "./worst-case.ts";

/**
 * Is a line that is made fast as long as it must be for the load to be where it is wanted? Such a line
 * holds the load there at one length only; where it hangs at another is told by where the load is. A line that is longer hangs slack at worst, and without
 * its pull T the load hangs T h ÷ W aside at most, h below its sheaves: what hardly pulls may be longer.
 */
export const madeFast: Rule = (s) => {
  const { load, taglines, tether } = s.plan.rig;
  if (load.drive !== "position") return [];
  const lines = [
    ...taglines.map((line, i) => ({ line, field: `rig.taglines[${i}].lengthM` })),
    ...(tether ? [{ line: tether, field: "rig.tether.lengthM" }] : []),
  ];
  return lines.filter(({ line }) => line.drive === "length").map(({ line, field }) => lengthCheck(s, line, field));
};

function lengthCheck(s: Situation, line: Tagline | Tether, field: string): Finding {
  const fast = s.state?.set.find((l) => l.lineId === line.id);
  const neededM = fast?.neededM ?? null;
  const excessM = neededM === null || line.lengthM === null ? null : line.lengthM - neededM;
  const asideM = hangsAsideM(s, fast);
  const offM = excessM === null ? null : excessM < 0 ? -excessM : asideM === null ? null : Math.min(excessM, asideM);
  return judge(s.plan.policy, {
    id: `made-fast/${line.id}`,
    rule: "made-fast",
    demand: amountOr(offM, "length"),
    limit: amount(HELD_WITHIN_M, "length"),
    words: () => ({
      subject: `${line.name}, length made fast at`,
      question: "How far the load is kept from where it is wanted, or let go from there, by the length entered",
      reading:
        neededM === null || line.lengthM === null
          ? []
          : ["Made fast at ", amount(line.lengthM, "length"), ", needs ", amount(neededM, "length"), "."],
      ifOver: [
        (excessM ?? 0) < 0
          ? "Too short: it keeps the load from its place."
          : "Too long: it does not hold the load there.",
      ],
      ifUnknown:
        line.lengthM === null
          ? ["Made fast, but at what length is not entered."]
          : s.state === null
            ? notSolved(s)
            : ["The stiffness of its rope is not known."],
      working: {
        formula: "(needed − entered) ÷ allowance; if longer, the lesser of (entered − needed) and aside",
        terms: [
          {
            symbol: "entered",
            meaning: "rope with no tension in it, as made fast",
            value: line.lengthM,
            quantity: "length",
          },
          {
            symbol: "needed",
            meaning: "path ÷ (1 + T/EA) with the load where it is wanted, T the pull that holds it there",
            value: neededM,
            quantity: "length",
          },
          {
            symbol: "aside",
            meaning: "T h ÷ W: where the load hangs, h below the higher sheave, if the line is slack",
            value: asideM,
            quantity: "length",
          },
          {
            symbol: "allowance",
            meaning: "as far as the load may be from its place and count as held",
            value: HELD_WITHIN_M,
            quantity: "length",
            source: "planning default, no source",
          },
        ],
        limitSource: "planning default, no source",
      },
      at: s.load.yoke,
      field,
    }),
  });
}

/** How far aside of where it is wanted the load would hang without a line, m; null: not known. */
function hangsAsideM({ state, sum, load }: Situation, fast: SetLength | undefined): number | null {
  if (state === null || sum.weightN === null || fast === undefined) return null;
  const belowM = Math.max(...state.mains.map((m) => sheaveOf(m)[2] - load.wanted[2]), 0);
  return (fast.pullN * belowM) / sum.weightN;
}
