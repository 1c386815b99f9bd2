import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { site } from "../base/vector.ts";
import { exampleLadder, examplePlace, examplePlatform } from "./example-device.ts";
import { type JackFoot, jackFeet, jackLines } from "./jack-lines.ts";
import { type AppliedForce, momentAboutLine, ratedTipping, tippingMoments } from "./tipping.ts";

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const level = { turntableX: 0, turntableY: 0, groundZM: 0, headingRad: 0 };
const lines = jackLines(jackFeet(exampleLadder, level));
const lineOf = (a: string, b: string) => {
  const line = lines.find((l) => l.from.id === a && l.to.id === b);
  if (!line) throw new Error("no such line");
  return line;
};

describe("jackLines", () => {
  it("goes round counterclockwise, outside on the right", () => {
    expect(lines.map((l) => `${l.from.id}>${l.to.id}`).sort()).toEqual(["fl>rl", "fr>fl", "rl>rr", "rr>fr"]);
  });
  it("leaves out feet inside or on a side, and holds nothing on fewer than three", () => {
    const feet = jackFeet(exampleLadder, level);
    const extra: JackFoot[] = [
      ...feet,
      { id: "in", position: site(0.3, 0.4, 0) },
      { id: "on", position: site(2.4, 0.5, 0) },
    ];
    expect(jackLines(extra)).toHaveLength(4);
    expect(jackLines(feet.slice(0, 2))).toEqual([]);
    expect(jackLines([0, 1, 2, 3].map((i) => ({ id: `${i}`, position: site(i, 2 * i, 0) })))).toEqual([]);
    expect(jackLines([])).toEqual([]);
  });
  it("shortens a jack sideways by its reach", () => {
    const [fl] = jackFeet(exampleLadder, level, { fl: 0.5 });
    expect(fl?.position).toEqual([-1.2, 3, 0]);
  });
  it("any feet: all lie to the left of every line, and the lines close", () => {
    // Placed to the millimetre.
    const millimetres = fc.integer({ min: -5000, max: 5000 }).map((mm) => mm / 1000);
    const feet = fc.array(fc.tuple(millimetres, millimetres), { minLength: 3, maxLength: 12 });
    fc.assert(
      fc.property(feet, (points) => {
        const jacks = points.map(([x, y], i) => ({ id: `${i}`, position: site(x, y, 0) }));
        const hull = jackLines(jacks);
        hull.forEach((line, i) => {
          expect(hull[(i + 1) % hull.length]?.from).toBe(line.to);
          const [ax, ay] = line.from.position;
          const [bx, by] = line.to.position;
          const length = Math.hypot(bx - ax, by - ay);
          for (const { position: p } of jacks) {
            expect(((bx - ax) * (p[1] - ay) - (by - ay) * (p[0] - ax)) / length).toBeGreaterThan(-1e-5);
          }
        });
      }),
      { seed: 61, numRuns: 300 },
    );
  });
});

describe("momentAboutLine", () => {
  const about = (a: string, b: string, force: AppliedForce): number => momentAboutLine(lineOf(a, b), [force]);
  // By hand. The right-hand line (rr to fr) lies 2.4 m east of the turntable, its feet on the ground.
  it("a weight outside tips, a weight inside holds", () => {
    expect(about("rr", "fr", { at: site(10, 1, 20), forceN: site(0, 0, -1000) })).toBeCloseTo(7600, 9);
    expect(about("rr", "fr", { at: site(0, 1, 20), forceN: site(0, 0, -1000) })).toBeCloseTo(-2400, 9);
    expect(about("fl", "rl", { at: site(10, 1, 20), forceN: site(0, 0, -1000) })).toBeCloseTo(-12400, 9);
  });
  it("a sideways pull tips by its height", () => {
    expect(about("rr", "fr", { at: site(0, 0, 20), forceN: site(300, 0, 0) })).toBeCloseTo(6000, 9);
    expect(about("fl", "rl", { at: site(0, 0, 20), forceN: site(300, 0, 0) })).toBeCloseTo(-6000, 9);
    expect(about("fr", "fl", { at: site(0, 0, 20), forceN: site(0, 300, 0) })).toBeCloseTo(6000, 9);
  });
});

