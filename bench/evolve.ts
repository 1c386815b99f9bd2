import { EXAMPLES, evolve } from "@gantline/plan";
import { type BenchReport, measure } from "./measure.ts";

/** A whole example evolution: every stage swept, every check at every moment. Aim: under 60 ms for 200 moments. */
export function benchEvolve(): BenchReport {
  const report: Record<string, BenchReport[string]> = {};
  for (const { key, plan } of EXAMPLES.slice(0, 2)) {
    report[`evolve ${key}`] = measure(() => evolve(plan), { warmup: 20, minTimeMs: 2000 });
    report[`moments in ${key}`] = evolve(plan).moments.length;
  }
  return report;
}
