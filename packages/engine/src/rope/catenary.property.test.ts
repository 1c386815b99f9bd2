import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { addScaled, distance, norm, type SiteVector, site, subtract } from "../base/vector.ts";
import { catenary } from "./catenary.ts";
import { formOfTension } from "./catenary-form-of-tension.ts";
import { catenaryOfTension } from "./catenary-of-tension.ts";
import { catenaryPoints } from "./catenary-points.ts";
import type { Catenary, SaggingRope } from "./sagging-rope.ts";

/** Evenly spread between two numbers. */
const even = (low: number, high: number) => fc.nat(1e6).map((n) => low + ((high - low) * n) / 1e6);
const place = fc.tuple(even(-30, 30), even(-30, 30), even(0, 30)).map(([x, y, z]) => site(x, y, z));
/** Ropes from slack by half to strained by a tenth, soft and stiff, light and heavy, between any two places. */
const hangs = fc
  .record({
    a: place,
    b: place,
    over: fc.oneof(even(-0.1, 0.5), even(-0.02, 0.02)),
    stiff: even(3.5, 6.5),
    heavy: even(-2, 1),
  })
  .filter(({ a, b }) => distance(a, b) > 0.5)
  .map(({ a, b, over, stiff, heavy }) => ({
    a,
    b,
    rope: { lengthM: distance(a, b) * (1 + over), axialStiffnessN: 10 ** stiff, weightNM: 10 ** heavy },
  }));
const options = { seed: 20240701, numRuns: 500, endOnFailure: true };

function hung(rope: SaggingRope, a: SiteVector, b: SiteVector): Catenary {
  const found = catenary(rope, a, b);
  if (!found.ok) throw new Error(found.code);
  return found;
}

