import { describe, expect, it } from "vitest";
import { site } from "../base/vector.ts";
import { type JackLoads, jackLoads } from "./jack-loads.ts";

const foot = (id: string, x: number, y: number) => ({ id, position: site(x, y, 0) });
const SQUARE = [foot("a", -2, -3), foot("b", 2, -3), foot("c", 2, 3), foot("d", -2, 3)];
const weight = (x: number, y: number, newtons: number) => ({ at: site(x, y, 1.5), forceN: site(0, 0, -newtons) });
const near = (found: JackLoads | null, wanted: readonly number[]): void => {
  expect(found).not.toBeNull();
  for (const [i, n] of wanted.entries()) expect(found?.[i]).toBeCloseTo(n, 6);
};

describe("jackLoads", () => {
  it("shares a weight as a rigid footing shares it: P/A + M c/I, by hand for four corners", () => {
    // Elementary statics of an eccentrically loaded rigid footing, with point supports: N = P/4 ± P ex/(4 a) ± P ey/(4 b).
    near(jackLoads(SQUARE, [weight(0, 0, 100e3)]), [25e3, 25e3, 25e3, 25e3]);
    near(jackLoads(SQUARE, [weight(0.5, 0, 100e3)]), [18_750, 31_250, 31_250, 18_750]);
    near(jackLoads(SQUARE, [weight(0.5, 0.6, 100e3)]), [13_750, 26_250, 36_250, 23_750]);
  });

  it("takes a level force with its height", () => {
    // 10 kN level at 4 m over the feet is 40 kN·m: over 4 m between the sides, 10 kN to the far side, two jacks each.
    const push = { at: site(0, 0, 4), forceN: site(10e3, 0, 0) };
    near(jackLoads(SQUARE, [weight(0, 0, 100e3), push]), [20e3, 30e3, 30e3, 20e3]);
  });

  it("lets a jack go that would have to pull, and balances on the rest", () => {
    const forces = [weight(1.8, 2.5, 100e3)];
    const found = jackLoads(SQUARE, forces);
    expect(found?.[0]).toBe(0);
    expect(found?.reduce((s, n) => s + n, 0)).toBeCloseTo(100e3, 6);
    expect(found?.reduce((s, n, i) => s + n * (SQUARE[i]?.position[0] ?? 0), 0)).toBeCloseTo(180e3, 5);
    expect(found?.reduce((s, n, i) => s + n * (SQUARE[i]?.position[1] ?? 0), 0)).toBeCloseTo(250e3, 5);
  });

  it("says that nothing holds up what has its weight outside the jacks, or jacks in one line", () => {
    expect(jackLoads(SQUARE, [weight(2.5, 0, 100e3)])).toBeNull();
    expect(jackLoads([foot("a", 0, 0), foot("b", 1, 0), foot("c", 2, 0)], [weight(1, 0, 1)])).toBeNull();
    expect(jackLoads([], [])).toBeNull();
  });
});
