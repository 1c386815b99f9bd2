import type { When } from "../evolve/evolution-types.ts";
import { momentPlan } from "../evolve/moment-plan.ts";
import type { Plan } from "../schema/plan.ts";
import { type SolvedPlan, solvePlan } from "../solve-plan.ts";
import { letGoCase } from "./let-go-case.ts";
import type { LetGoCase, ShareSlackCell, ShareSlackMap, TipChoice } from "./let-go-plan-types.ts";
import { BELOW } from "./load-stops.ts";
import { extremesOf } from "./reckoned-range.ts";
import { rankOfOutcome } from "./worse-case.ts";

const SHARES: readonly number[] = [0.5, 0.6, 0.7, 0.8, 0.9, 1];
const SLACKS_M: readonly number[] = [0, 0.2, 0.4, 0.6, 0.8, 1];

/**
 * How hard is the blow at the tip when the line with more of the load goes, over how the load is shared and how much rope
 * runs in the other before it holds?
 *
 * Over the range that the ropes' stiffness is reckoned to have, as checks are: each cell followed loosely at its ends, with
 * sheaves that hold as after a raise and as after a lower; this plan's own finely as everywhere. At a moment, or of the plan's
 * one position. null: not two main lines on the load.
 */
export function shareSlackMap(
  plan: Plan,
  when: When | null,
  { tipGives = false }: TipChoice = {},
): ShareSlackMap | null {
  const then = when === null ? plan : momentPlan(plan, when);
  const [a, b, ...more] = then.rig.mainLines;
  if (!a || !b || more.length > 0) return null;
  const [cut, stays] = a.share >= b.share ? [a, b] : [b, a];
  const sharedBy = (share: number): SolvedPlan => {
    const mainLines = then.rig.mainLines.map((l) => ({ ...l, share: l.id === cut.id ? share : 1 - share }));
    return solvePlan({ ...then, rig: { ...then.rig, mainLines } });
  };
  const cells = SHARES.map((share) => {
    const situation = sharedBy(share);
    return SLACKS_M.map((slackM) =>
      cellOf(
        extremesOf(situation, { slackM: { [stays.id]: slackM } }).map((choices) =>
          letGoCase(situation, when, [cut.id], { ...choices, pass: "loose", tipGives }),
        ),
      ),
    );
  });
  const total = a.share + b.share;
  const share = total > 0 ? cut.share / total : 0.5;
  const here = letGoCase(sharedBy(share), when, [cut.id], { tipGives });
  return {
    when,
    cut: cut.id,
    shares: SHARES,
    slacksM: SLACKS_M,
    cells,
    slipUnknown: here.slipUnknown,
    here: { share, slackM: 0, ...cellOf([here]) },
  };
}

/** One cell from its runs: no figure where the load falls in any of them, or what happens is not known. */
function cellOf(runs: readonly LetGoCase[]): ShareSlackCell {
  const outcome = runs.reduce<LetGoCase["outcome"]>(
    (worst, run) => (rankOfOutcome(run.outcome) < rankOfOutcome(worst) ? run.outcome : worst),
    "held",
  );
  const tips = runs.flatMap(({ figures }) => figures?.tipN ?? []);
  return {
    outcome,
    tipN:
      outcome !== "held" || tips.length < runs.length
        ? null
        : { low: Math.min(...tips.map((t) => t.low)), high: Math.max(...tips.map((t) => t.high)) },
    lands: runs.some((run) => run.outcome === "falls" || run.figures?.hits.some((h) => h.what === BELOW) === true),
  };
}
