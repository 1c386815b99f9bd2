import fc from "fast-check";
import { Matrix, solve } from "ml-matrix";
import { describe, expect, it } from "vitest";
import { type BeamPiece, beamDeflection, type DeflectionLoad, deflectionAt } from "./beam-deflection.ts";

const even = (EI: number, L: number, w = 0, axial = 0): BeamPiece[] => [
  { fromM: 0, toM: L, bendingStiffnessNm2: EI, weightNPerM: w, axialWeightNPerM: axial },
];
const answerOf = (...args: Parameters<typeof beamDeflection>) => {
  const answer = beamDeflection(...args);
  if (!answer.ok) throw new Error(answer.code);
  return answer;
};
const stepped = (weights: readonly number[], cos = 1): BeamPiece[] =>
  (
    [
      [0, 8, 4e7],
      [8, 15, 2.2e7],
      [15, 22, 1.1e7],
      [22, 29, 5e6],
    ] as const
  ).map(([fromM, toM, bendingStiffnessNm2], i) => ({
    fromM,
    toM,
    bendingStiffnessNm2,
    weightNPerM: (weights[i] ?? 0) * cos,
  }));

/** Reference data, fixture BEAM; each line names what it rests on. */
describe("beamDeflection, published and reference cases", () => {
  it("tip load: PL³/3EI and PL²/2EI", () => {
    const got = answerOf(even(1e6, 10), [{ stationM: 10, transverseN: 1000 }]);
    expect(got.tipDeflectionM).toBeCloseTo(0.33333333, 8);
    expect(got.tipSlopeRad).toBeCloseTo(0.05, 12);
  });
  it("even weight: wL⁴/8EI, 100 kg/m over 10 m", () => {
    // Formula as in an open mooring program's beam test; value computed from it.
    expect(answerOf(even(1e7, 10, 980.665), []).tipDeflectionM).toBeCloseTo(0.12258313, 8);
  });
  it("simply supported even weight: half of it is a cantilever held up at its tip", () => {
    // Same source: mid sag 0.01276908 m over 10 m. By symmetry: clamp the middle, push the end up with half the weight.
    const half = answerOf(even(1e7, 5, 980.665), [{ stationM: 5, transverseN: -980.665 * 5 }]);
    expect(-half.tipDeflectionM).toBeCloseTo(0.01276908, 8);
  });
  it("stepped beam under a tip load", () => {
    expect(answerOf(stepped([]), [{ stationM: 29, transverseN: 1000 }]).tipDeflectionM).toBeCloseTo(0.32043333, 8);
  });
  it("stepped beam under its own weight, at 70° and level", () => {
    // The fixture was integrated numerically and lies 7e-7 (relative) above the exact value; hence 1e-6.
    const weights = [900, 650, 450, 300];
    const at70 = answerOf(stepped(weights, Math.cos((70 * Math.PI) / 180)), []);
    expect(Math.abs(at70.tipDeflectionM / 0.39783682 - 1)).toBeLessThan(1e-6);
    const level = answerOf(stepped(weights), []);
    expect(Math.abs(level.tipDeflectionM / 1.16319704 - 1)).toBeLessThan(1e-6);
    expect(level.stations[0]?.momentNm).toBeCloseTo(192950, 6);
    // Exact, by Simpson's rule in fractions on the cubic M(s)(L − s)/EI of each piece (own, apart from this code).
    expect(level.tipDeflectionM).toBeCloseTo(1.1631961931818182, 13);
  });
  it("beam-column: (Q/Pκ)(tan κL − κL), and the load that buckles it", () => {
    const load: DeflectionLoad = { stationM: 29, transverseN: 670.8, compressionN: 3804.4 };
    expect(answerOf(even(1e7, 29), [load], 1).tipDeflectionM).toBeCloseTo(0.54533804, 8);
    expect(answerOf(even(1e7, 29), [load], 2).tipDeflectionM).toBeCloseTo(0.62551522, 8);
    expect(beamDeflection(even(1e7, 29), [{ ...load, compressionN: 29338.895 * 0.9999 }], 2).ok).toBe(true);
    for (const beyond of [1.0001, 3, 9.5, 30, 400]) {
      expect(beamDeflection(even(1e7, 29), [{ ...load, compressionN: 29338.895 * beyond }], 2)).toMatchObject({
        ok: false,
        code: "buckles",
      });
    }
  });
});

