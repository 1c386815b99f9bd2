/** How long one call takes, over all runs. Compare minimum with minimum: it is what the machine's other work disturbs least. */
export interface Measurement {
  readonly minMs: number;
  readonly meanMs: number;
  /** Standard deviation over the runs. */
  readonly deviationMs: number;
  readonly medianMs: number;
  readonly p95Ms: number;
  readonly runs: number;
}

/** What one bench tells: timings by name, the first being what the others are compared with, and counts that never vary. */
export type BenchReport = Readonly<Record<string, Measurement | number>>;

export interface MeasureOptions {
  /** Calls before timing starts. Left out: 20. */
  readonly warmup?: number;
  /** Timed calls go on for at least this long, and for 10 runs. Left out: 300. */
  readonly minTimeMs?: number;
  /** Calls timed together as one run and shared out, where one is short beside the clock's step (a browser's: 0.1 ms). Left out: 1. */
  readonly together?: number;
}

const MIN_RUNS = 10;

/** Takes in every result, so that no call can be left out as unused. */
let sink: unknown;

/**
 * How long does one call of `run` take?
 *
 * Calls much shorter than the clock's step drown in it: time several together.
 *
 * @param run gets the number of the call, to pick seeded inputs by; returns what it worked out
 */
export function measure(run: (call: number) => unknown, options: MeasureOptions = {}): Measurement {
  const { warmup = 20, minTimeMs = 300, together = 1 } = options;
  for (let call = 0; call < warmup; call++) sink = run(call);
  const timesMs: number[] = [];
  const endMs = performance.now() + minTimeMs;
  while (timesMs.length < MIN_RUNS || performance.now() < endMs) {
    const startMs = performance.now();
    for (let call = 0; call < together; call++) sink = run(timesMs.length * together + call);
    timesMs.push((performance.now() - startMs) / together);
  }
  if (sink === measure) throw new Error("A bench returned the measuring itself.");
  return summarise(timesMs);
}

/** @param timesMs at least one time */
export function summarise(timesMs: readonly number[]): Measurement {
  const sorted = [...timesMs].sort((a, b) => a - b);
  const runs = sorted.length;
  const at = (share: number) => sorted[Math.min(runs - 1, Math.max(0, Math.ceil(share * runs) - 1))] ?? 0;
  const meanMs = sorted.reduce((sum, t) => sum + t, 0) / runs;
  const variance = sorted.reduce((sum, t) => sum + (t - meanMs) ** 2, 0) / runs;
  return { minMs: at(0), meanMs, deviationMs: Math.sqrt(variance), medianMs: at(0.5), p95Ms: at(0.95), runs };
}