describe("tippingMoments", () => {
  const pose = { bearingRad: Math.PI / 2, elevationRad: Math.PI / 3, lengthM: 28 };

  it("rated case by hand, here and at its worst", () => {
    const got = tippingMoments(ratedTipping(exampleLadder, level, pose, lines, 2000), []);
    const right = got.find((m) => m.line.from.id === "rr");
    // Tip 28 cos 60° − 0.6 = 13.4 m from the axis; the right line 2.4 m out.
    expect(right?.ratedHereNm).toBeCloseTo(2000 * (13.4 - 2.4), 6);
    expect(right?.ratedWorstNm).toBeCloseTo(2000 * (13.4 - 2.4), 6);
    expect(right?.ratedWorstBearingRad).toBeCloseTo(Math.PI / 2, 9);
    const rear = got.find((m) => m.line.from.id === "rl");
    expect(rear?.ratedHereNm).toBeCloseTo(-2000 * 2, 6);
    expect(rear?.ratedWorstNm).toBeCloseTo(2000 * (13.4 - 2), 6);
    expect(rear?.ratedWorstBearingRad).toBeCloseTo(Math.PI, 9);
    for (const m of got) expect(m).toMatchObject({ momentNm: 0, ratio: 0, holdingNm: null });
  });

  it("worst bearing against a search all round, platform and setback included", () => {
    const cases = fc.record({
      elevationRad: number(-0.1, 1.5),
      lengthM: number(10, 30),
      headingRad: number(0, 6.28),
      setback: number(-1, 3),
    });
    fc.assert(
      fc.property(cases, fc.boolean(), ({ elevationRad, lengthM, headingRad, setback }, platform) => {
        const device = { ...(platform ? examplePlatform : exampleLadder), pivotSetbackM: setback };
        const place = { ...examplePlace, headingRad };
        const hull = jackLines(jackFeet(device, place));
        const found = tippingMoments(
          ratedTipping(device, place, { bearingRad: 0, elevationRad, lengthM }, hull, 2000),
          [],
        );
        found.forEach((m, i) => {
          let worst = Number.NEGATIVE_INFINITY;
          for (let k = 0; k < 360; k++) {
            const turned = tippingMoments(
              ratedTipping(device, place, { bearingRad: (k * Math.PI) / 180, elevationRad, lengthM }, hull, 2000),
              [],
            )[i];
            worst = Math.max(worst, turned?.ratedHereNm ?? Number.NaN);
          }
          expect(m.ratedWorstNm ?? 0).toBeGreaterThanOrEqual(worst - 1e-6);
          // One degree off the top of a cosine of at most 35 m × 2000 N.
          expect(m.ratedWorstNm ?? 0).toBeLessThanOrEqual(worst + 70000 * (1 - Math.cos(Math.PI / 360)) + 1e-6);
        });
      }),
      { seed: 62, numRuns: 12 },
    );
  });

  it("worst bearing turns about when setback leaves the tip behind the turntable's axis", () => {
    // By hand: upright, the tip stands 3 m behind the axis; facing left it stands 0.6 m outside the right-hand line.
    const device = { ...exampleLadder, pivotSetbackM: 3 };
    const upright = { bearingRad: 0, elevationRad: Math.PI / 2, lengthM: 10 };
    const right = tippingMoments(ratedTipping(device, level, upright, lines, 2000), []).find(
      (m) => m.line.from.id === "rr",
    );
    expect(right?.ratedWorstBearingRad).toBeCloseTo(1.5 * Math.PI, 9);
    expect(right?.ratedWorstNm).toBeCloseTo(2000 * 0.6, 6);
  });

  it("is unknown without a rating, and has no ratio where the rated load never tips", () => {
    expect(tippingMoments(ratedTipping(exampleLadder, level, pose, lines, null), [])[0]).toMatchObject({
      ratedHereNm: null,
      ratedWorstNm: null,
      ratio: null,
    });
    const steep = { ...pose, elevationRad: 1.56, lengthM: 10 };
    for (const m of tippingMoments(ratedTipping(exampleLadder, level, steep, lines, 2000), []))
      expect(m.ratio).toBeNull();
  });

  it("says what the vehicle's weight holds", () => {
    const weight = { at: site(0, 1, 1.5), forceN: site(0, 0, -196133) };
    const right = tippingMoments(ratedTipping(exampleLadder, level, pose, lines, 2000), [], weight).find(
      (m) => m.line.from.id === "rr",
    );
    expect(right?.holdingNm).toBeCloseTo(196133 * 2.4, 6);
  });

  it("mirror: left and right change places", () => {
    fc.assert(
      fc.property(
        number(-20, 20),
        number(-20, 20),
        number(0, 25),
        number(-2000, 2000),
        number(-2000, 2000),
        number(-3000, 3000),
        (x, y, z, fx, fy, fz) => {
          const one = tippingMoments(ratedTipping(exampleLadder, level, pose, lines, 2000), [
            { at: site(x, y, z), forceN: site(fx, fy, fz) },
          ]);
          const other = tippingMoments(
            ratedTipping(exampleLadder, level, { ...pose, bearingRad: -pose.bearingRad }, lines, 2000),
            [{ at: site(-x, y, z), forceN: site(-fx, fy, fz) }],
          );
          const of = (all: typeof one, from: string) => all.find((m) => m.line.from.id === from);
          expect(of(other, "fl")?.momentNm).toBeCloseTo(of(one, "rr")?.momentNm ?? Number.NaN, 6);
          expect(of(other, "fr")?.momentNm).toBeCloseTo(of(one, "fr")?.momentNm ?? Number.NaN, 6);
          expect(of(other, "fl")?.ratedHereNm).toBeCloseTo(of(one, "rr")?.ratedHereNm ?? Number.NaN, 6);
        },
      ),
      { seed: 63, numRuns: 100 },
    );
  });
});
