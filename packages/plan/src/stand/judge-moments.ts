import { assess, judgeMoving, judgeStanding } from "../assess.ts";
import { evaluate } from "../evaluate.ts";
import { appliesInStage } from "../evolve/applies-in-stage.ts";
import type { When } from "../evolve/evolution-types.ts";
import { momentFaults } from "../evolve/moment-faults.ts";
import { momentPlan } from "../evolve/moment-plan.ts";
import { keepWorst } from "../evolve/worst-checks.ts";
import type { Finding } from "../judge.ts";
import type { Plan } from "../schema/plan.ts";
import type { Stand } from "../stand-aerial.ts";
import { keyMoments } from "./key-moments.ts";
import { aspectCost } from "./stand-front.ts";
import type { StandAspect, StandChoice, StandFigures } from "./stand-types.ts";
import { isOver, judgedStand, sweepStand } from "./sweep-stand.ts";
import { withStand } from "./with-stand.ts";

/** Tells whether stands hold at the moments that matter, by the rules of the ledger: tens of times quicker than a sweep. */
export interface MomentJudge {
  /** The figures of a stand if nothing is over at any of these moments; `null` as soon as something is, or as they are no better than asked. */
  readonly figures: (choice: StandChoice, better?: BetterThan) => StandFigures | null;
  /** How much is over at all of them together: each check by its share above the limit, at most 2; 0 where nothing is. Any number above `most` where it is more. */
  readonly excess: (choice: StandChoice, most: number) => number;
  /** Looks at these as well from now on. */
  readonly watch: (moments: readonly When[]) => void;
  /** How many moments were looked at so far: what all this costs. */
  readonly spent: () => number;
}

/** Less by an aspect than a cost. */
export interface BetterThan {
  readonly aspect: StandAspect;
  readonly below: number;
}

/** Is it known already that a stand is no better? Its figures only get worse from moment to moment. */
function isNoBetter(figures: StandFigures, better: BetterThan | undefined): boolean {
  if (!better) return false;
  const cost = aspectCost(figures, better.aspect);
  return cost >= better.below && cost < Number.MAX_VALUE;
}

/** No check counts for more than this, so that one that touches does not hide all others. */
const MOST_EXCESS = 2;

/**
 * A judge over the start, bends and end of every stage of a plan, and whatever moments it is told to watch: those at which
 * a sweep found something over. The moment that decided last is looked at first. A plan without stages has its one position.
 */
export function momentJudge(plan: Plan): MomentJudge {
  if (plan.evolution.stages.length === 0) {
    const judged = (choice: StandChoice) => sweepStand(withStand(plan, choice));
    let spent = 0;
    return {
      figures: (choice, better) => {
        spent++;
        const { fit, figures } = judged(choice);
        return fit === "fails" || isNoBetter(figures, better) ? null : figures;
      },
      excess: (choice) => {
        spent++;
        return evaluate(withStand(plan, choice)).ledger.reduce((sum, c) => sum + (isOver(c) ? excessOf(c) : 0), 0);
      },
      watch: () => {},
      spent: () => spent,
    };
  }
  const moments = [...keyMoments(plan)];
  let spent = 0;
  return {
    figures(choice, better) {
      const stood = momentWorker(withStand(plan, choice));
      for (const [i, when] of moments.entries()) {
        spent++;
        if (!stood.excessAt(when) && !isNoBetter(stood.figures(), better)) continue;
        moments.splice(i, 1);
        moments.unshift(when);
        return null;
      }
      return stood.figures();
    },
    excess(choice, most) {
      const stood = momentWorker(withStand(plan, choice));
      let sum = 0;
      for (const when of moments) {
        spent++;
        sum += stood.excessAt(when);
        if (sum > most) break;
      }
      return sum;
    },
    watch(more) {
      for (const when of more)
        if (!moments.some((m) => m.stage === when.stage && Math.abs(m.along - when.along) < SAME_ALONG))
          moments.unshift(when);
    },
    spent: () => spent,
  };
}

const SAME_ALONG = 1e-3;

/** Works moments of one plan, and keeps what they come to. */
function momentWorker(plan: Plan) {
  const worst = keepWorst();
  const stands = new Map<number, { readonly stand: Stand; readonly standing: readonly Finding[] }>();
  let tipForceN: number | null = null;

  function excessAt(when: When): number {
    const stage = plan.evolution.stages[when.stage];
    if (!stage) return 0;
    const moves = stage.action === "moveLadder";
    const known = moves ? undefined : stands.get(when.stage);
    const situation = assess(momentPlan(plan, when), [], known?.stand ?? null, true);
    const applies = appliesInStage(stage);
    const standing = known?.standing ?? judgeStanding(situation).filter(applies);
    if (!known && !moves) stands.set(when.stage, { stand: situation.stand, standing });
    const checks = [...standing, ...judgeMoving(situation).filter(applies)];
    worst.see(checks, when);
    if (stage.aboard.length > 0)
      for (const travel of situation.cases) {
        const force = situation.felt[travel]?.inBeam.resultantN;
        if (force !== undefined) tipForceN = Math.max(tipForceN ?? 0, force);
      }
    const problem = stage.aboard.length > 0 && momentFaults(situation).length > 0 ? 1 : 0;
    return checks.reduce((sum, c) => sum + (isOver(c) ? excessOf(c) : 0), problem);
  }

  return {
    excessAt,
    figures: (): StandFigures => judgedStand(plan, { ledger: worst.all(), tipForceN }).figures,
  };
}

const excessOf = ({ ratio }: Pick<Finding, "ratio">): number => Math.min(MOST_EXCESS, Math.max(1e-6, (ratio ?? 2) - 1));
