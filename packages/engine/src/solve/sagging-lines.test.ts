import { describe, expect, it } from "vitest";
import { asSite, distance, site, type Triple } from "../base/vector.ts";
import { catenary } from "../rope/catenary.ts";
import { catenaryOfTension } from "../rope/catenary-of-tension.ts";
import { compileNetwork } from "../rope/compile-network.ts";
import type { Network, NetworkAnswer, NetworkLine } from "../rope/network.ts";
import { findBalance } from "./find-balance.ts";
import { newNetworkState } from "./network-state.ts";
import { type SolveNetworkOptions, solveNetwork } from "./solve-network.ts";

const GRAVITY = 9.80665;

function solved(network: Network, options?: SolveNetworkOptions): NetworkAnswer {
  const answer = solveNetwork(network, options);
  if (!answer.ok) throw new Error(`${answer.code} at ${answer.where}: ${answer.hint}`);
  return answer;
}

/** A rope of 0.75 N/m that sags. */
const sagging = (through: string[], held: Partial<NetworkLine>, weightNM = 0.75): NetworkLine => ({
  through,
  sag: true,
  linearMassKgM: weightNM / GRAVITY,
  ...held,
});

describe("a load on sagging ropes", () => {
  // Own solver of the reference (other code, other language), cases K1 to K3: place to 1e-8 m, tensions to 1e-6 N.
  const two: Triple[] = [
    [0, 0.3, 25],
    [0, -0.3, 25],
  ];
  const cases = [
    {
      id: "K1",
      anchors: [
        [0, 0, 20],
        [12, 0, 18],
      ] as Triple[],
      lengths: [14, 9],
      stiff: [6e4, 6e4],
      place: [9.18339146, 0, 9.21505757],
      atNode: [703.753788, 1499.635671],
      atAnchor: [711.748194, 1506.06338],
    },
    {
      id: "K2",
      anchors: [...two, [20, 3, 1]] as Triple[],
      lengths: [15, 15, 20],
      stiff: [6e4, 6e4, 3e4],
      place: [2.04110612, 0.30033168, 9.87529693],
      atNode: [1041.659552, 1088.874328, 325.628079],
      atAnchor: [1052.808487, 1100.014648, 319.042366],
    },
    {
      id: "K3",
      anchors: [...two, [20, 3, 1]] as Triple[],
      lengths: [15, 15, 20.5],
      stiff: [6e4, 6e4, 3e4],
      place: [1.52789767, 0.22458557, 9.81987213],
      atNode: [1022.457853, 1057.779374, 237.546117],
      atAnchor: [1033.65116, 1068.966207, 230.982467],
    },
  ];
  const networkOf = ({ anchors, lengths, stiff }: (typeof cases)[number], start: Triple, fromNode = true): Network => ({
    nodes: {
      load: { position: start, free: true, massKg: 200 },
      ...Object.fromEntries(anchors.map((position, i) => [`a${i}`, { position }])),
    },
    lines: Object.fromEntries(
      anchors.map((_, i) => [
        `r${i}`,
        sagging(fromNode ? ["load", `a${i}`] : [`a${i}`, "load"], { lengthM: lengths[i]!, axialStiffnessN: stiff[i]! }),
      ]),
    ),
  });

  it.each(cases)("comes to rest where and as another solver has it, case $id", (of) => {
    for (const start of [
      [1, 1, 1],
      [9, 0, 9],
      [0, 0.3, 25],
      [-40, 30, 60],
      [0, 0, -300],
    ] as Triple[]) {
      const answer = solved(networkOf(of, start));
      for (const [i, c] of of.place.entries()) expect(answer.nodes.load!.position[i]).toBeCloseTo(c, 7);
      for (const [i, t] of of.atNode.entries()) {
        expect(answer.lines[`r${i}`]!.tensionsN[0]).toBeCloseTo(t, 5);
        expect(answer.lines[`r${i}`]!.tensionAtEndN).toBeCloseTo(of.atAnchor[i]!, 5);
        expect(answer.lines[`r${i}`]!.slack).toBe(false);
      }
      expect(answer.residualN).toBeLessThan(1e-8);
    }
    const turned = solved(networkOf(of, [1, 1, 1], false));
    for (const [i, t] of of.atNode.entries()) expect(turned.lines[`r${i}`]!.tensionAtEndN).toBeCloseTo(t, 5);
  });

  it.each(cases)("is held up by its anchors, rope and all, case $id", (of) => {
    const answer = solved(networkOf(of, [1, 1, 1]));
    const forces = Object.values(answer.forcesOnFixedN);
    const sum = [0, 1, 2].map((i) => forces.reduce((total, force) => total + force[i]!, 0));
    const ropeN = 0.75 * of.lengths.reduce((a, b) => a + b, 0);
    expect(sum[0]).toBeCloseTo(0, 7);
    expect(sum[1]).toBeCloseTo(0, 7);
    expect(sum[2]).toBeCloseTo(-200 * GRAVITY - ropeN, 7);
    for (const [i, t] of of.atAnchor.entries()) {
      expect(Math.hypot(...answer.forcesOnFixedN[`a${i}`]!)).toBeCloseTo(t, 5);
    }
  });

  it("is not led astray by ropes a thousand times as stiff", () => {
    for (const of of cases) {
      const stiff = { ...of, stiff: of.stiff.map((s) => 1000 * s) };
      const answer = solved(networkOf(stiff, [1, 1, 1]));
      const { position } = answer.nodes.load!;
      for (const [i, anchor] of of.anchors.entries()) {
        const line = answer.lines[`r${i}`]!;
        expect(distance(asSite(position), asSite(anchor))).toBeLessThanOrEqual(line.segmentsM[0]! * (1 + 1e-12));
        expect(line.segmentsM[0]! / of.lengths[i]!).toBeCloseTo(1, 4);
      }
    }
  });
});

