import { type LetGoSystem, letGo, type Triple } from "@gantline/engine";
import { describe, expect, it } from "vitest";
import { dormandPrince, nextStep } from "../../packages/engine/src/numerics/dormand-prince.ts";
import { solveWithOdex } from "./solve-with-odex.ts";

/**
 * Against ODEX, a general-purpose integrator of other authors and another kind (extrapolation). It is handed equations
 * written out anew here. Its tolerance is 1e-12; what is left between the two is ours, by our tolerance of 1e-9, and, of peaks,
 * what falls between two looks, 0.1 ms apart.
 */
const EVERY_S = 1e-4;

const ANCHORS: readonly Triple[] = [
  [3, 1, 12],
  [-2, -3, 15],
  [-1, 4, 11],
];
const MASS_KG = 180;
const WIND_N: Triple = [60, -25, 0];
const LENGTHS_M = [11.6, 14.6, 11.2];
const STIFFNESS_N = [30_000, 45_000, 22_000];
const DAMPING_NSM = [60, 25, 90];

/** Each rope pulls EA (l/L − 1) + c l', where that is more than nothing and it is stretched. */
function pullsOn(y: readonly number[]): readonly number[] {
  return ANCHORS.map((anchor, k) => {
    const way = anchor.map((a, i) => a - y[i]!);
    const length = Math.hypot(...way);
    const rate = -way.reduce((sum, w, i) => sum + w * y[3 + i]!, 0) / length;
    const stretch = length / LENGTHS_M[k]! - 1;
    return stretch > 0 ? Math.max(0, STIFFNESS_N[k]! * stretch + DAMPING_NSM[k]! * rate) : 0;
  });
}

function slope(y: readonly number[]): readonly number[] {
  const force = [WIND_N[0], WIND_N[1], -MASS_KG * 9.80665];
  for (const [k, pull] of pullsOn(y).entries()) {
    const way = ANCHORS[k]!.map((a, i) => a - y[i]!);
    for (const i of [0, 1, 2]) force[i]! += (pull * way[i]!) / Math.hypot(...way);
  }
  return [y[3]!, y[4]!, y[5]!, ...force.map((f) => f / MASS_KG)];
}

describe("a general-purpose integrator", () => {
  it("finds the same peaks and the same end of a load on three damped ropes in space", () => {
    const system: LetGoSystem = {
      nodes: {
        load: { positionM: [0, 0, 1.5], massKg: MASS_KG, forceN: WIND_N, velocityMS: [0.3, -0.2, 0] },
        ...Object.fromEntries(ANCHORS.map((positionM, k) => [`anchor${k}`, { positionM }])),
      },
      lines: Object.fromEntries(
        ANCHORS.map((_, k) => [
          `rope${k}`,
          {
            through: ["load", `anchor${k}`],
            axialStiffnessN: STIFFNESS_N[k]!,
            lengthM: LENGTHS_M[k]!,
            dampingNsM: DAMPING_NSM[k]!,
          },
        ]),
      ),
      load: "load",
    };
    const ours = letGo(system, [], { tolerance: 1e-9, durationS: 4 });
    if (!ours.ok) throw new Error(ours.hint);
    const peaks = [0, 0, 0];
    let least = Infinity;
    const end = solveWithOdex(slope, [0, 0, 1.5, 0.3, -0.2, 0], 4, EVERY_S, (_, y) => {
      for (const [k, pull] of pullsOn(y).entries()) {
        peaks[k] = Math.max(peaks[k]!, pull);
        least = Math.min(least, pull);
      }
    });
    for (const [k, peak] of peaks.entries())
      expect(Math.abs(ours.lines[`rope${k}`]!.peakN / peak - 1)).toBeLessThan(1e-6);
    for (const i of [0, 1, 2]) expect(Math.abs(ours.load.last[i]! - end[i]!)).toBeLessThan(1e-6);
    // Some rope was slack, and came taut.
    expect(least).toBe(0);
    expect(Math.min(...peaks)).toBeGreaterThan(500);
  });

  it("agrees with our steps on a swing far out of plumb", () => {
    const pendulum = ([angle = 0, speed = 0]: readonly number[]) => [speed, -9.80665 * Math.sin(angle)];
    const end = solveWithOdex(pendulum, [2.5, 0], 5, 1, () => {});
    for (const tolerance of [1e-6, 1e-8, 1e-10]) {
      const run = dormandPrince(2, (y, into) => into.set(pendulum([...y])));
      run.begin(Float64Array.of(2.5, 0));
      let time = 0;
      let step = 0.01;
      let before = 1;
      while (time < 5) {
        const tried = Math.min(step, 5 - time);
        const error = run.attempt(tried, tolerance);
        step = nextStep(tried, error, before);
        if (error > 1) continue;
        before = error;
        time += tried;
        run.advance();
      }
      for (const i of [0, 1]) expect(Math.abs(run.from[i]! - end[i]!)).toBeLessThan(200 * tolerance);
    }
  });
});
