import { type Network, solveNetwork } from "@gantline/engine";
import loadMujoco from "mujoco-js";
import { buildInMujoco, type SettlingOptions } from "../validation/crosscheck/settle-in-mujoco.ts";
import { type BenchReport, measure } from "./measure.ts";

/** A load on a main line over the tip, and a tagline held by hand. Sheave loss is left out, which the peer does not know. */
const EXAMPLE: Network = {
  nodes: {
    load: { position: [8.6, 0.4, 7], free: true, massKg: 186, forceN: [0, 0, 0] },
    tip: { position: [8.5, 0.2, 26.2] },
    base: { position: [-12, 0, 1] },
    tag: { position: [25, 3, 1] },
  },
  lines: {
    M: { through: ["load", "tip", "base"], lengthM: 52.6, axialStiffnessN: 64000 },
    T: { through: ["load", "tag"], tensionN: 350 },
  },
};

/** Force left over, of the largest force: the rule that our answers must meet, and enough for the peer. */
const ACCURACY = 1e-6;
const MOST_STEPS = 200_000;
const DAMPINGS_PER_S = [0.5, 1, 1.5, 2, 3, 4];
/** The peer's own time step, s. */
const USUAL_STEP_S = 0.002;

/**
 * How much faster is the network solver than settling the same network in a general-purpose physics engine (MuJoCo), from the same
 * start to the same force left over, in the same process?
 *
 * The peer always gets the damping that serves it best of those tried, and its model is built beforehand; ours starts from names and
 * places each time. `ratio` is against the peer at its own time step. `tunedRatio` is against the peer at the longest step tried that
 * this one network bears, found by trial beforehand: as hard as the comparison can be made. `placeDifferenceM` shows that all
 * found the same place.
 */
export async function benchSolveNetwork(): Promise<
  BenchReport & { readonly oursMs: number; readonly peerMs: number; readonly ratio: number }
> {
  const answer = solveNetwork(EXAMPLE);
  if (!answer.ok) throw new Error(answer.hint);
  const place = answer.nodes.load!.position;
  const left = ACCURACY * Math.max(...Object.values(answer.lines).flatMap((line) => line.tensionsN));

  const mujoco = await loadMujoco();
  const best = (options: readonly SettlingOptions[]) => {
    const tried = options.map((option) => {
      const built = buildInMujoco(mujoco, EXAMPLE, option);
      const settled = built.settle(left, MOST_STEPS);
      return { built, settled, steps: settled.residualN < left ? settled.steps : Infinity };
    });
    const fastest = tried.reduce((a, b) => (b.steps < a.steps ? b : a));
    for (const { built } of tried) if (built !== fastest.built) built.dispose();
    return fastest;
  };
  const usual = best(DAMPINGS_PER_S.map((dampingPerS) => ({ dampingPerS, stepS: USUAL_STEP_S })));
  const tuned = best(
    DAMPINGS_PER_S.flatMap((dampingPerS) =>
      [0.25, 0.5, 1, 1.5, 2].map((stepOverFastest) => ({ dampingPerS, stepOverFastest })),
    ),
  );

  // A hundred to a call: one alone is too short for the clock.
  const ours = measure(() => {
    let iterations = 0;
    for (let i = 0; i < 100; i++) {
      const again = solveNetwork(EXAMPLE);
      if (again.ok) iterations += again.iterations;
    }
    return iterations;
  });
  const usually = measure(() => usual.built.settle(left, MOST_STEPS).steps, { warmup: 3, minTimeMs: 1000 });
  const atBest = measure(() => tuned.built.settle(left, MOST_STEPS).steps, { warmup: 3 });
  usual.built.dispose();
  tuned.built.dispose();

  const oursMs = ours.minMs / 100;
  const off = [usual, tuned].map(({ settled }) => Math.hypot(...settled.places.load!.map((c, i) => c - place[i]!)));
  return {
    "100 × solveNetwork": ours,
    "1 × settled in MuJoCo, own step": usually,
    "1 × settled in MuJoCo, step tuned": atBest,
    oursMs,
    peerMs: usually.minMs,
    ratio: usually.minMs / oursMs,
    tunedRatio: atBest.minMs / oursMs,
    oursIterations: answer.iterations,
    peerSteps: usual.steps,
    tunedPeerSteps: tuned.steps,
    placeDifferenceM: Math.max(...off),
  };
}