describe("beamDeflection, closed forms", () => {
  it("a rope that runs back to the clamp relieves the tip", () => {
    // By hand from EI y'' = (Q − Pδ/L)(L − s) + P(δ − y): δ = Qg/(1 + Pg/L), g = (tan κL − κL)/(Pκ).
    const [EI, L, Q, P] = [1e7, 29, 670.8, 3804.4];
    const k = Math.sqrt(P / EI);
    const g = (Math.tan(k * L) - k * L) / (P * k);
    const got = answerOf(even(EI, L), [{ stationM: L, transverseN: Q, compressionN: P, restoringNPerM: P / L }], 2);
    expect(got.tipDeflectionM).toBeCloseTo((Q * g) / (1 + (P * g) / L), 9);
    // Such a force buckles the beam only at π²EI/L² (Timoshenko and Gere, Theory of Elastic Stability, from memory).
    const critical = (Math.PI ** 2 * EI) / L ** 2;
    const at = (f: number) =>
      beamDeflection(
        even(EI, L),
        [{ stationM: L, transverseN: Q, compressionN: f * critical, restoringNPerM: (f * critical) / L }],
        2,
      ).ok;
    expect([at(0.999), at(1.001), at(4.2)]).toEqual([true, false, false]);
  });
  it("a mast buckles under its own weight at qL³ = 7.8373 EI", () => {
    // Greenhill 1881; constant from memory.
    const q = (7.8373 * 1e7) / 29 ** 3;
    expect(beamDeflection(even(1e7, 29, 1, q * 0.9995), [], 2).ok).toBe(true);
    expect(beamDeflection(even(1e7, 29, 1, q * 1.0005), [], 2).ok).toBe(false);
  });
  it("end couple: ML²/2EI", () => {
    expect(answerOf(even(1e6, 10), [{ stationM: 10, transverseN: 0, momentNm: 2000 }]).tipDeflectionM).toBeCloseTo(
      0.1,
      12,
    );
  });
});

/** Independent of the product: cubic elements with geometric stiffness, solved with ml-matrix. */
function byElements(pieces: readonly BeamPiece[], loads: readonly DeflectionLoad[], perPiece: number): number {
  const ends = [
    0,
    ...pieces.flatMap((p) =>
      Array.from({ length: perPiece }, (_, i) => p.fromM + ((p.toM - p.fromM) * (i + 1)) / perPiece),
    ),
  ];
  const size = 2 * ends.length;
  const K = Matrix.zeros(size, size);
  const f = Matrix.zeros(size, 1);
  const put = (row: number, value: number): void => {
    f.set(row, 0, f.get(row, 0) + value);
  };
  const putK = (row: number, col: number, value: number): void => {
    K.set(row, col, K.get(row, col) + value);
  };
  ends.slice(1).forEach((b, e) => {
    const a = ends[e] as number;
    const h = b - a;
    const piece = pieces.find((p) => (a + b) / 2 < p.toM) as BeamPiece;
    const outboardWeight = pieces.reduce(
      (s, p) => s + (p.axialWeightNPerM ?? 0) * Math.max(0, p.toM - Math.max(p.fromM, (a + b) / 2)),
      0,
    );
    const N =
      outboardWeight + loads.filter((l) => l.stationM > (a + b) / 2).reduce((s, l) => s + (l.compressionN ?? 0), 0);
    const bend = [
      [12, 6 * h, -12, 6 * h],
      [6 * h, 4 * h * h, -6 * h, 2 * h * h],
      [-12, -6 * h, 12, -6 * h],
      [6 * h, 2 * h * h, -6 * h, 4 * h * h],
    ];
    const geometric = [
      [36, 3 * h, -36, 3 * h],
      [3 * h, 4 * h * h, -3 * h, -h * h],
      [-36, -3 * h, 36, -3 * h],
      [3 * h, -h * h, -3 * h, 4 * h * h],
    ];
    for (let i = 0; i < 4; i++) {
      for (let j = 0; j < 4; j++) {
        putK(
          2 * e + i,
          2 * e + j,
          (piece.bendingStiffnessNm2 / h ** 3) * (bend[i]?.[j] ?? 0) - (N / (30 * h)) * (geometric[i]?.[j] ?? 0),
        );
      }
    }
    const w = piece.weightNPerM;
    [(w * h) / 2, (w * h * h) / 12, (w * h) / 2, (-w * h * h) / 12].forEach((v, i) => {
      put(2 * e + i, v);
    });
  });
  for (const l of loads) {
    const node = ends.findIndex((s) => Math.abs(s - l.stationM) < 1e-9);
    put(2 * node, l.transverseN);
    put(2 * node + 1, l.momentNm ?? 0);
    putK(2 * node, 2 * node, l.restoringNPerM ?? 0);
  }
  const free = Array.from({ length: size - 2 }, (_, i) => i + 2);
  return solve(K.selection(free, free), f.selection(free, [0])).get(size - 4, 0);
}

