import type { Evaluation, StageProblem } from "@gantline/plan";
import type { Desk } from "./desk.ts";

type Problems = Evaluation["problems"];
const NONE: Problems = [];

/** What is wrong with the plan's fields, by their place in the plan as written: at a moment lines that are off are not counted. */
export const problemsOf = ({ when, evaluation, evolution }: Desk): Problems =>
  when === null ? evaluation.problems : (evolution?.swept?.problems ?? NONE);

/** What the sweep found wrong with a stage at one of its fields. */
export const stageProblemAt = ({ evolution }: Desk, path: string): StageProblem | undefined =>
  path.startsWith("evolution.")
    ? evolution?.swept?.stages.flatMap(({ problems }) => problems).find(({ field }) => field === path)
    : undefined;
