import { type LetGo, type LetGoLine, type LetGoSystem, letGo, type Network, solveNetwork } from "@gantline/engine";
import loadMujoco from "mujoco-js";
import { describe, expect, it } from "vitest";
import { exampleLetGo } from "../../packages/engine/src/solve/testing/example-let-go.ts";
import { randomNetwork } from "../../packages/engine/src/solve/testing/random-network.ts";
import { buildLetGoInMujoco, type Followed } from "./let-go-in-mujoco.ts";

/**
 * What a line that goes does, against a general-purpose physics engine, MuJoCo (mujoco-js 0.0.7, double precision):
 * another integrator, another way to describe ropes, another author. It knows no sheave loss and no slipping brake, so
 * these are left to their own tests.
 *
 * Tolerances. MuJoCo is run with a time step and with half of it. The two differ by what a step leaves open; what it leaves open
 * at half the step is no more than that. So in each case the answers may differ by as much as its own step leaves open, and by
 * what is lost of a peak between two steps.
 */
const mujoco = await loadMujoco();
const DURATION_S = 3;
const STEP_S = 1e-3;

function both(
  system: LetGoSystem,
  cut: string,
  ours: LetGo,
  durationS = DURATION_S,
): { readonly ours: LetGo; readonly whole: Followed; readonly half: Followed } {
  const built = buildLetGoInMujoco(mujoco, system, cut);
  try {
    return { ours, whole: built.follow(STEP_S, durationS), half: built.follow(STEP_S / 2, durationS) };
  } finally {
    built.dispose();
  }
}

/** What may be lost of a peak between two of the half steps, at this frequency, rad/s. */
const betweenSteps = (frequency: number): number => (frequency * (STEP_S / 2)) ** 2 / 8;

/** Of the greatest peak of a case: how far apart two sets of peaks are. */
function peaksApart(of: Readonly<Record<string, number>>, other: Readonly<Record<string, number>>): number {
  const most = Math.max(...Object.values(of));
  return Math.max(...Object.entries(of).map(([name, peak]) => Math.abs(peak - other[name]!))) / most;
}
const placesApart = (of: Followed["places"], other: Followed["places"]): number =>
  Math.max(...Object.entries(of).map(([name, at]) => Math.hypot(...at.map((x, c) => x - other[name]![c]!))));

const peaksOf = ({ lines }: LetGo) => Object.fromEntries(Object.entries(lines).map(([name, l]) => [name, l.peakN]));
const lastPlacesOf = ({ motion }: LetGo) =>
  Object.fromEntries(Object.entries(motion.places).map(([name, at]) => [name, at.at(-1)!]));

/** A network at rest, about to lose a line. */
function restingSystem(network: Network): LetGoSystem | null {
  const answer = solveNetwork(network);
  if (!answer.ok) return null;
  const free = Object.entries(network.nodes).filter(([, n]) => n.free);
  return {
    nodes: Object.fromEntries(
      Object.entries(network.nodes).map(([name, { free: moves, massKg, forceN }]) => [
        name,
        {
          positionM: answer.nodes[name]!.position,
          ...(moves ? { massKg: massKg! } : {}),
          ...(moves && forceN ? { forceN } : {}),
        },
      ]),
    ),
    lines: Object.fromEntries(
      Object.entries(network.lines).map(
        ([name, { through, lengthM, axialStiffnessN, tensionN }]): [string, LetGoLine] => [
          name,
          tensionN === undefined
            ? { through, axialStiffnessN: axialStiffnessN!, lengthM: lengthM! }
            : { through, axialStiffnessN: null, holding: { kind: "hands", tensionN } },
        ],
      ),
    ),
    load: free[0]![0],
  };
}

describe("a general-purpose physics engine", () => {
  it("finds the same peaks and places after a line has gone, in 24 random systems at rest", () => {
    const cases: ReturnType<typeof both>[] = [];
    const seen = { wentSlack: 0, overSheave: 0, byHand: 0, moreLoads: 0 };
    for (let seed = 300; cases.length < 24; seed++) {
      const network = randomNetwork(seed, {
        friction: 0,
        ropeWeight: 0,
        massless: 0,
        stiffnessN: [1e4, 6e4],
        maxFree: 2,
      });
      const system = restingSystem(network);
      const cut = system && Object.keys(system.lines)[seed % Object.keys(system.lines).length];
      if (!system || cut === undefined || cut === null) continue;
      const ours = letGo(system, cut, { tolerance: 1e-9, durationS: DURATION_S });
      // Pulleys that run into the next block stop there, which the other engine does not know.
      if (!ours.ok || ours.touches.length > 0 || Object.keys(ours.lines).length === 0) continue;
      // A slack line that goes changes nothing.
      if (Math.max(ours.load.dropM, ours.load.swingM) < 0.2) continue;
      cases.push(both(system, cut, ours));
      const left = Object.entries(system.lines).filter(([name]) => name !== cut);
      if (left.some(([name]) => ours.lines[name]!.wasSlack)) seen.wentSlack++;
      if (left.some(([, l]) => l.through.length > 2)) seen.overSheave++;
      if (left.some(([, l]) => l.holding?.kind === "hands")) seen.byHand++;
      if (Object.values(system.nodes).filter((n) => n.massKg !== undefined).length > 1) seen.moreLoads++;
    }
    for (const c of cases) {
      const refined = peaksApart(c.whole.peaksN, c.half.peaksN);
      const moved = placesApart(c.whole.places, c.half.places);
      expect(refined).toBeLessThan(1e-4);
      expect(moved).toBeLessThan(1e-3);
      expect(peaksApart(c.half.peaksN, peaksOf(c.ours))).toBeLessThan(refined + betweenSteps(20));
      expect(placesApart(c.half.places, lastPlacesOf(c.ours))).toBeLessThan(moved + 1e-5);
    }
    for (const count of Object.values(seen)) expect(count).toBeGreaterThan(3);
  });

  it.each([
    ["left", DURATION_S],
    ["right", DURATION_S],
    ["tag", DURATION_S],
    // Then its pulley has run down the return to the next block.
    ["tether", 1.5],
  ])("finds the same when a ladder's tip gives, a pulley rides the return, and %s goes", (cut, durationS) => {
    const { stops: _, ...system } = exampleLetGo({ tipNM: 15_000, tether: true });
    const ours = letGo(system, cut, { tolerance: 1e-9, durationS });
    if (!ours.ok) throw new Error(ours.hint);
    expect(ours.touches).toEqual([]);
    const { whole, half } = both(system, cut, ours, durationS);
    const refined = peaksApart(whole.peaksN, half.peaksN);
    expect(refined).toBeLessThan(1e-4);
    expect(peaksApart(half.peaksN, peaksOf(ours))).toBeLessThan(refined + betweenSteps(60));
    expect(Math.abs(half.dropM - ours.load.dropM)).toBeLessThan(Math.abs(whole.dropM - half.dropM) + 1e-5);
  });
});