describe("beamDeflection against finite elements", () => {
  it("stepped, own weight both ways, loads along the beam, returns that follow", () => {
    const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    const load = fc.record({
      piece: fc.constantFrom(8, 15, 22, 29),
      transverseN: number(-3000, 3000),
      momentNm: number(-2000, 2000),
      compressionN: number(-2000, 4000),
      restoringNPerM: number(0, 300),
    });
    fc.assert(
      fc.property(fc.array(load, { minLength: 1, maxLength: 4 }), number(0, 1.4), (drawn, elevation) => {
        const pieces = stepped([900, 650, 450, 300], Math.cos(elevation)).map((p, i) => ({
          ...p,
          axialWeightNPerM: ([900, 650, 450, 300][i] ?? 0) * Math.sin(elevation),
        }));
        const loads = drawn.map(({ piece, ...l }) => ({ ...l, stationM: piece }));
        const exact = answerOf(pieces, loads, 2).tipDeflectionM;
        // Elements hold the compression of own weight constant: the error falls with the square of their size.
        expect(Math.abs(byElements(pieces, loads, 16) - exact)).toBeLessThan(2e-4 * Math.max(1, Math.abs(exact)));
      }),
      { seed: 51, numRuns: 25 },
    );
  });
});

describe("beamDeflection, manners", () => {
  it("refuses pieces that do not join or do not stand", () => {
    expect(beamDeflection([], [])).toMatchObject({ ok: false, code: "notABeam" });
    expect(beamDeflection([{ fromM: 1, toM: 2, bendingStiffnessNm2: 1, weightNPerM: 0 }], [])).toMatchObject({
      code: "notABeam",
    });
    expect(beamDeflection(even(0, 10), [])).toMatchObject({ code: "notABeam" });
  });
  it("does not change when a piece is cut in two or an empty load is put on it", () => {
    const whole = answerOf(even(1e7, 20, 300, 500), [{ stationM: 20, transverseN: 800, compressionN: 3000 }], 2);
    const halves = [
      ...even(1e7, 7.3, 300, 500),
      { fromM: 7.3, toM: 20, bendingStiffnessNm2: 1e7, weightNPerM: 300, axialWeightNPerM: 500 },
    ];
    const cut = answerOf(
      halves,
      [
        { stationM: 20, transverseN: 800, compressionN: 3000 },
        { stationM: 11, transverseN: 0 },
      ],
      2,
    );
    expect(cut.tipDeflectionM).toBeCloseTo(whole.tipDeflectionM, 12);
    const [at7, at11] = [cut.stations[1], cut.stations[2]];
    expect([at7?.stationM, at11?.stationM]).toEqual([7.3, 11]);
  });
  it("reads deflection and slope between stations", () => {
    const got = answerOf(even(1e6, 10), [{ stationM: 10, transverseN: 1000 }]);
    // Px²(3L − x)/6EI: a cubic, so exact.
    expect(deflectionAt(got, 4).deflectionM).toBeCloseTo((1000 * 16 * 26) / 6e6, 12);
    expect(deflectionAt(got, 4).slopeRad).toBeCloseTo((1000 * 4 * (20 - 4)) / 2e6, 12);
    expect(deflectionAt(got, 0).deflectionM).toBeCloseTo(0, 12);
    expect(deflectionAt(got, 12)).toMatchObject({ deflectionM: got.tipDeflectionM, slopeRad: got.tipSlopeRad });
  });
});
