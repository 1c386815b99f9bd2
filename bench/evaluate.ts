import { EXAMPLES, evaluate, type Plan } from "@gantline/plan";
import { type BenchReport, measure } from "./measure.ts";

/** The plan as a drag would leave it: the load moved a little, so that nothing can be taken from the last answer. */
function dragged(plan: Plan, step: number): Plan {
  const [x, y, z] = plan.rig.load.positionM;
  const shift = 0.01 * (step % 50);
  return { ...plan, rig: { ...plan.rig, load: { ...plan.rig.load, positionM: [x + shift, y, z - shift] } } };
}

/** The whole evaluation of each example plan, every check included, at a new place of the load each time. Aim: under 4 ms. */
export function benchEvaluate(): BenchReport {
  const report: Record<string, BenchReport[string]> = {};
  for (const { key, plan } of EXAMPLES) {
    report[`evaluate ${key}`] = measure((call) => evaluate(dragged(plan, call)), { warmup: 300, minTimeMs: 1500 });
    report[`checks in ${key}`] = evaluate(plan).ledger.length;
  }
  return report;
}
