import type { LineAnswer, NetworkAnswer, NetworkFailure, NetworkSolution } from "../rope/network.ts";

/** One network's answer as it is printed: without what only a program wants (steps taken, the input over again). */
export type PrintedSolution =
  | (Pick<NetworkAnswer, "ok" | "residualN" | "nodes" | "forcesOnFixedN"> & {
      readonly lines: Readonly<Record<string, LineAnswer>>;
    })
  | Pick<NetworkFailure, "ok" | "code" | "where" | "hint" | "residualN">;

export interface PrintedAnswers {
  /** What to print: one answer for one network, a list in order for a list. */
  readonly output: PrintedSolution | readonly PrintedSolution[];
  /** 1 if any network has no answer, else 0. */
  readonly exitStatus: 0 | 1;
}

/** Turns solutions into what `gantline solve` prints. `many` as `readNetworks` told. */
export function answerNetworks(solutions: readonly NetworkSolution[], many: boolean): PrintedAnswers {
  const printed = solutions.map(printedSolution);
  const exitStatus = solutions.every((solution) => solution.ok) ? 0 : 1;
  const only = printed[0];
  return { output: many || only === undefined ? printed : only, exitStatus };
}

function printedSolution(solution: NetworkSolution): PrintedSolution {
  if (solution.ok) {
    const { ok, residualN, nodes, lines, forcesOnFixedN } = solution;
    return { ok, residualN, nodes, lines, forcesOnFixedN };
  }
  const { ok, code, where, hint, residualN } = solution;
  return { ok, code, where, hint, ...(residualN === undefined ? {} : { residualN }) };
}
