import { describe, expect, it } from "vitest";
import { type Derivative, dormandPrince, nextStep } from "./dormand-prince.ts";

/** A body on an ellipse about the centre of attraction. */
const orbit: Derivative = ([x = 0, y = 0, u = 0, v = 0], into) => {
  const cube = Math.hypot(x, y) ** 3;
  into.set([u, v, -x / cube, -y / cube]);
};

/** Of an ellipse of half axis 1 and eccentricity 0.5; Kepler's equation t = E − e sin E, textbook formula. */
const ECCENTRICITY = 0.5;
const START = Float64Array.of(1 - ECCENTRICITY, 0, 0, Math.sqrt((1 + ECCENTRICITY) / (1 - ECCENTRICITY)));

function exact(time: number): readonly [number, number] {
  let anomaly = time;
  for (let i = 0; i < 60; i++)
    anomaly -= (anomaly - ECCENTRICITY * Math.sin(anomaly) - time) / (1 - ECCENTRICITY * Math.cos(anomaly));
  return [Math.cos(anomaly) - ECCENTRICITY, Math.sqrt(1 - ECCENTRICITY ** 2) * Math.sin(anomaly)];
}

function offAt(time: number, [x = 0, y = 0]: ArrayLike<number> & Iterable<number>): number {
  const [a, b] = exact(time);
  return Math.hypot(x - a, y - b);
}

const END = 5;

function evenSteps(count: number): { readonly end: number; readonly between: number } {
  const run = dormandPrince(4, orbit);
  const middle = new Float64Array(4);
  const step = END / count;
  let between = 0;
  run.begin(START);
  for (let i = 0; i < count; i++) {
    if (i > 0) run.advance();
    run.attempt(step, 1);
    run.within(0.4, middle);
    between = Math.max(between, offAt((i + 0.4) * step, middle));
  }
  return { end: offAt(END, run.to), between };
}

describe("Dormand–Prince steps", () => {
  it("are of fifth order, and of at least fourth between their ends, on an orbit (Kepler's equation)", () => {
    const errors = [200, 400, 800].map(evenSteps);
    const order = (of: "end" | "between") => Math.log2(errors[1]![of] / errors[2]![of]);
    expect(order("end")).toBeGreaterThan(4.7);
    expect(order("between")).toBeGreaterThan(3.8);
    expect(errors[2]!.end).toBeLessThan(1e-9);
  });

  it("keep near the tolerance when they choose their own length, whatever it is", () => {
    for (const tolerance of [1e-5, 1e-7, 1e-9]) {
      const run = dormandPrince(4, orbit);
      run.begin(START);
      let time = 0;
      let step = 0.01;
      let before = 1;
      while (time < END) {
        const tried = Math.min(step, END - time);
        const error = run.attempt(tried, tolerance);
        step = nextStep(tried, error, before);
        if (error > 1) continue;
        before = error;
        time += tried;
        run.advance();
      }
      // An orbit lets errors grow: by some tens over this time.
      expect(offAt(END, run.from)).toBeLessThan(100 * tolerance);
    }
  });

  it("meet the ends of a step with the curve between", () => {
    const run = dormandPrince(4, orbit);
    run.begin(START);
    run.attempt(0.1, 1);
    const at = new Float64Array(4);
    run.within(0, at);
    expect([...at]).toEqual([...run.from]);
    run.within(1, at);
    for (const [i, value] of run.to.entries()) expect(at[i]).toBeCloseTo(value, 14);
  });
});
