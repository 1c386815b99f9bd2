import { describe, expect, it } from "vitest";
import { distance, norm, type SiteVector, site } from "../base/vector.ts";
import { catenary } from "./catenary.ts";
import { catenaryOfTension } from "./catenary-of-tension.ts";
import { catenaryPoints } from "./catenary-points.ts";
import type { Catenary, CatenaryFailure } from "./sagging-rope.ts";

function hung(found: Catenary | CatenaryFailure): Catenary {
  if (!found.ok) throw new Error(found.code);
  return found;
}

const origin = site(0, 0, 0);
const between = (lengthM: number, axialStiffnessN: number | null, weightNM: number, x: number, z: number) =>
  hung(catenary({ lengthM, axialStiffnessN, weightNM }, origin, site(x, 0, z)));

/** Published elastic catenaries. A at the origin; H, V_A (upward pull on A), V_B (upward part of the tension at B), N. */
const PUBLISHED = [
  // MoorPy tests/test_catenary.py, NREL snapshot 30b7fc43; its tolerance 1e-5.
  { id: "CAT1", x: 400, z: 200, L: 500, EA: 7.51e12, w: 200, H: 43694.581, VA: -22365.599, VB: 77634.401 },
  { id: "CAT2", x: 89.9, z: 59.2, L: 130, EA: 7.51e8, w: 881.05, H: 31373.229, VA: -26650.341, VB: 87886.159 },
  {
    id: "CAT3",
    x: 246.22420940032947,
    z: 263.55766330843164,
    L: 360.6256626239693,
    EA: 7e8,
    w: 3.08735,
    H: 71116.8,
    VA: 75567.3,
    VB: 76680.6,
  },
  {
    id: "CAT4",
    x: 246.22420940032947,
    z: 263.55766330843164,
    L: 360.64566262396926,
    EA: 7e8,
    w: 3.08735,
    H: 46077.1,
    VA: 48765.2,
    VB: 49878.6,
  },
  {
    id: "CAT5",
    x: 119.3237383002058,
    z: 52.49668849178113,
    L: 130.36140355177318,
    EA: 7e8,
    w: 34.91060469991227,
    H: 72694.145,
    VA: 29715.173,
    VB: 34266.168,
  },
];

/** Rope-scale cases and a near-taut one, from an independent solver (computed, to the digits given). */
const COMPUTED = [
  {
    id: "CATX",
    x: 246.22420940032947,
    z: 263.55766330843164,
    L: 360.63566262396927,
    EA: 7e8,
    w: 3.08735,
    H: 58377.241423,
    VA: 61931.004443,
    VB: 63044.412956,
  },
  { id: "ROPE1", x: 20, z: 12, L: 24, EA: 60000, w: 0.75, H: 15.459246, VA: 0.991424, VB: 18.991424 },
  { id: "ROPE2", x: 20, z: 12, L: 23.2, EA: 60000, w: 0.75, H: 279.050307, VA: 158.769849, VB: 176.169849 },
  { id: "ROPE3", x: 30, z: 0, L: 30.5, EA: 60000, w: 0.75, H: 35.017786, VA: -11.4375, VB: 11.4375 },
  { id: "ROPE4", x: 25, z: 18, L: 30.6, EA: 50000, w: 0.78, H: 278.3099, VA: 188.529434, VB: 212.397434 },
  { id: "ROPE5", x: 10, z: 25, L: 26.5, EA: 40000, w: 0.8, H: 238.787038, VA: 586.420824, VB: 607.620824 },
];