describe("a rope between any two places", () => {
  it("meets the textbook equations of the elastic catenary, and its end forces add up to its weight", () => {
    fc.assert(
      fc.property(hangs, ({ rope, a, b }) => {
        const { forceOnAN, forceOnBN, tensionAN, tensionBN } = hung(rope, a, b);
        const { lengthM: L, axialStiffnessN: EA, weightNM: w } = rope;
        const scale = tensionAN + tensionBN;
        const sum = [0, 1, 2].map((i) => forceOnAN[i]! + forceOnBN[i]!);
        expect(Math.hypot(sum[0]!, sum[1]!, sum[2]! + w * L)).toBeLessThan(1e-12 * scale);
        const H = Math.hypot(forceOnAN[0], forceOnAN[1]);
        const VA = forceOnAN[2];
        const V = -forceOnBN[2];
        // The formula below has no value at H = 0.
        fc.pre(H > 1e-9 * scale);
        // Irvine, as quoted with the published cases; loses digits on taut ropes, in proportion to T/w.
        const x = (H * L) / EA + (H / w) * (Math.asinh(V / H) - Math.asinh(VA / H));
        const z = (V * L - (w * L * L) / 2) / EA + (Math.hypot(H, V) - Math.hypot(H, VA)) / w;
        const allowed = 1e-11 * (L + scale / w);
        expect(Math.abs(x - Math.hypot(b[0] - a[0], b[1] - a[1]))).toBeLessThan(allowed);
        expect(Math.abs(z - (b[2] - a[2]))).toBeLessThan(allowed);
        // The pull lies in the upright plane through the ends.
        expect(Math.abs(forceOnAN[0] * (b[1] - a[1]) - forceOnAN[1] * (b[0] - a[0]))).toBeLessThan(1e-9 * scale);
      }),
      options,
    );
  });

  it("has the stiffness that differences of its force show, symmetric and in no direction negative", () => {
    fc.assert(
      fc.property(hangs, ({ rope, a, b }) => {
        // As the ends come plumb, the slope of a slack rope's force grows without bound (as a logarithm): differences fail there.
        fc.pre(Math.hypot(b[0] - a[0], b[1] - a[1]) > 0.2);
        const k = hung(rope, a, b).stiffnessNM!;
        const largest = Math.max(...k.map(Math.abs));
        const step = 2e-6;
        for (let j = 0; j < 3; j++) {
          const push = site(j === 0 ? step : 0, j === 1 ? step : 0, j === 2 ? step : 0);
          const ahead = hung(rope, a, addScaled(b, push, 1));
          const behind = hung(rope, a, addScaled(b, push, -1));
          for (let i = 0; i < 3; i++) {
            expect(Math.abs((behind.forceOnBN[i]! - ahead.forceOnBN[i]!) / (2 * step) - k[3 * i + j]!)).toBeLessThan(
              3e-6 * largest + 1e-9 * rope.axialStiffnessN,
            );
            expect(Math.abs((ahead.forceOnAN[i]! - behind.forceOnAN[i]!) / (2 * step) - k[3 * i + j]!)).toBeLessThan(
              3e-6 * largest + 1e-9 * rope.axialStiffnessN,
            );
          }
        }
        for (let i = 0; i < 3; i++) for (let j = 0; j < i; j++) expect(k[3 * i + j]).toBe(k[3 * j + i]);
        const [k00, k01, k02, , k11, k12, , , k22] = k as readonly [
          number,
          number,
          number,
          number,
          number,
          number,
          number,
          number,
          number,
        ];
        const determinant =
          k00 * (k11 * k22 - k12 * k12) - k01 * (k01 * k22 - k12 * k02) + k02 * (k01 * k12 - k11 * k02);
        expect(Math.min(k00, k11, k22, k00 * k11 - k01 * k01 + 1e-12 * largest ** 2)).toBeGreaterThan(0);
        expect(determinant).toBeGreaterThan(-1e-12 * largest ** 3);
      }),
      options,
    );
  });

  it("is the same from its other end, and mirrors and turns with the site", () => {
    fc.assert(
      fc.property(hangs, even(0, 6), ({ rope, a, b }, turn) => {
        const one = hung(rope, a, b);
        const near = (p: readonly number[], q: readonly number[], size: number) =>
          expect(Math.hypot(...p.map((c, i) => c - q[i]!))).toBeLessThan(1e-9 * size);
        const size = one.tensionAN + one.tensionBN + 1e-6 * rope.axialStiffnessN;
        const back = hung(rope, b, a);
        near(back.forceOnBN, one.forceOnAN, size);
        near([back.sagM, ...back.lowest], [one.sagM, ...one.lowest], 1e3);
        const mirrored = (v: SiteVector) => site(-v[0], v[1], v[2]);
        near(hung(rope, mirrored(a), mirrored(b)).forceOnAN, mirrored(one.forceOnAN), size);
        const [c, s] = [Math.cos(turn), Math.sin(turn)];
        const turned = (v: SiteVector) => site(c * v[0] - s * v[1], s * v[0] + c * v[1], v[2]);
        near(hung(rope, turned(a), turned(b)).forceOnBN, turned(one.forceOnBN), size);
      }),
      options,
    );
  });

  it("is drawn from end to end along its own length, no higher than the straight line and lowest where it says", () => {
    fc.assert(
      fc.property(hangs, ({ rope, a, b }) => {
        const { stretchedM, sagM, lowest } = hung(rope, a, b);
        const points = catenaryPoints(rope, a, b, 801);
        expect([points[0], points.at(-1)]).toEqual([a, b]);
        let way = 0;
        for (let i = 1; i < points.length; i++) way += distance(points[i - 1]!, points[i]!);
        expect(Math.abs(way - stretchedM)).toBeLessThan(1e-3 * stretchedM);
        expect(way).toBeLessThan(stretchedM * (1 + 1e-9));
        expect(Math.min(...points.map((p) => p[2])) - lowest[2]).toBeGreaterThan(-1e-9);
        expect(Math.min(...points.map((p) => p[2])) - lowest[2]).toBeLessThan(2e-3 * stretchedM);
        const across = Math.hypot(b[0] - a[0], b[1] - a[1]);
        if (across < 0.2) return;
        const gaps = points.map((p) => {
          const share = Math.hypot(p[0] - a[0], p[1] - a[1]) / across;
          return a[2] + share * (b[2] - a[2]) - p[2];
        });
        expect(Math.min(...gaps)).toBeGreaterThan(-1e-7);
        expect(Math.abs(Math.max(...gaps) - sagM)).toBeLessThan(1e-4 * stretchedM + 1e-7);
      }),
      options,
    );
  });

  it("takes the work that is done on it: pulled from place to place, the work of its pull is the change of its energy", () => {
    fc.assert(
      fc.property(hangs, place, ({ rope, a, b }, to) => {
        // Energy of stretch and height, summed from the drawn shape and the tension in it: nothing of the solver's own.
        const energy = (at: SiteVector): number => {
          const count = 2001;
          const points = catenaryPoints(rope, a, at, count);
          const piece = rope.lengthM / (count - 1);
          let sum = 0;
          for (let i = 1; i < count; i++) {
            const [p, q] = [points[i - 1]!, points[i]!];
            sum +=
              0.5 * rope.axialStiffnessN * piece * (distance(p, q) / piece - 1) ** 2 +
              0.5 * rope.weightNM * piece * (p[2] + q[2]);
          }
          return sum;
        };
        // A short way keeps the sum by Simpson's rule exact enough.
        const way = subtract(to, b);
        const end = addScaled(b, way, 0.05 / Math.max(norm(way), 1));
        const steps = 40;
        let work = 0;
        let largest = 0;
        for (let i = 0; i <= steps; i++) {
          const force = hung(rope, a, addScaled(b, subtract(end, b), i / steps)).forceOnBN;
          const weight = i === 0 || i === steps ? 1 : i % 2 ? 4 : 2;
          const part = force.reduce((sum, f, c) => sum + f * (end[c]! - b[c]!), 0);
          work -= (weight * part) / (3 * steps);
          largest = Math.max(largest, norm(force) * distance(b, end));
        }
        expect(Math.abs(energy(end) - energy(b) - work)).toBeLessThan(2e-3 * largest + 1e-6);
      }),
      { ...options, numRuns: 100 },
    );
  });
});

