import type { LetGoCase } from "./let-go-plan-types.ts";

const RANK = { falls: 0, unknown: 1, held: 2 } as const;

/** How bad an outcome is: falls, not known, held. */
export const rankOfOutcome = (outcome: LetGoCase["outcome"]): number => RANK[outcome];

/** Worse: by what holds, then by the force at the tip. */
export const isWorse = (a: LetGoCase, b: LetGoCase): boolean =>
  a.outcome === b.outcome
    ? (a.figures?.tipN.high ?? 0) > (b.figures?.tipN.high ?? 0)
    : RANK[a.outcome] < RANK[b.outcome];
