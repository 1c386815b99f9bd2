import type { LetGoCase } from "./let-go-plan-types.ts";
import { FALL_MS } from "./load-falls.ts";

const RANK = { falls: 0, unknown: 1, held: 2 } as const;

/** How bad an outcome is: falls, not known, held. */
export const rankOfOutcome = (outcome: LetGoCase["outcome"]): number => RANK[outcome];

/** What a drop, and rope through a brake, are measured by, m: both as much as the belay competence drop test has; see `peakSlipM`. */
const DROP_M = 1;
/** What a force at the tip is measured by where the ladder's rating is not known, N. Planning choice, no source. */
const TIP_N = 5000;

/** Of the force at the tip, the drop, rope through a brake and what is hit, that which is most of what it is measured by. */
function hardness({ figures }: LetGoCase): number {
  if (figures === null) return 0;
  const { tipN, utilisations, dropM, lines, hits } = figures;
  return Math.max(
    utilisations.resultant.ratio ?? tipN.high / TIP_N,
    dropM.high / DROP_M,
    ...lines.map((l) => l.slippedM / DROP_M),
    ...hits.map((h) => h.speedMS / FALL_MS),
  );
}

/** Worse: by what holds; of falls by how fast, then by how far; of what is held by what counts most of tip, drop, slip and hits. */
export function isWorse(a: LetGoCase, b: LetGoCase): boolean {
  if (a.outcome !== b.outcome) return RANK[a.outcome] < RANK[b.outcome];
  const first = (a.fall?.speedMS ?? hardness(a)) - (b.fall?.speedMS ?? hardness(b));
  if (first !== 0) return first > 0;
  return (a.fall?.heightM ?? a.figures?.tipN.high ?? 0) > (b.fall?.heightM ?? b.figures?.tipN.high ?? 0);
}