describe("a rope held by tension", () => {
  const byTension = fc.record({
    level: fc.oneof(even(0.1, 40), fc.constant(0)),
    rise: even(-30, 30).filter((z) => Math.abs(z) > 0.1),
    heavy: even(-6, 1),
    tensionN: even(5, 3000),
    compliancePerN: fc.constantFrom(0, 1e-6, 2e-5, 1e-4),
  });

  it("pulls with that tension, and is the rope of that length", () => {
    let held = 0;
    fc.assert(
      fc.property(byTension, ({ level, rise, heavy, tensionN, compliancePerN }) => {
        const weightNM = 10 ** heavy;
        const axialStiffnessN = compliancePerN > 0 ? 1 / compliancePerN : null;
        const b = site(level, 0, rise);
        const found = catenaryOfTension({ axialStiffnessN, weightNM }, site(0, 0, 0), b, "A", tensionN);
        if (!found.ok) {
          // Too little: no more than the rope of the straight way weighs.
          expect(found.code).toBe("too-little-tension");
          expect(tensionN).toBeLessThan(1.5 * weightNM * Math.hypot(level, rise));
          return;
        }
        held++;
        expect(found.tensionAN / tensionN).toBeCloseTo(1, 11);
        // Without stretch the length says next to nothing about the pull.
        if (axialStiffnessN === null) return;
        const again = catenary({ lengthM: found.lengthM, axialStiffnessN, weightNM }, site(0, 0, 0), b);
        if (!again.ok) throw new Error(again.code);
        expect(Math.abs(again.tensionAN / tensionN - 1)).toBeLessThan(1e-7);
        // The taut one of two: with a little more rope at hand the pull eases.
        const longer = catenary({ lengthM: found.lengthM * (1 + 1e-6), axialStiffnessN, weightNM }, site(0, 0, 0), b);
        expect(longer.ok && longer.tensionAN < again.tensionAN).toBe(true);
      }),
      options,
    );
    expect(held).toBeGreaterThan(300);
  });

  it("has the slopes that differences show", () => {
    fc.assert(
      fc.property(byTension, ({ level, rise, heavy, tensionN, compliancePerN }) => {
        const weightNM = 10 ** heavy;
        const form = (dx: number, dz: number) =>
          formOfTension(level + dx, rise + dz, tensionN, weightNM, compliancePerN);
        const here = form(0, 0);
        // Near the least tension the slopes grow without bound.
        fc.pre(here !== null && level > 0 && tensionN > 1.5 * weightNM * Math.hypot(level, rise));
        const step = 1e-4;
        for (const [dx, dz, slopes] of [
          [step, 0, here!.overLevelNM],
          [0, step, here!.overRiseNM],
        ] as const) {
          const [ahead, behind] = [form(dx, dz)!, form(-dx, -dz)!];
          const shown = [ahead.levelN - behind.levelN, ahead.upAtAN - behind.upAtAN, ahead.upAtBN - behind.upAtBN];
          for (let i = 0; i < 3; i++) {
            expect(Math.abs(shown[i]! / (2 * step) - slopes[i]!)).toBeLessThan(
              1e-5 * (tensionN / Math.hypot(level, rise) + weightNM),
            );
          }
        }
        expect(here!.sideNM * level).toBeCloseTo(here!.levelN, 6);
      }),
      options,
    );
  });
});
