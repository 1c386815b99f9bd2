import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { addScaled, scale, site } from "../base/vector.ts";
import { beamLoadAt, beamSection, ratedBeamLoad } from "./beam-curves.ts";
import { exampleLadder, examplePlace, examplePlatform, examplePoint } from "./example-device.ts";
import { poseAerial } from "./pose-aerial.ts";
import { type RiggingForce, utilisations } from "./utilisations.ts";

const degrees = (d: number): number => (d * Math.PI) / 180;
const rated = (ratedTipLoadN: number | null) => ({ ratedTipLoadN, reason: "stated in the test" });
const posedAt = (elevationDeg: number, device = exampleLadder) =>
  poseAerial(device, examplePlace, { bearingRad: 0.8, elevationRad: degrees(elevationDeg), lengthM: 28 });

describe("utilisations", () => {
  it("keep resultant, bending and compression apart", () => {
    // Reference data, fixture TIP at 70°, ideal sheave: R 3863.066 N, axial 3804.377 N, transverse 670.814 N for 200 kg.
    const posed = posedAt(70);
    const forceN = addScaled(site(0, 0, -1961.33), posed.axes.axial, -1961.33);
    const use = utilisations(exampleLadder, posed, [{ point: examplePoint, forceN }], rated(4448.22));
    expect(use.resultant.ratio).toBeCloseTo(3863.066 / 4448.22, 6);
    expect(use.compression.demand).toBeCloseTo(3804.377, 2);
    expect(use.compression.ratio).toBeCloseTo(3804.377 / (4448.22 * Math.sin(degrees(70))), 6);
    expect(use.bending.demand).toBeCloseTo(670.814 * 28, 1);
    // The bending part is only what hangs there: the same as the load on the chart.
    expect(use.bending.ratio).toBeCloseTo(1961.33 / 4448.22, 6);
  });

  it("are 1 throughout for the rated load itself, on a ladder and on a platform", () => {
    for (const device of [exampleLadder, examplePlatform]) {
      const onPlatform = device.kind === "platform";
      const point = {
        ...examplePoint,
        on: onPlatform ? ("platform" as const) : ("ladder" as const),
        alongM: onPlatform ? 0.9 : 0,
      };
      const use = utilisations(device, posedAt(50, device), [{ point, forceN: site(0, 0, -2000) }], rated(2000));
      for (const part of Object.values(use)) expect(part.ratio).toBeCloseTo(1, 9);
    }
  });

  it("are unknown without a rating, and say the table's reason", () => {
    const use = utilisations(
      exampleLadder,
      posedAt(50),
      [{ point: examplePoint, forceN: site(0, 0, -2000) }],
      rated(null),
    );
    for (const part of Object.values(use))
      expect(part).toMatchObject({ limit: null, ratio: null, reason: "stated in the test" });
    expect(use.resultant.demand).toBeCloseTo(2000, 9);
  });

  it("have no compression to compare with near level, nor bending near plumb", () => {
    const forces = [{ point: examplePoint, forceN: site(0, 0, -2000) }];
    expect(utilisations(exampleLadder, posedAt(0), forces, rated(3000)).compression).toMatchObject({
      limit: null,
      ratio: null,
    });
    expect(utilisations(exampleLadder, posedAt(-5), forces, rated(3000)).compression).toMatchObject({
      limit: null,
      demand: 0,
    });
    expect(utilisations(exampleLadder, posedAt(89.9), forces, rated(3000)).bending).toMatchObject({
      limit: null,
      ratio: null,
    });
  });

  it("have a limit of zero, and no ratio, where the rated load is zero", () => {
    const use = utilisations(exampleLadder, posedAt(40), [{ point: examplePoint, forceN: site(0, 0, -10) }], rated(0));
    for (const part of Object.values(use)) expect(part).toMatchObject({ limit: 0, ratio: null });
  });

  it("judge bending up to where the rated moment has fallen to a tenth, and say where it is worst", () => {
    // A pull along the ladder half a metre below its axis: an even moment, worst against the rated one far out.
    const posed = posedAt(45);
    const pull: RiggingForce = { point: { ...examplePoint, dropM: 0.5 }, forceN: scale(posed.axes.axial, -1000) };
    const { bending } = utilisations(exampleLadder, posed, [pull], rated(3000));
    expect(bending.stationM).toBeCloseTo(0.9 * 28, 9);
    expect(bending.demand).toBeCloseTo(500, 9);
    expect(bending.limit).toBeCloseTo(3000 * Math.cos(degrees(45)) * 2.8, 6);
  });

  it("find the worst moment ratio along the beam, against a fine search", () => {
    const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    const force = fc
      .tuple(number(0, 12), number(-0.5, 1), number(-3000, 3000), number(-3000, 3000))
      .map(
        ([alongM, dropM, x, z]): RiggingForce => ({ point: { ...examplePoint, alongM, dropM }, forceN: site(x, x, z) }),
      );
    fc.assert(
      fc.property(fc.array(force, { minLength: 1, maxLength: 3 }), number(0, 75), (forces, elevation) => {
        const posed = posedAt(elevation);
        const { bending } = utilisations(exampleLadder, posed, forces, rated(2500));
        const loads = forces.map((f) => beamLoadAt(posed, f.point, f.forceN));
        const limit = ratedBeamLoad(exampleLadder, posed, 2500);
        const ratioAt = (s: number): number =>
          Math.abs(beamSection(loads, s).momentNm) / beamSection([limit], s).momentNm;
        let worst = 0;
        for (let i = 0; i <= 2000; i++) worst = Math.max(worst, ratioAt((0.9 * 28 * i) / 2000));
        expect(bending.ratio).not.toBeNull();
        expect(bending.ratio ?? 0).toBeGreaterThanOrEqual(worst - 1e-9);
        // A grid of 12.6 mm misses the peak by at most what the ratio can change within one step.
        expect(bending.ratio ?? 0).toBeLessThanOrEqual(worst * 1.02 + 0.02);
      }),
      { seed: 44, numRuns: 100 },
    );
  });
});
