import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { distance, type SiteVector, site } from "../base/vector.ts";
import { type HeldAside, type Swing, swing } from "./swing.ts";
import { swingArc } from "./swing-arc.ts";
import { doublePendulumPeriods } from "./swing-double.ts";

function swings(of: HeldAside): Swing {
  const found = swing(of);
  if (!found.ok) throw new Error(found.code);
  return found;
}

const degrees = (angle: number) => (angle * Math.PI) / 180;
/** Held at an angle from plumb, toward a bearing, on a rope under a tip 30 m up. */
const aside = (ropeM: number, angle: number, bearing = 0.7, weightN = 1000): HeldAside => {
  const out = ropeM * Math.sin(angle);
  const held = site(4 + out * Math.sin(bearing), -3 + out * Math.cos(bearing), 30 - ropeM * Math.cos(angle));
  return { held, rest: site(4, -3, 30 - ropeM), ropeM, weightN };
};

describe("the period of a swing", () => {
  it.each([
    [5, 4.486468],
    [10, 6.344823],
    [15, 7.77079],
    [20, 8.972935],
    [25, 10.032046],
  ])("small, on %s m of rope, is %s s (computed, 2π√(L/g))", (ropeM, periodS) => {
    const found = swings(aside(ropeM, 1e-4));
    expect(found.smallPeriodS).toBeCloseTo(periodS, 6);
    expect(found.periodS).toBeCloseTo(periodS, 6);
  });

  it("gives the gravity of the textbook pendulum: 0.75000 m, 1.7357 s, 9.8281 m/s² (OpenStax, College Physics)", () => {
    // The time is printed to five digits, so gravity is known to 2 × 0.00005/1.7357 of itself.
    const found = swings({ ...aside(0.75, 0.01), gravityMS2: 9.8281 });
    expect(Math.abs(found.smallPeriodS - 1.7357)).toBeLessThan(0.00005);
  });

  it("gives 20.11407 s on √(10² + 100²) m (MoorDyn pendulum test; the formula is its own)", () => {
    expect(swings(aside(Math.hypot(10, 100), 1e-4)).smallPeriodS).toBeCloseTo(20.11407, 4);
  });

  it("grows with the amplitude as the series does", () => {
    // 1 + θ²/16 + 11θ⁴/3072 + 173θ⁶/737280 (from memory); what is left out is below 2e-5·θ⁸.
    for (const angle of [0.1, 0.3, 0.5]) {
      const { periodS, smallPeriodS } = swings(aside(12, angle));
      const series = 1 + angle ** 2 / 16 + (11 * angle ** 4) / 3072 + (173 * angle ** 6) / 737280;
      expect(Math.abs(periodS / smallPeriodS - series)).toBeLessThan(3e-5 * angle ** 8);
    }
  });

  it("is that of the motion itself, followed step by step", () => {
    for (const angle of [0.2, 0.9, 1.5]) {
      const { periodS } = swings(aside(9, angle));
      expect(quarterByRungeKutta(9, angle) * 4).toBeCloseTo(periodS, 7);
    }
  });

  it("of a load under a heavy yoke is two times (Kibble and Berkshire; values computed)", () => {
    const equal = doublePendulumPeriods({ upperM: 5, lowerM: 5, upperMassKg: 1, lowerMassKg: 1 });
    expect(equal!.slowS).toBeCloseTo(5.861852, 6);
    expect(equal!.quickS).toBeCloseTo(2.428059, 6);
    // As printed for equals: ω² = (g/L)(2 ± √2).
    expect((2 * Math.PI) / equal!.quickS).toBeCloseTo(Math.sqrt((9.80665 / 5) * (2 + Math.SQRT2)), 12);
    const rig = doublePendulumPeriods({ upperM: 12, lowerM: 2, upperMassKg: 20, lowerMassKg: 200 });
    expect(rig!.slowS).toBeCloseTo(7.464916, 6);
    expect(rig!.quickS).toBeCloseTo(0.796569, 6);
    // A load next to nothing leaves the yoke to swing by itself; a yoke next to nothing, one pendulum of both lengths.
    expect(doublePendulumPeriods({ upperM: 5, lowerM: 2, upperMassKg: 1, lowerMassKg: 1e-9 })!.slowS).toBeCloseTo(
      4.486468,
      5,
    );
    expect(doublePendulumPeriods({ upperM: 8, lowerM: 2, upperMassKg: 1e-9, lowerMassKg: 1 })!.slowS).toBeCloseTo(
      6.344823,
      5,
    );
    for (const bad of [0, -1, Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(doublePendulumPeriods({ upperM: bad, lowerM: 2, upperMassKg: 20, lowerMassKg: 200 })).toBeNull();
    }
  });
});

/** Time from rest at an angle to plumb, s, by the fourth-order rule of Runge and Kutta in 20,000 steps. */
function quarterByRungeKutta(ropeM: number, from: number): number {
  const pull = (angle: number) => (-9.80665 / ropeM) * Math.sin(angle);
  const dt = Math.sqrt(ropeM / 9.80665) / 5000;
  let [angle, rate, time] = [from, 0, 0];
  for (;;) {
    const k1 = [rate, pull(angle)] as const;
    const k2 = [rate + 0.5 * dt * k1[1], pull(angle + 0.5 * dt * k1[0])] as const;
    const k3 = [rate + 0.5 * dt * k2[1], pull(angle + 0.5 * dt * k2[0])] as const;
    const k4 = [rate + dt * k3[1], pull(angle + dt * k3[0])] as const;
    const next = angle + (dt / 6) * (k1[0] + 2 * k2[0] + 2 * k3[0] + k4[0]);
    if (next <= 0) return time + angle / -rate;
    angle = next;
    rate += (dt / 6) * (k1[1] + 2 * k2[1] + 2 * k3[1] + k4[1]);
    time += dt;
  }
}

describe("the pull on the ropes in a swing", () => {
  it.each([
    [10, 1.0304],
    [20, 1.1206],
    [30, 1.2679],
  ])("let go at %s°, is %s of the weight at the lowest point (computed, W(3 − 2 cos θ))", (angle, share) => {
    const found = swings(aside(14, degrees(angle)));
    expect(found.mostTensionN / 1000).toBeCloseTo(share, 4);
    expect(found.extraTensionN).toBeCloseTo(found.mostTensionN - 1000, 9);
    expect(found.firstTensionN).toBeCloseTo(1000 * Math.cos(degrees(angle)), 9);
  });

  it("is three weights at the lowest point from a right angle", () => {
    expect(swings({ ...aside(14, 0), held: site(4 + 14, -3, 30 - 1e-9) }).mostTensionN).toBeCloseTo(3000, 5);
  });
});

describe("a swing from anywhere", () => {
  const anywhere = fc
    .tuple(fc.nat(1000), fc.nat(1000), fc.nat(1000), fc.nat(1000))
    .map(([l, a, b, w]) => aside(1 + 0.03 * l, (1.55 * a) / 1000, (6.28 * b) / 1000, 10 * w));

  it("turns the height it has into speed, and that into pull: all held by energy", () => {
    fc.assert(
      fc.property(anywhere, (of) => {
        const found = swings(of);
        const [g, massKg] = [9.80665, of.weightN / 9.80665];
        // Height lost is speed won, by the places alone.
        const fallM = of.held[2] - of.rest[2];
        expect(found.dropM).toBeCloseTo(fallM, 9);
        expect(0.5 * massKg * found.topSpeedMS ** 2).toBeCloseTo(of.weightN * fallM, 5);
        // Pull at the lowest point: weight and what turns the load about the pivot.
        expect(found.mostTensionN).toBeCloseTo(of.weightN + (massKg * found.topSpeedMS ** 2) / of.ropeM, 5);
        expect(found.beyondRopeM).toBeCloseTo(0, 9);
        expect(g * found.dropM).toBeCloseTo(found.topSpeedMS ** 2 / 2, 7);
      }),
      { seed: 20240703, numRuns: 300 },
    );
  });

  it("goes as far to the other side, at the same height, on an arc of the rope's length", () => {
    fc.assert(
      fc.property(anywhere, (of) => {
        const found = swings(of);
        const middle = [0, 1, 2].map((i) => 0.5 * (found.farthest[i]! + of.held[i]!)) as unknown as SiteVector;
        expect(distance(middle, site(found.pivot[0], found.pivot[1], of.held[2]))).toBeLessThan(1e-9);
        expect(distance(found.farthest, of.held)).toBeCloseTo(2 * found.amplitudeM, 9);
        const arc = swingArc(found, 21);
        expect(arc).toHaveLength(21);
        expect(distance(arc[0]!, of.held)).toBeLessThan(1e-9);
        expect(distance(arc[10]!, of.rest)).toBeLessThan(1e-9);
        expect(distance(arc[20]!, found.farthest)).toBeLessThan(1e-9);
        for (const point of arc) expect(distance(point, found.pivot)).toBeCloseTo(of.ropeM, 9);
      }),
      { seed: 20240704, numRuns: 300 },
    );
  });

  it("of no amplitude is rest", () => {
    const found = swings(aside(10, 0));
    expect(found).toMatchObject({ amplitudeRad: 0, amplitudeM: 0, dropM: 0, topSpeedMS: 0, extraTensionN: 0 });
    expect(swingArc(found, 3)).toEqual([found.farthest, found.farthest, found.farthest]);
  });

  it("tells how far from its circle the load was held", () => {
    const of = aside(10, 0.4);
    const nearer = { ...of, ropeM: 10.5, rest: site(4, -3, 19.5) };
    expect(swings(nearer).beyondRopeM).toBeCloseTo(-0.5, 9);
    expect(swings(nearer).amplitudeRad).toBeCloseTo(0.4, 9);
  });
});

describe("what is no swing", () => {
  it("has a reason instead of numbers", () => {
    const of = aside(10, 0.4);
    expect(swing({ ...of, held: site(4, 20, 30) })).toMatchObject({ ok: false, code: "above-pivot" });
    expect(swing({ ...of, held: site(4, 2, 31) })).toMatchObject({ ok: false, code: "above-pivot" });
    for (const bad of [0, -1, Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(swing({ ...of, ropeM: bad })).toMatchObject({ ok: false, code: "bad-number" });
      expect(swing({ ...of, gravityMS2: bad })).toMatchObject({ ok: false, code: "bad-number" });
    }
    expect(swing({ ...of, weightN: -1 })).toMatchObject({ ok: false, code: "bad-number" });
    expect(swing({ ...aside(10, 1.5), weightN: 1e308 })).toMatchObject({ ok: false, code: "bad-number" });
    expect(swing({ ...of, held: site(Number.NaN, 0, 0) })).toMatchObject({ ok: false, code: "bad-number" });
  });
});
