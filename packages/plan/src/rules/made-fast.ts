import type { RunningLine } from "../evaluation.ts";
import { amount, amountOr, type Finding, judge } from "../judge.ts";
import { sheaveOf } from "../rig/rig-state.ts";
import type { Tagline, Tether } from "../schema/rig.ts";
import type { Situation } from "../situation.ts";
import { HELD_WITHIN_M } from "./holding.ts";
import type { Rule } from "./rule.ts";
import { notSolved } from "./worst-case.ts";

/**
 * Is a line that is made fast as long as it must be for the load to be where it is wanted? Held by position, such a line
 * counts as pulling what is needed: that is so only at one length. A line that is longer hangs slack at worst, and without
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
  const runs = s.lines.find((l) => l.id === line.id);
  const neededM = runs?.unstretchedM ?? null;
  const excessM = neededM === null || line.lengthM === null ? null : line.lengthM - neededM;
  const asideM = hangsAsideM(s, runs);
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
          ? "Too short: it keeps the load from its place, or pulls harder than is worked out here."
          : "Too long: it hangs slack, and does not hold the load there.",
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
            meaning: "path ÷ (1 + T/EA), with the pull worked out for it",
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

/** How far aside the load would hang without a line, m; null: not known. */
function hangsAsideM({ state, sum, load }: Situation, runs: RunningLine | undefined): number | null {
  if (state === null || sum.weightN === null || runs === undefined) return null;
  const pullN = Math.max(runs.tensionsN.raise[0] ?? 0, runs.tensionsN.lower[0] ?? 0);
  const belowM = Math.max(...state.mains.map((m) => sheaveOf(m)[2] - load.yoke[2]), 0);
  return (pullN * belowM) / sum.weightN;
}
