import type { When } from "../evolve/evolution-types.ts";
import { momentPlan, stageWay, wayLengthM } from "../evolve/moment-plan.ts";
import type { Plan } from "../schema/plan.ts";
import { solvePlan } from "../solve-plan.ts";
import type { Stand } from "../stand-aerial.ts";
import { type JudgedFigure, judgedFigures } from "./judged-figures.ts";
import { letGoCase } from "./let-go-case.ts";
import type { LoadFall, SweptCut, TipChoice } from "./let-go-plan-types.ts";

/** Moments at which every line is cut, about, which makes at least 400 cuts of three lines: spread evenly over all ways, but no fewer than this many for each. */
const MOMENTS = 133;
const LEAST_STEPS = 6;

/** The moments of an evolution at which something hangs on the ropes, in order. */
export function letGoMoments(plan: Plan): readonly When[] {
  const loaded = plan.evolution.stages.flatMap((stage, index) =>
    stage.aboard.length === 0 || stage.action === "moveLadder"
      ? []
      : [{ stage: index, lengthM: wayLengthM(stageWay(plan, index)) }],
  );
  const totalM = loaded.reduce((sum, { lengthM }) => sum + lengthM, 0);
  return loaded.flatMap(({ stage, lengthM }): When[] => {
    if (lengthM === 0) return [{ stage, along: 0 }];
    const steps = Math.max(LEAST_STEPS, Math.ceil((MOMENTS * lengthM) / totalM));
    return Array.from({ length: steps + 1 }, (_, k) => ({ stage, along: k / steps }));
  });
}

/** A cut of the sweep with what it is compared by. Not its whole case: hundreds of these go from worker to worker. */
export interface SweptCase extends SweptCut {
  readonly fall: LoadFall | null;
  /** null: it has no figures. */
  readonly judged: readonly JudgedFigure[] | null;
}

interface SweepOptions extends TipChoice {
  readonly cancelled?: () => boolean;
  readonly done?: (moments: number) => void;
}

/** Every line that is on the load cut at each of these moments, loosely followed with the softest ropes and with the stiffest, the tether's pulley where it is. */
export function sweepCuts(
  plan: Plan,
  moments: readonly When[],
  { cancelled = () => false, done = () => {}, tipGives = false }: SweepOptions = {},
): readonly SweptCase[] | null {
  const count = Math.max(1, plan.evolution.stages.length);
  const swept: SweptCase[] = [];
  let stand: Stand | null = null;
  let stage = -1;
  for (const [i, when] of moments.entries()) {
    if (cancelled()) return null;
    if (when.stage !== stage) stand = null;
    stage = when.stage;
    const situation = solvePlan(momentPlan(plan, when), stand);
    stand = situation.stand;
    for (const { id } of linesOn(situation.plan)) {
      const found = letGoCase(situation, when, [id], { pass: "ends", rider: "stays", tipGives });
      swept.push({
        when,
        at: (when.stage + when.along) / count,
        lineId: id,
        outcome: found.outcome,
        tipN: found.figures?.tipN.high ?? null,
        slipUnknown: found.figures === null ? [] : found.slipUnknown,
        fall: found.fall,
        judged: found.figures === null ? null : judgedFigures(found),
      });
    }
    done(i + 1);
  }
  return swept;
}

/** The lines of a rig: main lines, taglines, tether. */
export const linesOn = ({ rig }: Plan): readonly { readonly id: string; readonly name: string }[] => [
  ...rig.mainLines,
  ...rig.taglines,
  ...(rig.tether ? [rig.tether] : []),
];