describe("a sagging line", () => {
  it("is what a chain of many short straight pieces of the same rope comes to", () => {
    // Lumped weight is a method of its own; its error falls with the square of the number of pieces.
    const chain = (pieces: number): Network => ({
      nodes: {
        a: { position: [0, 0, 10] },
        b: { position: [18, 5, 6] },
        ...Object.fromEntries(
          Array.from({ length: pieces - 1 }, (_, i) => {
            const t = (i + 1) / pieces;
            return [`n${i + 1}`, { position: [18 * t, 5 * t, 10 - 4 * t - 12 * t * (1 - t)] as Triple, free: true }];
          }),
        ),
      },
      lines: Object.fromEntries(
        Array.from({ length: pieces }, (_, i) => [
          `p${i}`,
          {
            through: [i === 0 ? "a" : `n${i}`, i === pieces - 1 ? "b" : `n${i + 1}`],
            lengthM: 22 / pieces,
            axialStiffnessN: 4e4,
            linearMassKgM: 0.08,
          },
        ]),
      ),
    });
    const whole = solved({
      nodes: { a: { position: [0, 0, 10] }, b: { position: [18, 5, 6] } },
      lines: { rope: { through: ["a", "b"], lengthM: 22, axialStiffnessN: 4e4, linearMassKgM: 0.08, sag: true } },
    });
    const errors = [10, 20].map((pieces) => {
      const lumped = solved(chain(pieces)).forcesOnFixedN;
      return Math.hypot(...lumped.a!.map((c, i) => c - whole.forcesOnFixedN.a![i]!));
    });
    expect(errors[0]).toBeLessThan(0.1);
    expect(errors[0]! / errors[1]!).toBeGreaterThan(3.6);
    expect(errors[0]! / errors[1]!).toBeLessThan(4.4);
  });

  it("between two fixed nodes is the catenary by itself", () => {
    const [a, b] = [site(1, 2, 3), site(14, -5, 8)];
    const answer = solved({
      nodes: { a: { position: a }, b: { position: b } },
      lines: {
        long: sagging(["a", "b"], { lengthM: 20, axialStiffnessN: 3e4 }),
        pulled: sagging(["a", "b"], { tensionN: 150 }),
      },
    });
    const long = catenary({ lengthM: 20, axialStiffnessN: 3e4, weightNM: 0.75 }, a, b);
    const pulled = catenaryOfTension({ axialStiffnessN: null, weightNM: 0.75 }, a, b, "A", 150);
    if (!long.ok || !pulled.ok) throw new Error("no catenary");
    for (const [name, rope] of Object.entries({ long, pulled })) {
      const line = answer.lines[name]!;
      expect(line.tensionsN[0]).toBeCloseTo(rope.tensionAN, 9);
      expect(line.tensionAtEndN).toBeCloseTo(rope.tensionBN, 9);
      expect(line.segmentsM[0]).toBeCloseTo(rope.stretchedM, 9);
      expect(line.unstretchedM).toBeCloseTo(rope.lengthM, 9);
    }
    for (let i = 0; i < 3; i++) {
      expect(answer.forcesOnFixedN.a![i]).toBeCloseTo(long.forceOnAN[i]! + pulled.forceOnAN[i]!, 8);
      expect(answer.forcesOnFixedN.b![i]).toBeCloseTo(long.forceOnBN[i]! + pulled.forceOnBN[i]!, 8);
    }
  });

  it("hangs plumb from its anchor with nothing on its end, and carries that", () => {
    const answer = solved({
      nodes: { top: { position: [2, 1, 20] }, end: { position: [6, 4, 19], free: true } },
      lines: { rope: sagging(["top", "end"], { lengthM: 8, axialStiffnessN: 2e4 }) },
    });
    const [x, y, z] = answer.nodes.end!.position;
    expect(Math.hypot(x - 2, y - 1)).toBeLessThan(1e-6);
    // 8 m, stretched by its own weight: wL²/2EA.
    expect(z).toBeCloseTo(20 - 8 - (0.75 * 64) / (2 * 2e4), 8);
    expect(answer.lines.rope!.tensionsN[0]).toBeCloseTo(6, 7);
    expect(answer.lines.rope!.tensionAtEndN).toBeLessThan(1e-6);
  });

  it("hangs just so when it is given from its idle end", () => {
    for (const start of [
      [6, 4, 19],
      [2, 1, 12],
      [2, 1, 20 - 8 - 1.2e-3],
    ] as Triple[]) {
      const answer = solved({
        nodes: { top: { position: [2, 1, 20] }, end: { position: start, free: true } },
        lines: { rope: sagging(["end", "top"], { lengthM: 8, axialStiffnessN: 2e4 }) },
      });
      expect(answer.nodes.end!.position[2]).toBeCloseTo(11.9988, 8);
      expect(answer.lines.rope!.tensionAtEndN).toBeCloseTo(6, 7);
      expect(answer.lines.rope!.tensionsN[0]).toBeLessThan(1e-6);
    }
  });

  it("draws nothing together where its ends come to lie in one place, folded below it", () => {
    // 6 m of 0.75 N/m, half on each end; the load hangs where the other end is made fast.
    const pullN = 100 * GRAVITY + 2.25;
    const place: Triple = [0, 0, 10 - 5 * (1 + pullN / 1e4)];
    const network: Network = {
      nodes: {
        load: { position: [30, -20, 60], free: true, massKg: 100 },
        tip: { position: [0, 0, 10] },
        mate: { position: place },
      },
      lines: {
        main: { through: ["load", "tip"], lengthM: 5, axialStiffnessN: 1e4 },
        rope: sagging(["load", "mate"], { lengthM: 6, axialStiffnessN: 1e4 }),
      },
    };
    const state = newNetworkState(compileNetwork(network));
    expect(findBalance(state)).toMatchObject({ kind: "balanced" });
    expect(distance(asSite([state.place[0]!, state.place[1]!, state.place[2]!]), asSite(place))).toBeLessThan(1e-6);
    expect(solved(network).forcesOnFixedN.mate![2]).toBeCloseTo(-2.25, 6);
  });

  it("is a straight line where nothing weighs", () => {
    const network = (sag: boolean): Network => ({
      nodes: {
        load: { position: [1, 1, 1], free: true, forceN: [10, 5, -900] },
        a: { position: [0, 0, 20] },
        b: { position: [12, 0, 18] },
      },
      lines: {
        one: { ...sagging(["load", "a"], { lengthM: 14, axialStiffnessN: 6e4 }), sag },
        two: { ...sagging(["load", "b"], { lengthM: 9, axialStiffnessN: 6e4 }), sag },
      },
      gravityMS2: 0,
    });
    expect(solved(network(true))).toEqual(solved(network(false)));
  });

  it("may be no part of a tackle: that is a bug of the caller", () => {
    const network: Network = {
      nodes: { a: { position: [0, 0, 0] }, b: { position: [1, 0, 0] }, c: { position: [2, 0, 0] } },
      lines: { rope: sagging(["a", "b", "c"], { lengthM: 5, axialStiffnessN: 1e4 }) },
    };
    expect(() => solveNetwork(network)).toThrow(RangeError);
  });
});

