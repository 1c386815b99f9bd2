import type { Stage } from "../schema/evolution.ts";
import type { LineRun, StageResult } from "./evolution-types.ts";
import type { Fault } from "./fault.ts";

/** A line that in the end ran against the entry by less than this is not held against it, m. Planning default, no source. */
const AGAINST_M = 0.1;

/** Main lines that run the other way than the stage says, over the whole stage. */
export const runningProblems = (stage: number, motion: Stage["motion"], runs: readonly LineRun[]): readonly Fault[] =>
  runs.flatMap(({ name, takenInM, letOutM }) => {
    const againstM = motion === "raise" ? letOutM - takenInM : motion === "lower" ? takenInM - letOutM : 0;
    if (againstM <= AGAINST_M) return [];
    const [entered, runs] = motion === "raise" ? ["raising", "runs out"] : ["lowering", "is hauled in"];
    return [
      {
        ...throughout(stage),
        status: "over",
        says: [
          `The main lines are entered as ${entered}, but on this way ${name} ${runs} by `,
          { value: againstM, quantity: "length" },
          ".",
        ],
        field: `evolution.stages[${stage}].motion`,
      },
    ];
  });

/** Checks that were found within their limit, but could be over it between two moments that were looked at. */
export const unsettledProblems = (stage: number, unsettled: StageResult["unsettled"]): readonly Fault[] => {
  const open = unsettled.filter(({ found, couldBe }) => found <= 1 && couldBe > 1);
  return open.length === 0
    ? []
    : [
        {
          ...throughout(stage),
          status: "unknown",
          says: [
            `The sweep looked again as often as it may, and ${open.length === 1 ? "one check" : `${open.length} checks`} may still go over between the moments it saw: ${open.map((u) => u.checkId).join(", ")}. Make two stages of this one.`,
          ],
          field: `evolution.stages[${stage}].path`,
        },
      ];
};

const throughout = (stage: number): Pick<Fault, "stage" | "when" | "between"> => ({
  stage,
  when: { stage, along: 0 },
  between: [0, 1],
});
