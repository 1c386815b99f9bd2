import { describe, expect, it } from "vitest";
import { STANDARD_GRAVITY_MS2 } from "../base/constants.ts";
import { addScaled, site } from "../base/vector.ts";
import { beamLoadAt } from "./beam-curves.ts";
import { beamDeflection } from "./beam-deflection.ts";
import { exampleLadder, examplePlace, examplePoint } from "./example-device.ts";
import { poseAerial } from "./pose-aerial.ts";
import { riggingPointAt } from "./rigging-point-at.ts";
import { telescopedPieces } from "./telescoped-pieces.ts";
import { deflectedAerial, tipSag } from "./tip-sag.ts";

const sections = exampleLadder.sections ?? [];
const pose = { bearingRad: 0.5, elevationRad: 1.1, lengthM: 29 };
const posed = poseAerial(exampleLadder, examplePlace, pose);

describe("telescopedPieces", () => {
  it("runs every moving section out equally and adds stiffness and weight in overlaps", () => {
    // By hand: base 9 m, three moving; at 24 m each tip is 5 m beyond the last. Tips at 9, 14, 19, 24; rears at 5.4, 10.7, 16.
    const got = telescopedPieces(sections, 24, 0);
    if (!got.ok) throw new Error(got.code);
    expect(got.pieces.map((p) => p.toM)).toEqual([5.4, 9, 10.7, 14, 16, 19, 24].map((v) => expect.closeTo(v, 9)));
    expect(got.pieces.map((p) => p.bendingStiffnessNm2)).toEqual([4e7, 6.2e7, 2.2e7, 3.3e7, 1.1e7, 1.6e7, 5e6]);
    const weight = got.pieces.reduce((sum, p) => sum + p.weightNPerM * (p.toM - p.fromM), 0);
    expect(weight).toBeCloseTo(2550 * STANDARD_GRAVITY_MS2, 6);
  });
  it("splits the weight by the elevation", () => {
    const got = telescopedPieces(sections, 24, 1);
    if (!got.ok) throw new Error(got.code);
    for (const p of got.pieces) expect((p.axialWeightNPerM ?? 0) / p.weightNPerM).toBeCloseTo(Math.tan(1), 9);
  });
  it("fails when the sections would part or cannot close up so far", () => {
    // The shortest moving section, 8 m, lets go when each runs out 8 m: 9 + 3 × 8 = 33 m.
    expect(telescopedPieces(sections, 33.01, 0)).toMatchObject({ ok: false, code: "lengthOutOfReach" });
    expect(telescopedPieces(sections, 32.9, 0).ok).toBe(true);
    expect(telescopedPieces(sections, 8.9, 0)).toMatchObject({ ok: false });
    expect(telescopedPieces(sections, 9, 0).ok).toBe(true);
    expect(telescopedPieces([], 9, 0)).toMatchObject({ ok: false });
    expect(telescopedPieces(sections.slice(0, 1), 9, 0).ok).toBe(true);
    expect(telescopedPieces(sections.slice(0, 1), 10, 0).ok).toBe(false);
  });
});

describe("tipSag", () => {
  const pull = addScaled(site(0, 0, -1961.33), posed.axes.axial, -1961.33);

  it("puts a rigging point's force on the beam with the right signs", () => {
    const got = tipSag(exampleLadder, posed, [beamLoadAt(posed, { ...examplePoint, alongM: 1, dropM: 0.4 }, pull)]);
    const pieces = telescopedPieces(sections, 29, 1.1);
    if (!got.ok || !pieces.ok) throw new Error("no answer");
    // By hand: transverse W cos φ, compression W sin φ + T, and a pull toward the pivot below the axis bends the tip down.
    const compressionN = 1961.33 * (1 + Math.sin(1.1));
    const load = { stationM: 28, transverseN: 1961.33 * Math.cos(1.1), compressionN, momentNm: compressionN * 0.4 };
    const same = beamDeflection(pieces.pieces, [load], 2);
    expect(got.tipDeflectionM).toBeCloseTo(same.ok ? same.tipDeflectionM : Number.NaN, 12);
  });

  it("sags more in second order, and less again when the return follows the tip", () => {
    const load = beamLoadAt(posed, examplePoint, pull);
    const sag = (l: Parameters<typeof tipSag>[2], order: 1 | 2) => {
      const got = tipSag(exampleLadder, posed, l, order);
      return got.ok ? got.tipDeflectionM : Number.NaN;
    };
    const first = sag([load], 1);
    const second = sag([load], 2);
    const follows = sag([{ ...load, ropesBack: [{ tensionN: 1961.33, lengthM: 29 }] }], 2);
    expect(first).toBeGreaterThan(0);
    expect(second).toBeGreaterThan(first);
    expect(follows).toBeGreaterThan(first);
    expect(follows).toBeLessThan(second);
  });

  it("is a typed outcome without sections", () => {
    expect(tipSag({ ...exampleLadder, sections: null }, posed, [])).toMatchObject({ ok: false, code: "noSections" });
  });

  it("takes the rigging points along with the tip", () => {
    const sunk = deflectedAerial(posed, 0.5);
    const [x, y, z] = riggingPointAt(sunk, examplePoint);
    expect(z).toBeCloseTo(posed.tip[2] - 0.5 * Math.cos(1.1), 12);
    expect(Math.hypot(x - posed.tip[0], y - posed.tip[1])).toBeCloseTo(0.5 * Math.sin(1.1), 12);
  });
});