describe("a sagging tagline held by a steady hand", () => {
  const rig = (tensionN: number, from: "load" | "hand", held: Partial<NetworkLine> = {}): Network => ({
    nodes: {
      load: { position: [2, 0, 10], free: true, massKg: 200 },
      tip: { position: [0, 0, 25] },
      hand: { position: [40, 8, 1.2] },
    },
    lines: {
      main: { through: ["load", "tip"], lengthM: 15, axialStiffnessN: 6e4 },
      tag: sagging(from === "load" ? ["load", "hand"] : ["hand", "load"], { tensionN, ...held }),
    },
  });

  it("has the given tension at its first node, and the rope between in balance", () => {
    for (const from of ["load", "hand"] as const) {
      const answer = solved(rig(300, from, { axialStiffnessN: 3e4 }));
      const tag = answer.lines.tag!;
      expect(tag.tensionsN[0]).toBeCloseTo(300, 9);
      // Along a hanging rope T² − H² = V²; without stretch the tensions would differ by weight times rise: 0.75 N/m × 8.9 m or so.
      const rise = answer.nodes.load!.position[2] - 1.2;
      expect((tag.tensionAtEndN! - 300) * (from === "load" ? -1 : 1)).toBeCloseTo(0.75 * rise, 0);
      const [x, y, z] = answer.forcesOnFixedN.hand!;
      expect(Math.hypot(x, y, z)).toBeCloseTo(from === "load" ? tag.tensionAtEndN! : 300, 9);
      const sum = answer.forcesOnFixedN.tip!.map((c, i) => c + answer.forcesOnFixedN.hand![i]!);
      expect(sum[0]).toBeCloseTo(0, 7);
      expect(sum[1]).toBeCloseTo(0, 7);
      expect(sum[2]).toBeCloseTo(-200 * GRAVITY - 0.75 * tag.unstretchedM!, 6);
    }
  });

  it("is the same rope held fast at the length it comes to", () => {
    const pulled = solved(rig(300, "hand", { axialStiffnessN: 3e4 }));
    const network = rig(300, "hand");
    const fast = solved({
      ...network,
      lines: {
        ...network.lines,
        tag: sagging(["hand", "load"], { lengthM: pulled.lines.tag!.unstretchedM!, axialStiffnessN: 3e4 }),
      },
    });
    for (let i = 0; i < 3; i++) {
      expect(fast.nodes.load!.position[i]).toBeCloseTo(pulled.nodes.load!.position[i]!, 7);
    }
    expect(fast.lines.tag!.tensionsN[0]).toBeCloseTo(300, 5);
  });

  it("tells how much rope there is even with no stiffness given: then it does not stretch", () => {
    const tag = solved(rig(300, "hand")).lines.tag!;
    expect(tag.unstretchedM).toBeCloseTo(tag.segmentsM[0]!, 9);
  });

  it("falls where the pull is too little for the rope's own weight, and that is said", () => {
    // 0.75 N/m over 40 m wants some 0.75 × 40 × 0.754 = 23 N.
    const answer = solveNetwork(rig(15, "hand"));
    if (answer.ok) throw new Error("answered");
    expect(answer).toMatchObject({ code: "nothing-holds", where: "load" });
    expect(answer.hint).toContain("tag");
    expect(answer.hint).toContain("weight");
    expect(solveNetwork(rig(40, "hand")).ok).toBe(true);
    expect(solveNetwork(rig(0, "hand"))).toMatchObject({ ok: false, code: "nothing-holds" });
  });

  it("that draws the load onto the hand is two-blocked", () => {
    const network: Network = {
      nodes: { load: { position: [2, 0, 3], free: true, massKg: 10 }, hand: { position: [0, 0, 10] } },
      lines: { tag: sagging(["load", "hand"], { tensionN: 150 }) },
    };
    expect(solveNetwork(network)).toMatchObject({ ok: false, code: "two-blocked", where: "load" });
  });
});

describe("whatever is put in", () => {
  it("no number that is none comes out", () => {
    for (const scale of [1e-300, 1e-30, 1e-6, 1e6, 1e30, 1e160, 1e300]) {
      for (const which of ["position", "massKg", "axialStiffnessN", "lengthM", "linearMassKgM", "tensionN"]) {
        const s = (name: string) => (name === which ? scale : 1);
        const answer = solveNetwork({
          nodes: {
            load: { position: [3 * s("position"), s("position"), 2], free: true, massKg: 100 * s("massKg") },
            tip: { position: [0, 0, 10 * s("position")] },
            hand: { position: [9, 0, 0] },
          },
          lines: {
            main: {
              through: ["load", "tip"],
              sag: true,
              lengthM: 8 * s("lengthM"),
              axialStiffnessN: 5e4 * s("axialStiffnessN"),
              linearMassKgM: 0.1 * s("linearMassKgM"),
            },
            tag: { through: ["hand", "load"], sag: true, tensionN: 90 * s("tensionN"), linearMassKgM: 0.1 },
          },
        });
        expect(
          JSON.stringify(answer, (_, v) => (typeof v === "number" && !Number.isFinite(v) ? "bad" : v)),
        ).not.toContain('"bad"');
      }
    }
  });
});