describe("an elastic catenary", () => {
  it.each(PUBLISHED)("pulls as published in $id, to the published 1e-5", ({ x, z, L, EA, w, H, VA, VB }) => {
    const { forceOnAN, forceOnBN } = between(L, EA, w, x, z);
    expect(Math.abs(forceOnAN[0] / H - 1)).toBeLessThan(1e-5);
    expect(Math.abs(forceOnAN[2] / VA - 1)).toBeLessThan(1e-5);
    expect(Math.abs(-forceOnBN[2] / VB - 1)).toBeLessThan(1e-5);
  });

  it.each(COMPUTED)(
    "pulls as another solver computed in $id, to a millionth of a newton or its last digit",
    ({ x, z, L, EA, w, H, VA, VB }) => {
      const { forceOnAN, forceOnBN } = between(L, EA, w, x, z);
      expect(forceOnAN[0]).toBeCloseTo(H, 5);
      expect(forceOnAN[2]).toBeCloseTo(VA, 5);
      expect(-forceOnBN[2]).toBeCloseTo(VB, 5);
    },
  );

  it("does not give the published figures of the near-taut case, which miss the rope's own weight", () => {
    // Published with CATX: H 56804.6, V_A 60803.4, V_B 60803.4. The two V must differ by the weight of the rope.
    const weightN = 3.08735 * 360.63566262396927;
    expect(Math.abs(60803.4 - 60803.4 - weightN)).toBeGreaterThan(1000);
    const { forceOnAN, forceOnBN } = between(360.63566262396927, 7e8, 3.08735, 246.22420940032947, 263.55766330843164);
    expect(-forceOnBN[2] - forceOnAN[2]).toBeCloseTo(weightN, 8);
    expect(Math.abs(forceOnAN[0] - 56804.6)).toBeGreaterThan(1000);
  });

  // Code_Aster validation manual: SSNL114 / V6.05.116 heavy cable, level ends; sag 6.352 m published, the other figures computed.
  it.each([
    { lengthM: 325, sagM: 6.352161, levelN: 13206.239 },
    { lengthM: 325.29347, sagM: 8.195452, levelN: 10241.731 },
  ])("sags $sagM m on a level span of 325 m, unstretched $lengthM m", ({ lengthM, sagM, levelN }) => {
    const heavy = between(lengthM, 5.7e10 * 2.2783e-4, 2.2783e-4 * 2844.23 * 9.81, 325, 0);
    // The second length is given to 5 digits after the point: worth 1e-5 m of sag, 0.012 N.
    expect(Math.abs(heavy.sagM - sagM)).toBeLessThan(1e-5);
    expect(Math.abs(heavy.forceOnAN[0] - levelN)).toBeLessThan(0.0125);
    expect(heavy.lowest[2]).toBeCloseTo(-heavy.sagM, 12);
    expect(heavy.lowest[0]).toBeCloseTo(162.5, 9);
  });

  it("is folded plumb where both ends are in one place, half of it below each", () => {
    const folded = between(10, 1e4, 2, 0, 0);
    expect(folded.forceOnAN).toEqual([0, 0, -10]);
    expect(folded.tensionBN).toBe(10);
    // Each half is 5 m, stretched by 2·5²/(2·10⁴).
    expect(folded.lowest[2]).toBeCloseTo(-5.0025, 12);
    expect(folded.sagM).toBeCloseTo(5.0025, 12);
    expect(folded.stretchedM).toBeCloseTo(10.005, 12);
  });

  it("hangs plumb below A where it is long enough, and is a plumb spring where it is not", () => {
    // 10 m of 1 N/m and 10 kN: 3 m below, so one part is about 3 m longer than the other.
    const folded = between(10, 1e4, 1, 0, -3);
    expect(folded.tensionAN - folded.tensionBN).toBeCloseTo(3 / (1 + 0.5e-3), 9);
    expect(folded.tensionAN + folded.tensionBN).toBeCloseTo(10, 12);
    // 10.02 m below: mean strain 0.002, so 20 N in the middle.
    const taut = between(10, 1e4, 1, 0, -10.02);
    expect(taut.forceOnAN[2]).toBeCloseTo(-25, 9);
    expect(taut.forceOnBN[2]).toBeCloseTo(15, 9);
    expect(taut.stiffnessNM![8]).toBeCloseTo(1000, 6);
    // Plumb and exactly its own stretch below: the lower end carries nothing.
    expect(between(10, 1e4, 1, 0, -10.005).tensionBN).toBeLessThan(1e-9);
  });

  it("lets nothing jump as its ends come plumb above each other", () => {
    for (const z of [0, 4, -9.99, -10.005, -10.02]) {
      const plumb = between(10, 1e4, 1, 0, z);
      const near = between(10, 1e4, 1, 1e-140, z);
      expect(
        norm(site(plumb.forceOnAN[0] - near.forceOnAN[0], 0, plumb.forceOnAN[2] - near.forceOnAN[2])),
      ).toBeLessThan(1e-6);
      // Of a folded rope the sag nears its limit only as one over the logarithm of the way between its parts.
      expect(Math.abs(plumb.sagM - near.sagM)).toBeLessThan(0.2);
    }
  });

  it.each([
    { what: "taut", lengthM: 10, to: site(6, 3, 8.02) },
    { what: "slack", lengthM: 11, to: site(6, 3, 8.02) },
  ])("comes to the straight spring as its weight goes to nothing, $what", ({ lengthM, to }) => {
    const stretched = distance(origin, to);
    const tensionN = Math.max(0, (1e4 * (stretched - lengthM)) / lengthM);
    for (const weightNM of [1e-3, 1e-6, 1e-9, 1e-12, 1e-40, 1e-89, 1e-91, 0]) {
      const light = hung(catenary({ lengthM, axialStiffnessN: 1e4, weightNM }, origin, to));
      const allowed = 10 * weightNM + 1e-10;
      for (let i = 0; i < 3; i++) {
        expect(Math.abs(light.forceOnAN[i]! - (tensionN * to[i]!) / stretched)).toBeLessThan(allowed);
      }
      // Along the rope EA/L, square to it T/l.
      const along = tensionN > 0 ? 1e4 / lengthM : 0;
      const square = tensionN / stretched;
      const wanted = square + ((along - square) * to[0] * to[0]) / (stretched * stretched);
      expect(Math.abs(light.stiffnessNM![0]! - wanted)).toBeLessThan(200 * weightNM + 1e-9);
    }
    // A slack rope keeps its shape down to no weight at all.
    const shapes = [1e-6, 1e-12, 0].map(
      (weightNM) => hung(catenary({ lengthM, axialStiffnessN: 1e4, weightNM }, origin, to)).sagM,
    );
    expect(Math.abs(shapes[0]! - shapes[2]!)).toBeLessThan(1e-6);
    expect(Math.abs(shapes[1]! - shapes[2]!)).toBeLessThan(1e-11);
  });

  it("gives no number for what is no rope", () => {
    const rope = { lengthM: 10, axialStiffnessN: 1e4, weightNM: 1 };
    const to = site(6, 0, 0);
    const code = (changes: object, b: SiteVector = to) => {
      const found = catenary({ ...rope, ...changes }, origin, b);
      return found.ok ? "ok" : found.code;
    };
    expect(code({})).toBe("ok");
    for (const bad of [0, -1, Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(code({ lengthM: bad })).toBe("bad-number");
      expect(code({ axialStiffnessN: bad })).toBe("bad-number");
    }
    expect(code({ weightNM: -1 })).toBe("bad-number");
    expect(code({}, site(Number.NaN, 0, 0))).toBe("bad-number");
    expect(code({}, site(1e300, 1e300, 0))).toBe("bad-number");
    expect(code({ axialStiffnessN: null, lengthM: 6 })).toBe("too-short");
    expect(code({ axialStiffnessN: null, lengthM: 6.0001 })).toBe("ok");
    expect(catenaryPoints({ ...rope, lengthM: 0 }, origin, to, 5)).toEqual([]);
  });
});

describe("the length of rope held with a given tension", () => {
  it.each([...PUBLISHED, ...COMPUTED])("is that of $id, from either end", ({ x, z, L, EA, w }) => {
    const b = site(x, 0, z);
    const known = between(L, EA, w, x, z);
    const rope = { axialStiffnessN: EA, weightNM: w };
    for (const [end, tensionN] of [
      ["A", known.tensionAN],
      ["B", known.tensionBN],
    ] as const) {
      const found = hung(catenaryOfTension(rope, origin, b, end, tensionN));
      expect(found.lengthM).toBeCloseTo(L, 9);
      for (let i = 0; i < 3; i++) expect(found.forceOnAN[i]! / tensionN).toBeCloseTo(known.forceOnAN[i]! / tensionN, 9);
      expect(found.sagM).toBeCloseTo(known.sagM, 9);
      for (let i = 0; i < 9; i++)
        expect(found.stiffnessNM![i]! / known.stiffnessNM![8]!).toBeCloseTo(
          known.stiffnessNM![i]! / known.stiffnessNM![8]!,
          6,
        );
    }
  });

  it("gives the sag of 7.941 m published for 100 m level, 30 N/m, 5000 N at the end, without stretch", () => {
    // Code_Aster R3.08.05; to six digits 7.940537 m and 4761.784 N (computed).
    const line = hung(catenaryOfTension({ axialStiffnessN: null, weightNM: 30 }, origin, site(100, 0, 0), "A", 5000));
    expect(line.sagM).toBeCloseTo(7.940537, 6);
    expect(line.forceOnAN[0]).toBeCloseTo(4761.784, 3);
    expect(line.tensionAN).toBeCloseTo(5000, 9);
  });

  it("is none where the tension is too little, and that is where the textbook has its least", () => {
    // Without stretch on level ends T = (w·x/2λ)·cosh λ, least where λ·tanh λ = 1: λ = 1.19967864 (from memory), T = 0.75443927·w·x.
    const leastN = (2 * 30 * Math.cosh(1.19967864)) / (2 * 1.19967864);
    const held = (tensionN: number) =>
      catenaryOfTension({ axialStiffnessN: null, weightNM: 2 }, origin, site(30, 0, 0), "B", tensionN);
    expect(held(leastN * (1 - 1e-9))).toMatchObject({ ok: false, code: "too-little-tension" });
    // Just above, dip and length are those of the least.
    expect(hung(held(leastN * (1 + 1e-9))).lengthM).toBeCloseTo((30 * Math.sinh(1.19967864)) / 1.19967864, 2);
    expect(catenaryOfTension({ axialStiffnessN: 1e4, weightNM: 2 }, origin, site(0, 0, -5), "A", 9)).toMatchObject({
      ok: false,
    });
    expect(
      hung(catenaryOfTension({ axialStiffnessN: 1e4, weightNM: 2 }, origin, site(0, 0, -5), "A", 11)).tensionBN,
    ).toBeCloseTo(1, 1);
  });

  it("is straight rope where the rope has no weight", () => {
    const found = hung(catenaryOfTension({ axialStiffnessN: 1e4, weightNM: 0 }, origin, site(3, 0, 4), "A", 100));
    expect(found.lengthM).toBeCloseTo(5 / 1.01, 12);
    expect(found.forceOnBN).toEqual([-60, -0, -80]);
  });

  it("gives no number for what is no pull", () => {
    const rope = { axialStiffnessN: 1e4, weightNM: 2 };
    for (const tensionN of [0, -5, Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(catenaryOfTension(rope, origin, site(3, 0, 4), "A", tensionN)).toMatchObject({ code: "bad-number" });
    }
    expect(catenaryOfTension(rope, origin, origin, "A", 50)).toMatchObject({ code: "bad-number" });
  });
});
