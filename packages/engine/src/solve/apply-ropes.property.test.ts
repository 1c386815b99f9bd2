import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compileNetwork } from "../rope/compile-network.ts";
import { applyRopes } from "./apply-ropes.ts";
import { newNetworkState } from "./network-state.ts";
import { randomNetwork } from "./testing/random-network.ts";

describe("the tangent of a network", () => {
  it("is the slope of the forces, with sheave loss, rope weight, slack lines, softening and smoothing", () => {
    fc.assert(
      fc.property(fc.nat(1e6), fc.constantFrom(0, 3), fc.constantFrom(0, 0.01), (seed, smoothing, softening) => {
        // Soft enough that differences over a step of 1e-5 m are not drowned by rounding.
        const options = { friction: 1, ropeWeight: 0.5, tangled: 0.6, stiffnessN: [1e3, 3e4] as const };
        const state = newNetworkState(compileNetwork(randomNetwork(seed, options)));
        state.smoothing = smoothing;
        state.softening = softening;
        const { net, place, force, size } = state;
        // The tangent weighs turning with the tension foreseen: here that is the tension there is.
        applyRopes(state, false);
        for (let line = 0; line < net.lineNames.length; line++)
          state.foreseen[line] = Math.max(0, state.tension[line]!);
        applyRopes(state, true);
        const tangent = Float64Array.from(state.tangent);
        const stiffest = tangent.reduce((most, k) => Math.max(most, Math.abs(k)), 1);

        const step = 1e-5;
        let worst = 0;
        for (let column = 0; column < size; column++) {
          const at = 3 * net.nodeOfFree[Math.floor(column / 3)]! + (column % 3);
          const middle = place[at]!;
          place[at] = middle + step;
          applyRopes(state, false);
          const ahead = Float64Array.from(force);
          place[at] = middle - step;
          applyRopes(state, false);
          place[at] = middle;
          for (let row = 0; row < size; row++) {
            const from = 3 * net.nodeOfFree[Math.floor(row / 3)]! + (row % 3);
            const slope = (force[from]! - ahead[from]!) / (2 * step);
            worst = Math.max(worst, Math.abs(slope - tangent[row * size + column]!) / stiffest);
          }
        }
        // Central differences: step² times the third derivative, plus rounding over step, both near 1e-8 here.
        expect(worst).toBeLessThan(1e-6);
      }),
      { seed: 20240611, numRuns: 500 },
    );
  });

  it("is symmetric without sheave loss and rope weight, since the forces then have an energy", () => {
    fc.assert(
      fc.property(fc.nat(1e6), (seed) => {
        const state = newNetworkState(compileNetwork(randomNetwork(seed, { friction: 0, ropeWeight: 0 })));
        applyRopes(state, true);
        const { tangent, size } = state;
        const stiffest = tangent.reduce((most, k) => Math.max(most, Math.abs(k)), 1);
        for (let i = 0; i < size; i++) {
          for (let j = 0; j < i; j++) {
            expect(Math.abs(tangent[i * size + j]! - tangent[j * size + i]!)).toBeLessThan(1e-12 * stiffest);
          }
        }
      }),
      { seed: 20240612, numRuns: 200 },
    );
  });
});
