import { assess } from "../assess.ts";
import type { When } from "../evolve/evolution-types.ts";
import { momentPlan } from "../evolve/moment-plan.ts";
import type { Plan } from "../schema/plan.ts";
import { letGoCase } from "./let-go-case.ts";
import type { ShareSlackMap } from "./let-go-plan-types.ts";

const SHARES: readonly number[] = [0.5, 0.6, 0.7, 0.8, 0.9, 1];
const SLACKS_M: readonly number[] = [0, 0.2, 0.4, 0.6, 0.8, 1];

/**
 * How hard is the blow at the tip when the line with more of the load goes, over how the load is shared and how much rope
 * runs in the other before it holds?
 *
 * By the figures entered. At a moment, or of the plan's one position. null: not two main lines on the load.
 */
export function shareSlackMap(plan: Plan, when: When | null): ShareSlackMap | null {
  const then = when === null ? plan : momentPlan(plan, when);
  const [a, b, ...more] = then.rig.mainLines;
  if (!a || !b || more.length > 0) return null;
  const [cut, stays] = a.share >= b.share ? [a, b] : [b, a];
  const peakTipN = (share: number, slackM: number): number | null => {
    const mainLines = then.rig.mainLines.map((l) => ({ ...l, share: l.id === cut.id ? share : 1 - share }));
    const shared = { ...then, rig: { ...then.rig, mainLines } };
    const found = letGoCase(assess(shared), when, [cut.id], { pass: "loose", slackM: { [stays.id]: slackM } });
    return found.figures?.tipN.entered ?? null;
  };
  const total = a.share + b.share;
  const share = total > 0 ? cut.share / total : 0.5;
  return {
    when,
    cut: cut.id,
    shares: SHARES,
    slacksM: SLACKS_M,
    peakTipN: SHARES.map((s) => SLACKS_M.map((slackM) => peakTipN(s, slackM))),
    here: { share, slackM: 0, peakTipN: peakTipN(share, 0) },
  };
}
