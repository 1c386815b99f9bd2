import type { Term } from "../check.ts";
import type { RunningLine } from "../evaluation.ts";
import { amount, amountOr, closeRatioOf, declare, judge } from "../judge.ts";
import { allLines } from "../rig/all-lines.ts";
import { gearOf } from "../rig/gear-of.ts";
import type { Rule } from "./rule.ts";
import { notSolved } from "./worst-case.ts";

/** Is there a rope in the cache long enough for each line? The longest need is served first, by the shortest rope that leaves some over. */
export const ropeLength: Rule = (s) => (s.state === null ? notMeasured(s) : measured(s));

const QUESTION = "Rope needed down to the ground, with knot, brake and reserve, against the rope in the cache";

const measured: Rule = (s) => {
  const ropeOf = new Map(allLines(s.plan).map((l) => [l.id, l.rope]));
  const left = new Map(
    s.plan.gear.flatMap((g) => (g.kind === "rope" ? [[g.id, [...g.lengthsM].sort((a, b) => a - b)] as const] : [])),
  );
  const closeRatio = closeRatioOf(s.plan.policy);
  const taken = new Map<string, number | null>();
  for (const line of [...s.lines].sort((a, b) => b.neededM - a.neededM)) {
    const stock = left.get(ropeOf.get(line.id) ?? "") ?? [];
    const ample = stock.findIndex((length) => length * closeRatio >= line.neededM);
    const fits = ample < 0 ? stock.findIndex((length) => length >= line.neededM) : ample;
    const [length] = stock.splice(fits < 0 ? stock.length - 1 : fits, stock.length > 0 ? 1 : 0);
    taken.set(line.id, length ?? null);
  }
  return s.lines.map((line) => {
    const rope = gearOf(s.plan, "rope", ropeOf.get(line.id) ?? null);
    const length = taken.get(line.id) ?? null;
    const none = rope !== null && length === null;
    return judge(s.plan.policy, {
      id: `rope-length/${line.id}`,
      rule: "rope-length",
      demand: amount(line.neededM, "length"),
      limit: amountOr(none ? 0 : length, "length"),
      words: () => ({
        subject: `${line.name}, rope length`,
        question: QUESTION,
        reading: [
          "Needs ",
          amount(line.neededM, "length"),
          ...(length === null
            ? ["; no such rope is left in the cache."]
            : ["; the cache has ", amount(length, "length"), "."]),
        ],
        ifOver: [none ? "Bring another rope." : "Bring a longer rope: joining two means passing a knot."],
        ifUnknown: ["This rope is not in the cache."],
        working: {
          formula: "needed ÷ rope",
          terms: [
            ...ropeNeedTerms(line),
            { symbol: "needed", meaning: "their sum", value: line.neededM, quantity: "length" },
            { symbol: "rope", meaning: rope?.name ?? "not in the cache", value: length, quantity: "length" },
          ],
          limitSource: "the department's cache, in the plan",
        },
        at: line.nodes[0]?.at,
        field: "gear",
      }),
    });
  });
};

/** Where nothing could be solved: how the lines run, and so how long they are, is not known. */
const notMeasured: Rule = (s) =>
  allLines(s.plan).map((line) =>
    declare(
      {
        id: `rope-length/${line.id}`,
        rule: "rope-length",
        demand: null,
        limit: null,
        words: () => ({
          subject: `${line.name}, rope length`,
          question: QUESTION,
          reading: [],
          ifOver: [],
          ifUnknown: notSolved(s),
          working: { formula: "needed ÷ rope", terms: [], limitSource: "the department's cache, in the plan" },
          field: "gear",
        }),
      },
      "unknown",
    ),
  );

/** What the rope needed for a line is made up of. */
export function ropeNeedTerms({ need }: RunningLine): readonly Term[] {
  const part = (symbol: string, meaning: string, value: number): Term => ({
    symbol,
    meaning,
    value,
    quantity: "length",
  });
  return [
    part("path", "along the line as it runs now", need.pathM),
    part("to ground", "the load's way down to the ground below it", need.toGroundM),
    part("knot", "tail of the knot at the yoke", need.knotTailM),
    part("brake", "taken up in the brake (planning default, no source)", need.brakeM),
    part("reserve", "wanted beyond that", need.reserveM),
  ];
}
