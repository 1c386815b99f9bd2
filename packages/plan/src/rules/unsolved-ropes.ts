import { declare, type Finding } from "../judge.ts";
import { powerLineDistanceM } from "../power-line-distance.ts";
import { allLines } from "../rig/all-lines.ts";
import type { Situation } from "../situation.ts";
import type { Rule } from "./rule.ts";
import { notSolved } from "./worst-case.ts";

/** What do the ropes come near, where nothing could be solved? That is not known: where they run is not. */
export const unsolvedRopes: Rule = (s) => {
  if (s.state !== null) return [];
  const { structures, powerLines } = s.plan.scene;
  return allLines(s.plan).flatMap(({ id, name }) => [
    ...(structures.length > 0
      ? [untold(s, `clearance/rope/${id}`, "clearances", `${name} to structures`, s.plan.policy.ropeClearanceM.source)]
      : []),
    ...powerLines.map((wire) =>
      untold(
        s,
        `power-line/power/${id}/${wire.id}`,
        "power-lines",
        `${name} to power line: ${wire.name}`,
        powerLineDistanceM(wire.voltageKv).source,
      ),
    ),
  ]);
};

const untold = (s: Situation, id: string, rule: string, subject: string, limitSource: string): Finding =>
  declare(
    {
      id,
      rule,
      demand: null,
      limit: null,
      words: () => ({
        subject,
        question: "Distance wanted against distance there is",
        reading: [],
        ifOver: [],
        ifUnknown: notSolved(s),
        working: { formula: "wanted ÷ distance", terms: [], limitSource },
        at: s.load.yoke,
      }),
    },
    "unknown",
  );
