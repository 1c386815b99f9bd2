import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { add, cross, type SiteVector, site, subtract, ZERO } from "../base/vector.ts";
import { type BeamLoad, beamCurves, beamLoadAt, beamSection, ratedBeamCurves } from "./beam-curves.ts";
import { exampleLadder, examplePlace, examplePlatform, examplePoint } from "./example-device.ts";
import { fromBeam, poseAerial, toBeam } from "./pose-aerial.ts";
import { riggingPointAt } from "./rigging-point-at.ts";

const degrees = (d: number): number => (d * Math.PI) / 180;
const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const poses = fc.record({ bearingRad: number(0, 6.28), elevationRad: number(-0.15, 1.36), lengthM: number(10, 30) });
const forces = fc
  .tuple(number(-5000, 5000), number(-5000, 5000), number(-5000, 5000))
  .map(([x, y, z]) => site(x, y, z));
const points = fc
  .record({ alongM: number(0, 5), lateralM: number(-1, 1), dropM: number(-0.5, 1.5) })
  .map((o) => ({ ...examplePoint, ...o }));
const rigging = fc.array(fc.tuple(points, forces), { minLength: 1, maxLength: 4 });

describe("beamSection", () => {
  /** Load in the beam's vertical plane: along (toward the tip) and normal parts, N, at a station, m. */
  const load = (stationM: number, axial: number, normal: number): BeamLoad => ({
    stationM,
    offset: { axial: 0, normal: 0, lateral: 0 },
    force: { axial, normal, lateral: 0 },
  });

  it("carries a strut with a sign and a cable to its hinge as printed", () => {
    // OpenStax University Physics 1, §12.2 (reference data ST6): 400 N sign on a level 4.0 m, 600 N strut, cable to 3.0 m
    // up the wall: cable 1167 N, hinge 980 N at 18°; recomputed 1166.67, 980.36, 17.82°.
    const T = 1166.6667;
    const root = beamSection([load(4, 0, -400), load(4, -0.8 * T, 0.6 * T), load(2, 0, -600)], 0);
    expect(root.momentNm).toBeCloseTo(0, 2);
    expect(Math.hypot(root.compressionN, root.shearN)).toBeCloseTo(980.36, 2);
    expect((Math.atan2(root.shearN, root.compressionN) * 180) / Math.PI).toBeCloseTo(17.82, 2);
  });

  it("carries a boom held by a level guy to its hinge", () => {
    // Same section (reference data ST9): boom 3000 N at 45°, load 2000 N, level guy from the tip: guy 3500 N, hinge 6103.3 N at 55.01°.
    const c = Math.SQRT1_2;
    const root = beamSection(
      [load(10, -2000 * c, -2000 * c), load(10, -3500 * c, 3500 * c), load(5, -3000 * c, -3000 * c)],
      0,
    );
    expect(root.momentNm).toBeCloseTo(0, 6);
    expect(Math.hypot(root.compressionN, root.shearN)).toBeCloseTo(6103.3, 1);
    // The hinge force stands 45° − atan(shear/compression) off level, turned with the boom.
    expect(45 + (Math.atan2(root.shearN, root.compressionN) * 180) / Math.PI).toBeCloseTo(55.01, 2);
  });

  it("signs: weight bends the tip down, a push to the right bends it right, both with a positive moment", () => {
    const posed = poseAerial(exampleLadder, examplePlace, { bearingRad: 0, elevationRad: 0, lengthM: 20 });
    const hung = beamSection([beamLoadAt(posed, examplePoint, site(0, 0, -100))], 5);
    expect(hung).toMatchObject({ shearN: 100, momentNm: 1500, compressionN: 0, torsionNm: 0 });
    const pushed = beamSection([beamLoadAt(posed, examplePoint, site(100, 0, 0))], 5);
    expect(pushed).toMatchObject({ lateralShearN: 100, lateralMomentNm: 1500, momentNm: 0 });
    // A weight hung off the right side turns the ladder clockwise looking out.
    const aside = beamSection([beamLoadAt(posed, { ...examplePoint, lateralM: 0.5 }, site(0, 0, -100))], 5);
    expect(aside.torsionNm).toBeCloseTo(50, 9);
  });

  it("gives a platform's lever to the tip", () => {
    const posed = poseAerial(examplePlatform, examplePlace, { bearingRad: 0, elevationRad: 1, lengthM: 20 });
    const at = beamLoadAt(posed, { ...examplePoint, on: "platform", alongM: 1.5 }, site(0, 0, -1000));
    expect(beamSection([at], 20).momentNm).toBeCloseTo(1500, 9);
    expect(beamSection([at], 0).momentNm).toBeCloseTo(1000 * (20 * Math.cos(1) + 1.5), 6);
  });
});

