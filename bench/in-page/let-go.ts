import { type LetGoSystem, letGo } from "@gantline/engine";
import loadMujoco from "mujoco-js";
import { exampleLetGo } from "../../packages/engine/src/solve/testing/example-let-go.ts";
import { buildLetGoInMujoco } from "../../validation/crosscheck/let-go-in-mujoco.ts";
import { type BenchReport, measure } from "../measure.ts";

const DURATION_S = 20;
/** Steps of the peer are tried from its own up, each so much longer, as long as it stays as accurate as ours. */
const OWN_STEP_S = 0.002;
const LONGER = 1.03;
/** Enough calls before those that count for the code to be quick, and enough together for a browser's clock. */
const WARM = { warmup: 400, together: 10, minTimeMs: 1000 } as const;

/** Times of following a load for 20 s, beside those of a general-purpose physics engine at the same accuracy. */
export async function letGoTimes(): Promise<BenchReport> {
  const plain = withoutStops(exampleLetGo());
  const exact = found(plain, 1e-11);
  const ours = found(plain, 1e-6);
  const off = (peakN: number, dropM: number, last: ArrayLike<number>) =>
    Math.max(
      Math.abs(peakN / exact.lines.left!.peakN - 1),
      Math.abs(dropM / exact.load.dropM - 1),
      Math.hypot(...exact.load.last.map((x, c) => x - last[c]!)) / exact.load.dropM,
    );
  const oursOff = off(ours.lines.left!.peakN, ours.load.dropM, ours.load.last);

  const built = buildLetGoInMujoco(await loadMujoco(), plain, "right");
  const peerOff = (stepS: number) => {
    const { peaksN, dropM, places } = built.follow(stepS, DURATION_S);
    return off(peaksN.left!, dropM, places.load!);
  };
  const stepS = longestStep((step) => peerOff(step) <= oursOff);

  const mine = measure(() => found(plain, 1e-6).steps, WARM);
  const peer = measure(() => built.follow(stepS, DURATION_S).dropM, { warmup: 3 });
  const reached = peerOff(stepS);
  built.dispose();

  const alone = (of: Parameters<typeof exampleLetGo>[0]) => {
    const system = withoutStops(exampleLetGo(of));
    return measure(() => found(system, 1e-6).steps, WARM);
  };
  return {
    "1 × letGo": mine,
    "1 × MuJoCo, as accurate": peer,
    "sheave loss": alone({ efficiency: 0.9 }),
    "loss, brakes, damping": alone({ efficiency: 0.9, slipsAtN: 2500, dampingNsM: 40 }),
    "a tip that gives": alone({ tipNM: 15_000, dampingNsM: 40 }),
    "a tether on a riding pulley": alone({ tether: true, dampingNsM: 40 }),
    medianMs: mine.medianMs,
    ratio: peer.minMs / mine.minMs,
    oursOff,
    peerOff: reached,
    peerStepS: stepS,
    oursSteps: ours.steps,
    peerSteps: Math.round(DURATION_S / stepS),
  };
}

/** The longest step, of those that go into the time without rest, up to which all are good enough; what a longer one meets by luck counts for nothing. */
function longestStep(isGood: (stepS: number) => boolean): number {
  const whole = (stepS: number): number => DURATION_S / Math.ceil(DURATION_S / stepS);
  let stepS = OWN_STEP_S;
  while (isGood(whole(stepS * LONGER))) stepS *= LONGER;
  return whole(stepS);
}

const withoutStops = ({ stops: _, ...system }: LetGoSystem): LetGoSystem => system;

function found(system: LetGoSystem, tolerance: number) {
  const outcome = letGo(system, "right", { tolerance, durationS: DURATION_S });
  if (!outcome.ok) throw new Error(outcome.hint);
  return outcome;
}
