import { type Network, type NetworkAnswer, solveNetwork } from "@gantline/engine";
import loadMujoco from "mujoco-js";
import { describe, expect, it } from "vitest";
import { type RandomNetworkOptions, randomNetwork } from "../../packages/engine/src/solve/testing/random-network.ts";
import { buildInMujoco, type Settled, type SettlingOptions } from "./settle-in-mujoco.ts";

/**
 * The network solver against a general-purpose physics engine, MuJoCo (mujoco-js 0.0.7, double precision), which steps
 * damped point masses on spatial tendons until they rest: another formulation, method and author.
 *
 * Tolerances. The engine is stopped when no node has more than 1e-6 N left over; a few networks settle so slowly that they are
 * compared with somewhat more. The softest way a node can move here is as the lightest pendulum on the longest rope: 5 kg · g / 50 m,
 * about 1 N/m. So a place may be off by the force left over, over 1 N/m. The tension of a rope may be off by the
 * force left over, times the ways in which rope forces add up, which are below ten. Halving the time step moves nothing by
 * more than this (last test).
 */
const SETTLED_N = 1e-6;
const SOFTEST_NM = 1;
const ADDING_UP = 10;

const ROPES: RandomNetworkOptions = { friction: 0, ropeWeight: 0, massless: 0, stiffnessN: [5e3, 1e5], maxFree: 4 };

const mujoco = await loadMujoco();

function settle(network: Network, mostSteps: number, options?: SettlingOptions): Settled {
  const built = buildInMujoco(mujoco, network, options);
  try {
    return built.settle(SETTLED_N, mostSteps);
  } finally {
    built.dispose();
  }
}

function expectSame(settled: Settled, answer: NetworkAnswer): void {
  const left = Math.max(SETTLED_N, settled.residualN);
  for (const [name, place] of Object.entries(settled.places)) {
    expect(apart(place, answer.nodes[name]!.position)).toBeLessThan(left / SOFTEST_NM);
  }
  for (const [name, tensionN] of Object.entries(settled.tensionsN)) {
    for (const t of answer.lines[name]!.tensionsN) expect(Math.abs(t - tensionN)).toBeLessThan(ADDING_UP * left);
  }
}

const apart = (a: readonly number[], b: readonly number[]) => Math.hypot(...a.map((c, i) => c - b[i]!));

describe("a general-purpose physics engine", () => {
  it("comes to rest where the solver says, in 600 random networks", () => {
    const withs = { slack: 0, sheave: 0, tension: 0 };
    let same = 0;
    let slow = 0;
    for (let seed = 5000; same < 600; seed++) {
      const network = randomNetwork(seed, ROPES);
      const answer = solveNetwork(network);
      if (!answer.ok) continue;
      const settled = settle(network, 100_000);
      expectSame(settled, answer);
      if (settled.residualN < SETTLED_N) same++;
      else {
        slow++;
        expect(settled.residualN).toBeLessThan(0.1);
      }
      const lines = Object.entries(network.lines);
      if (lines.some(([name]) => answer.lines[name]!.slack)) withs.slack++;
      if (
        lines.some(
          ([name, { through }]) =>
            !answer.lines[name]!.slack && through.slice(1, -1).some((node) => network.nodes[node]!.free),
        )
      )
        withs.sheave++;
      if (lines.some(([, line]) => line.tensionN !== undefined)) withs.tension++;
    }
    expect(slow).toBeLessThan(10);
    for (const count of Object.values(withs)) expect(count).toBeGreaterThan(50);
  });

  it("brings together the nodes that the solver says are drawn onto each other", () => {
    let seen = 0;
    for (let seed = 1; seen < 12; seed++) {
      const network = randomNetwork(seed, { ...ROPES, maxFree: 2, tangled: 0.8, highestTensionN: 900 });
      const outcome = solveNetwork(network);
      if (outcome.ok || outcome.code !== "two-blocked") continue;
      const other = Object.keys(network.nodes).find((name) => outcome.hint.includes(` onto ${name}.`))!;
      const { places } = settle(network, 20_000, { stepOverFastest: 0.1 });
      // A point mass jitters about the point it is drawn to: up to centimetres at these steps, on ropes of 10 to 100 m.
      expect(apart(places[outcome.where]!, places[other] ?? network.nodes[other]!.position)).toBeLessThan(0.1);
      seen++;
    }
  });

  it("lets fall without end what the solver says nothing holds", () => {
    let seen = 0;
    for (let seed = 1; seen < 12; seed++) {
      const network = randomNetwork(seed, { ...ROPES, maxFree: 2, hungByTension: 0.7 });
      const outcome = solveNetwork(network);
      if (outcome.ok || outcome.code !== "nothing-holds") continue;
      const from = network.nodes[outcome.where]!.position;
      const [some, more] = [4000, 8000].map((steps) => apart(settle(network, steps).places[outcome.where]!, from));
      expect(more! / some!).toBeGreaterThan(1.5);
      seen++;
    }
  });

  it("rests at the same places with half the time step", () => {
    let same = 0;
    for (let seed = 7000; same < 10; seed++) {
      const network = randomNetwork(seed, ROPES);
      const answer = solveNetwork(network);
      if (!answer.ok) continue;
      const [whole, half] = [1, 0.5].map((stepOverFastest) => settle(network, 120_000, { stepOverFastest }));
      expect(half!.residualN).toBeLessThan(SETTLED_N);
      expectSame(half!, answer);
      for (const [name, place] of Object.entries(whole!.places))
        expect(apart(place, half!.places[name]!)).toBeLessThan((2 * SETTLED_N) / SOFTEST_NM);
      same++;
    }
  });
});
