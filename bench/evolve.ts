import { EXAMPLES, evaluate, evolve, momentPlan, type Plan } from "@gantline/plan";
import loadMujoco from "mujoco-js";
import { solvePlan } from "../packages/plan/src/solve-plan.ts";
import type { Stand } from "../packages/plan/src/stand-aerial.ts";
import { frictionless, momentsOf, networkOf } from "../validation/crosscheck/moment-network.ts";
import { buildInMujoco } from "../validation/crosscheck/settle-in-mujoco.ts";
import { type BenchReport, type Measurement, measure } from "./measure.ts";

/** Moments that the peer settles; its time for all the moments of a sweep is scaled up from these. */
const SAMPLED = 10;
/** Force left over, of the largest tension: the rule that our answers must meet. */
const ACCURACY = 1e-6;
const MOST_STEPS = 400_000;
const DAMPINGS_PER_S = [0.5, 1, 2, 4];
/** The peer's own time step, s, too long for a pulley of ten grams: for those it is taken down to what the pulley bears. */
const USUAL_STEP_S = 0.002;

/**
 * How long does a whole example evolution take, every stage swept and every check judged at every moment (aim: under 60 ms for
 * 200 moments), and how much longer does a general-purpose physics engine (MuJoCo) take to settle as many moments
 * (aim: 500 times)? Like is held to like, our settling of the same moments to its; and beside it our whole sweep, with
 * clearances, checks and figures at every moment, to its settling alone.
 *
 * The peer gets models built beforehand, frictionless sheaves, the pulls already found, a start half a metre off, and the
 * damping that serves it best of those tried at each moment. It is timed at its own time step and, tuned, at the longest
 * step that its stiffest spring bears. Ratios are of its time, scaled up from the sample, to our medians.
 */
export async function benchEvolve(): Promise<BenchReport> {
  const report: Record<string, Measurement | number> = {};
  for (const { key, plan } of EXAMPLES.slice(0, 2)) {
    const ours = measure(() => evolve(plan), { warmup: 20, minTimeMs: 2000 });
    const moments = evolve(plan).moments.length;
    const settling = measure(settlingOf(plan), { warmup: 20, minTimeMs: 2000 });
    report[`evolve ${key}`] = ours;
    report[`${key}: settling alone`] = settling;
    report[`${key}: median, ms`] = Number(ours.medianMs.toPrecision(3));
    report[`${key}: moments`] = moments;
    for (const [step, stepS] of Object.entries({ "own step": USUAL_STEP_S, "step tuned": null })) {
      const { timeMs, settled } = await settleMoments(plan, stepS);
      report[`${key}: ${SAMPLED} in MuJoCo, ${step}, ms`] = Math.round(timeMs);
      report[`${key}: of them settled, ${step}`] = settled;
      const wholeMs = (timeMs / SAMPLED) * moments;
      report[`${key}: ratio to settling, ${step}`] = Number((wholeMs / settling.medianMs).toPrecision(2));
      report[`${key}: ratio to all of it, ${step}`] = Number((wholeMs / ours.medianMs).toPrecision(2));
    }
  }
  return report;
}

/** Settles every moment of an evolution, both ways of travel with friction, as the sweep does, and judges nothing. */
function settlingOf(plan: Plan): () => void {
  const moments = evolve(plan).moments.map(({ when }) => momentPlan(plan, when));
  return () => {
    let stand: Stand | null = null;
    let before: Plan | null = null;
    for (const then of moments) {
      if (then.aerial !== before?.aerial) stand = null;
      stand = solvePlan(then, stand, true).stand;
      before = then;
    }
  };
}

/** Time to settle the sampled moments one by one, each with its best damping, ms; and how many came to rest. */
async function settleMoments(example: Plan, stepS: number | null) {
  const mujoco = await loadMujoco();
  const plan = frictionless(example);
  let timeMs = 0;
  let settled = 0;
  for (const when of momentsOf(plan, SAMPLED)) {
    const then = momentPlan(plan, when);
    const evaluation = evaluate(then);
    const most = Math.max(...evaluation.lines.flatMap((line) => line.tensionsN.raise));
    const step = stepS === null || evaluation.tether ? {} : { stepS };
    const tries = DAMPINGS_PER_S.map((dampingPerS) => {
      const built = buildInMujoco(mujoco, networkOf(then, evaluation), { dampingPerS, ...step });
      const startMs = performance.now();
      const { residualN } = built.settle(ACCURACY * most, MOST_STEPS);
      const tookMs = performance.now() - startMs;
      built.dispose();
      return { tookMs, rests: residualN < ACCURACY * most };
    });
    const rested = tries.filter((t) => t.rests);
    timeMs += Math.min(...(rested.length > 0 ? rested : tries).map((t) => t.tookMs));
    if (rested.length > 0) settled++;
  }
  return { timeMs, settled };
}
