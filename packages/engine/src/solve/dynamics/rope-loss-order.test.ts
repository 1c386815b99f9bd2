import { describe, expect, it } from "vitest";
import { dormandPrince } from "../../numerics/dormand-prince.ts";
import { exampleLetGo } from "../testing/example-let-go.ts";
import { compileSystem } from "./compile-system.ts";
import { moveSystem } from "./move-system.ts";

/** The example's motion after its right main has gone, in even steps: the state at the end. */
function inSteps(count: number, of: Parameters<typeof exampleLetGo>[0]): Float64Array {
  const rig = compileSystem({ ...exampleLetGo(of), stops: {} }, ["right"]);
  if ("code" in rig) throw new Error(rig.hint);
  const run = dormandPrince(rig.start.length, moveSystem(rig).derivative);
  run.begin(rig.start);
  for (let i = 0; i < count; i++) {
    if (i > 0) run.advance();
    run.attempt(END_S / count, 1);
  }
  return run.to;
}

const END_S = 1.5;
const apart = (a: Float64Array, b: Float64Array): number => Math.hypot(...a.map((x, i) => x - b[i]!));

describe("halving the step, after a rope has gone", () => {
  it.each([
    ["on ropes without loss", 20, {}],
    ["on damped ropes", 20, { dampingNsM: 40 }],
    // A tip of 40 kg swings some fifty times a second against the ropes' stretch.
    ["at a tip that gives", 320, { tipNM: 15_000 }],
  ])("%s, leaves a thirty-second of the error: the method is of fifth order", (_, first, of) => {
    // Dormand and Prince, Journal of Computational and Applied Mathematics 6 (1980): order 5. Against 64 times as many steps.
    const exact = inSteps(64 * first, of);
    const errors = [first, 2 * first, 4 * first].map((count) => apart(inSteps(count, of), exact));
    const orders = [Math.log2(errors[0]! / errors[1]!), Math.log2(errors[1]! / errors[2]!)];
    for (const order of orders) {
      expect(order).toBeGreaterThan(4.6);
      expect(order).toBeLessThan(5.9);
    }
  });
});
