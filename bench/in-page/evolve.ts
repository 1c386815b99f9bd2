import { EXAMPLES, evolve } from "@gantline/plan";
import { type BenchReport, type Measurement, measure } from "../measure.ts";

/** Times of whole example evolutions, each stage anew, as after a change of the rig. */
export function evolveTimes(): BenchReport {
  const report: Record<string, Measurement | number> = {};
  for (const { key, plan } of EXAMPLES) {
    const times = measure(() => evolve(plan), { warmup: 60, minTimeMs: 4000 });
    report[`evolve ${key}, in a browser`] = times;
    report[`${key}: median, ms`] = Number(times.medianMs.toPrecision(3));
    report[`${key}: moments`] = evolve(plan).moments.length;
  }
  return report;
}