describe("beam curves of any rigging", () => {
  it("hold all applied forces and moments at the pivot", () => {
    fc.assert(
      fc.property(poses, rigging, fc.boolean(), (pose, rigging, onPlatform) => {
        const posed = poseAerial(examplePlatform, examplePlace, pose);
        const on = onPlatform ? ("platform" as const) : ("ladder" as const);
        const root = beamSection(
          rigging.map(([p, f]) => beamLoadAt(posed, { ...p, on }, f)),
          0,
        );
        // In site axes, by cross products about the pivot.
        const sum = (of: (p: SiteVector, f: SiteVector) => SiteVector): SiteVector =>
          rigging.reduce(
            (total, [p, f]) => add(total, of(subtract(riggingPointAt(posed, { ...p, on }), posed.pivot), f)),
            ZERO,
          );
        const force = toBeam(
          posed.axes,
          sum((_, f) => f),
        );
        const moment = toBeam(posed.axes, sum(cross));
        expect(root.compressionN).toBeCloseTo(-force.axial, 6);
        expect(root.shearN).toBeCloseTo(-force.normal, 6);
        expect(root.lateralShearN).toBeCloseTo(force.lateral, 6);
        // Right-handed about lateral raises the tip; about normal swings it to the left; about axial is clockwise looking out.
        expect(root.momentNm).toBeCloseTo(-moment.lateral, 5);
        expect(root.lateralMomentNm).toBeCloseTo(-moment.normal, 5);
        expect(root.torsionNm).toBeCloseTo(moment.axial, 5);
      }),
      { seed: 41, numRuns: 300 },
    );
  });

  it("are straight between their stations, with the shear as slope of the moment", () => {
    fc.assert(
      fc.property(poses, rigging, number(0, 1), (pose, rigging, t) => {
        const posed = poseAerial(exampleLadder, examplePlace, pose);
        const loads = rigging.map(([p, f]) => beamLoadAt(posed, p, f));
        const curve = beamCurves(pose.lengthM, loads);
        expect(curve[0]?.stationM).toBe(0);
        expect(curve.at(-1)?.stationM).toBe(pose.lengthM);
        for (let i = 1; i < curve.length; i++) {
          const a = curve[i - 1];
          const b = curve[i];
          if (!a || !b || b.stationM - a.stationM < 1e-6) continue;
          const middle = beamSection(loads, a.stationM + t * (b.stationM - a.stationM));
          if (t > 0 && t < 1) {
            expect(middle.momentNm).toBeCloseTo(a.momentNm + t * (b.momentNm - a.momentNm), 5);
            expect(middle.lateralMomentNm).toBeCloseTo(
              a.lateralMomentNm + t * (b.lateralMomentNm - a.lateralMomentNm),
              5,
            );
          }
          expect(b.momentNm - a.momentNm).toBeCloseTo(-b.shearN * (b.stationM - a.stationM), 5);
          expect(b.lateralMomentNm - a.lateralMomentNm).toBeCloseTo(-b.lateralShearN * (b.stationM - a.stationM), 5);
        }
      }),
      { seed: 42, numRuns: 200 },
    );
  });

  it("mirror: sideways parts and torsion change sign, the rest stays", () => {
    fc.assert(
      fc.property(poses, rigging, (pose, rigging) => {
        const posed = poseAerial(exampleLadder, examplePlace, pose);
        const mirrored = (f: SiteVector): SiteVector => {
          const b = toBeam(posed.axes, f);
          return fromBeam(posed.axes, { ...b, lateral: -b.lateral });
        };
        const one = beamSection(
          rigging.map(([p, f]) => beamLoadAt(posed, p, f)),
          3,
        );
        const other = beamSection(
          rigging.map(([p, f]) => beamLoadAt(posed, { ...p, lateralM: -p.lateralM }, mirrored(f))),
          3,
        );
        expect(other.momentNm).toBeCloseTo(one.momentNm, 6);
        expect(other.compressionN).toBeCloseTo(one.compressionN, 6);
        expect(other.lateralShearN).toBeCloseTo(-one.lateralShearN, 6);
        expect(other.lateralMomentNm).toBeCloseTo(-one.lateralMomentNm, 6);
        expect(other.torsionNm).toBeCloseTo(-one.torsionNm, 6);
      }),
      { seed: 43, numRuns: 200 },
    );
  });
});

describe("ratedBeamCurves", () => {
  it("is R cos φ (L − s) on a ladder and keeps the platform's lever at the tip", () => {
    const pose = { bearingRad: 1, elevationRad: degrees(60), lengthM: 20 };
    const ladder = ratedBeamCurves(exampleLadder, poseAerial(exampleLadder, examplePlace, pose), 2000, [5]);
    expect(ladder.map((s) => s.momentNm)).toEqual([20000, 15000, 0].map((v) => expect.closeTo(v, 6)));
    expect(ladder[0]?.compressionN).toBeCloseTo(2000 * Math.sin(degrees(60)), 9);
    const platform = ratedBeamCurves(examplePlatform, poseAerial(examplePlatform, examplePlace, pose), 2000);
    expect(platform.map((s) => s.momentNm)).toEqual([20000 + 1800, 1800].map((v) => expect.closeTo(v, 6)));
  });
});
