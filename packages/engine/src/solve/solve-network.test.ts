import { describe, expect, it } from "vitest";
import type { Triple } from "../base/vector.ts";
import { compileNetwork } from "../rope/compile-network.ts";
import type { Network, NetworkAnswer, NetworkLine } from "../rope/network.ts";
import { sheaveRatio } from "../rope/sheave.ts";
import { type SolveNetworkOptions, solveCompiled, solveNetwork } from "./solve-network.ts";
import { checkBalance } from "./testing/check-balance.ts";

/** Solves, insists on an answer, and has it checked by other means. */
function solved(network: Network, options?: SolveNetworkOptions): NetworkAnswer {
  const answer = solveNetwork(network, options);
  if (!answer.ok) throw new Error(`${answer.code} at ${answer.where}`);
  if (!options?.frictionless) {
    const check = checkBalance(network, answer);
    expect(check.residualN).toBeLessThan(1e-8 * check.largestN);
    expect(check.tensionErrorN).toBeLessThan(1e-7 * check.largestN);
  }
  return answer;
}

function failing(network: Network, options?: SolveNetworkOptions) {
  const answer = solveNetwork(network, options);
  if (answer.ok) throw new Error("answered");
  expect(answer.replay).toBe(network);
  return answer;
}

function expectAll(actual: readonly (number | undefined)[], expected: readonly number[], digits: number): void {
  expect(actual.length).toBe(expected.length);
  for (const [i, value] of expected.entries()) expect(actual[i]).toBeCloseTo(value, digits);
}

const free = (position: Triple, massKg: number, forceN: Triple = [0, 0, 0]) => ({
  position,
  free: true,
  massKg,
  forceN,
});
const fixed = (position: Triple) => ({ position });
const spring = (through: string[], lengthM: number, axialStiffnessN: number): NetworkLine => ({
  through,
  lengthM,
  axialStiffnessN,
});

describe("a load on several springs", () => {
  // Own solver of the reference (other code, other language), cases A to E; positions to 1e-7 m, tensions to 1e-6 N.
  const two: Triple[] = [
    [0, 0.3, 25],
    [0, -0.3, 25],
  ];
  const three: Triple[] = [...two, [20, 3, 1]];
  it.each([
    {
      id: "A",
      anchors: two,
      lengths: [15, 15],
      stiff: [6e4, 6e4],
      force: [0, 0, 0],
      place: [0, 0, 9.7577383],
      tensions: [980.854929, 980.854929],
    },
    {
      id: "B",
      anchors: two,
      lengths: [15, 15.05],
      stiff: [6e4, 6e4],
      force: [0, 0, 0],
      place: [0, 0.03031802, 9.73239672],
      tensions: [1079.939509, 881.765222],
    },
    {
      id: "C",
      anchors: two,
      lengths: [15, 15],
      stiff: [6e4, 6e4],
      force: [375.877048, 0, -136.808057],
      place: [2.69158172, 0, 9.97564546],
      tensions: [1065.976317, 1065.976317],
    },
    {
      id: "D",
      anchors: three,
      lengths: [15, 15, 20],
      stiff: [6e4, 6e4, 3e4],
      force: [0, 0, 0],
      place: [2.04281366, 0.30052757, 9.87805999],
      tensions: [1037.189651, 1084.438688, 319.584332],
    },
    {
      id: "E",
      anchors: [...three, [-4, -15, 0.5] as Triple],
      lengths: [15, 15, 20, 18.5],
      stiff: [6e4, 6e4, 3e4, 3e4],
      force: [60, 20, 0],
      place: [2.12153847, -0.1813992, 9.87896196],
      tensions: [1106.917707, 1078.412938, 320.660768, 121.554637],
    },
  ])("settles as in case $id", ({ anchors, lengths, stiff, force, place, tensions }) => {
    const names = anchors.map((_, i) => `a${i}`);
    const answer = solved({
      nodes: {
        load: free([3, 4, 2], 200, force as unknown as Triple),
        ...Object.fromEntries(names.map((name, i) => [name, fixed(anchors[i]!)])),
      },
      lines: Object.fromEntries(names.map((name, i) => [name, spring(["load", name], lengths[i]!, stiff[i]!)])),
    });
    expectAll(answer.nodes.load!.position, place, 6);
    expectAll(
      names.map((name) => answer.lines[name]!.tensionsN[0]),
      tensions,
      5,
    );
  });
});

describe("a load on ropes in given directions", () => {
  /** Ropes so stiff that the load stays where it is put; tensions good to a millionth. */
  const hung = (massKg: number, gravityMS2: number, forceN: Triple, ways: readonly Triple[]): readonly number[] => {
    const names = ways.map((_, i) => `a${i}`);
    const answer = solved({
      gravityMS2,
      nodes: {
        load: free([0, 0, 0], massKg, forceN),
        ...Object.fromEntries(names.map((name, i) => [name, fixed(ways[i]!)])),
      },
      lines: Object.fromEntries(names.map((name, i) => [name, spring(["load", name], Math.hypot(...ways[i]!), 1e9)])),
    });
    return names.map((name) => answer.lines[name]!.tensionsN[0]!);
  };
  const toward = (fromLevelDeg: number, sense: 1 | -1): Triple => [
    sense * 10 * Math.cos((fromLevelDeg * Math.PI) / 180),
    0,
    10 * Math.sin((fromLevelDeg * Math.PI) / 180),
  ];

  it("carries a person between two ropes", () => {
    // OpenStax College Physics 2e, section 4.7: 76.0 kg, ropes at 15° from the vertical and 10° above level; prints 736 N and 194 N.
    const [steep, flat] = hung(76, 9.8, [0, 0, 0], [toward(75, -1), toward(10, 1)]);
    expect(steep).toBeCloseTo(736.2866, 2);
    expect(flat).toBeCloseTo(193.5048, 2);
  });

  it("carries a traffic light", () => {
    // OpenStax University Physics volume 1, section 6.1: 15.0 kg, 30° and 45° above level; prints 108 N and 132 N.
    const [flat, steep] = hung(15, 9.8, [0, 0, 0], [toward(30, -1), toward(45, 1)]);
    expect(flat).toBeCloseTo(107.6115, 2);
    expect(steep).toBeCloseTo(131.7966, 2);
  });

  it("carries loads in space", () => {
    // Hibbeler, Statics, 14th edition, F3-11 (inputs printed; answers worked out in the reference): pounds taken as newtons.
    const a = hung(
      0,
      9.81,
      [0, 0, -150],
      [
        [-6, 3, 2],
        [-6, -2, 3],
        [10, 0, 0],
      ],
    );
    expectAll(a, [161.538462, 242.307692, 346.153846], 2);
    // Same, R3-7; prints 198, 198, 625.
    const b = hung(
      0,
      9.81,
      [0, 0, -500],
      [
        [2, -6, 0],
        [-2, -6, 0],
        [0, 6, 8],
      ],
    );
    expectAll(b, [197.642354, 197.642354, 625], 2);
  });
});

describe("a main line over three sheaves", () => {
  // Reference case PATH: 980.665 N at the load, unstretched 15, 28, 5 and 3 m, 0.9 at each sheave, EA 60 kN. Every wrap is 180° here.
  const [load, first, second, third] = [980.665, 28, 5, 3];
  const path = (tensions: readonly number[], travel: "toEnd" | "toStart" | "none"): Network => {
    const longer = (lengthM: number, i: number) => lengthM * (1 + tensions[i]! / 60000);
    const tip = 40;
    const base = tip - longer(first, 1);
    const redirect = base + longer(second, 2);
    const device = redirect - longer(third, 3);
    return {
      nodes: {
        load: free([1, 2, 20], 100),
        tip: fixed([0, 0, tip]),
        base: fixed([0, 0, base]),
        redirect: fixed([0, 0, redirect]),
        device: fixed([0, 0, device]),
      },
      lines: {
        main: {
          ...spring(["load", "tip", "base", "redirect", "device"], 51, 60000),
          efficiency: [0.9, 0.9, 0.9],
          travel,
        },
      },
    };
  };
  it.each([
    // Lowered, rope runs from the brake to the load: it comes off each sheave lighter on the brake's side.
    {
      what: "lowered",
      travel: "toStart" as const,
      tensions: [load, 882.5985, 794.33865, 714.904785],
      stretch: 0.758986,
    },
    {
      what: "raised",
      travel: "toEnd" as const,
      tensions: [load, 1089.627778, 1210.697531, 1345.219479],
      stretch: 0.921812,
    },
    { what: "without loss", travel: "none" as const, tensions: [load, load, load, load], stretch: 0.833565 },
  ])("stretches as the reference says when $what", ({ travel, tensions, stretch }) => {
    const { lines } = solved(path(tensions, travel));
    expectAll(lines.main!.tensionsN, tensions, 5);
    expect(lines.main!.segmentsM.reduce((a, b) => a + b) - 51).toBeCloseTo(stretch, 6);
    expect(lines.main!.unstretchedM).toBe(51);
  });

  it("loses by the wrap there is", () => {
    const { tensionsN } = solved({
      nodes: { load: free([1, 2, 20], 100), tip: fixed([0, 0, 40]), side: fixed([28, 0, 40]) },
      lines: { main: { ...spring(["load", "tip", "side"], 50, 60000), efficiency: [0.9], travel: "toEnd" } },
    }).lines.main!;
    expect(tensionsN[0]! / tensionsN[1]!).toBeCloseTo(sheaveRatio(0.9, Math.PI / 2), 9);
  });
});

describe("sheaves that move", () => {
  it("share the load of a free pulley evenly without loss, and by the wrap with it", () => {
    const network = (travel: "toEnd" | "none"): Network => ({
      nodes: { load: free([3, -4, 2], 100), top: fixed([0, 0, 20]), hand: fixed([6, 0, 0]) },
      lines: { tackle: { through: ["top", "load", "top", "hand"], tensionN: 500, efficiency: [0.9, 1], travel } },
    });
    // One fall at 500 N and one at 500 N or 500/0.9 N: more than 980.665 N, so the load goes up until it meets the top block.
    expect(failing(network("none"))).toMatchObject({ code: "two-blocked", where: "load" });
    const lowered = { ...network("none"), lines: { tackle: { ...spring(["top", "load", "top", "hand"], 45, 5e4) } } };
    expect(solved(lowered).lines.tackle!.tensionsN).toEqual(expect.arrayContaining([expect.closeTo(490.3325, 6)]));
    const raised: Network = {
      ...lowered,
      lines: { tackle: { ...lowered.lines.tackle!, efficiency: [0.9, 1], travel: "toEnd" } },
    };
    const [standing, running] = solved(raised).lines.tackle!.tensionsN;
    expect(standing).toBeCloseTo(980.665 / (1 + 1 / 0.9), 6);
    expect(running).toBeCloseTo(980.665 / 1.9, 6);
    expect(solved(raised, { frictionless: true }).lines.tackle!.tensionsN[0]).toBeCloseTo(490.3325, 6);
  });

  it("come to rest at the lowest point of a rope between two anchors, where both sides lean alike", () => {
    const answer = solved({
      nodes: { pulley: free([-30, 4, 50], 80), a: fixed([-5, 0, 12]), b: fixed([7, 0, 10]) },
      lines: { track: spring(["a", "pulley", "b"], 14, 1e9) },
    });
    const [x, , z] = answer.nodes.pulley!.position;
    // Inextensible: the pulley rides an ellipse, and its slopes to both sides are equal; half the rope's length is the sine's hypotenuse.
    expect((12 - z) / (x + 5)).toBeCloseTo((10 - z) / (7 - x), 4);
    expect(Math.hypot(x + 5, 12 - z) + Math.hypot(7 - x, 10 - z)).toBeCloseTo(14, 4);
    expect(answer.lines.track!.tensionsN[0]).toBeCloseTo((80 * 9.80665) / (2 * Math.sqrt(1 - (12 / 14) ** 2)), 1);
  });

  it("balance anywhere along a straight rope, and change nothing there", () => {
    const lines = { rope: spring(["load", "knot", "tip"], 6, 5e4) };
    const answer = solved({
      nodes: { load: free([1, 1, 0], 100), knot: free([9, -7, 3], 0), tip: fixed([0, 0, 10]) },
      lines,
    });
    expect(answer.nodes.load!.position[2]).toBeCloseTo(10 - 6 * (1 + 980.665 / 5e4), 8);
    expect(answer.lines.rope!.tensionsN[1]).toBeCloseTo(980.665, 6);
  });
});

describe("the example in the docstring", () => {
  it("holds", () => {
    const answer = solved({
      nodes: { load: { position: [0, 0, 5], free: true, massKg: 100 }, anchor: { position: [0, 0, 10] } },
      lines: { rope: { through: ["load", "anchor"], lengthM: 4, axialStiffnessN: 50_000 } },
    });
    expect(answer.lines.rope!.tensionsN[0]).toBeCloseTo(980.665, 6);
  });
});

describe("slack and rope weight", () => {
  it("leaves no tension at all in a slack line", () => {
    const { lines } = solved({
      nodes: { load: free([0, 0, 0], 100), tip: fixed([0, 0, 10]), side: fixed([5, 0, 5]), hand: fixed([9, 0, 0]) },
      lines: {
        main: spring(["load", "tip"], 6, 5e4),
        belay: { ...spring(["load", "side", "hand"], 30, 1e8), efficiency: [0.9], travel: "toEnd" },
      },
    });
    expect(lines.belay).toMatchObject({ slack: true, tensionsN: [0, 0], unstretchedM: 30 });
    expect(lines.main!.slack).toBe(false);
  });

  it("hangs half of each segment's rope on each of its ends", () => {
    const answer = solved({
      nodes: { load: free([0, 0, 0], 100), tip: fixed([0, 0, 10]), side: fixed([4, 0, 4]) },
      lines: {
        main: { ...spring(["load", "tip"], 6, 5e4), linearMassKgM: 0.1 },
        slack: { ...spring(["load", "side"], 20, 5e4), linearMassKgM: 0.2 },
      },
    });
    const half = (0.1 * 6 + 0.2 * 20) * 0.5 * 9.80665;
    expect(answer.lines.main!.tensionsN[0]).toBeCloseTo(980.665 + half, 6);
    expect(answer.forcesOnFixedN.tip![2]).toBeCloseTo(-(980.665 + half + 0.05 * 6 * 9.80665), 6);
    expect(answer.forcesOnFixedN.side![2]).toBeCloseTo(-0.1 * 20 * 9.80665, 9);
  });

  // Reference cases K1 to K3: elastic catenaries of 0.75 N/m (own solver of the reference). Lumped weight gives each rope one
  // tension, midway between those at its ends, and puts the load within millimetres of where sagging ropes do.
  const two: Triple[] = [
    [0, 0.3, 25],
    [0, -0.3, 25],
  ];
  it.each([
    {
      id: "K1",
      anchors: [
        [0, 0, 20],
        [12, 0, 18],
      ],
      lengths: [14, 9],
      stiff: [6e4, 6e4],
      place: [9.18339146, 0, 9.21505757],
      low: [703.753788, 1499.635671],
      high: [711.748194, 1506.06338],
    },
    {
      id: "K2",
      anchors: [...two, [20, 3, 1]],
      lengths: [15, 15, 20],
      stiff: [6e4, 6e4, 3e4],
      place: [2.04110612, 0.30033168, 9.87529693],
      low: [1041.659552, 1088.874328, 325.628079],
      high: [1052.808487, 1100.014648, 319.042366],
    },
    {
      id: "K3",
      anchors: [...two, [20, 3, 1]],
      lengths: [15, 15, 20.5],
      stiff: [6e4, 6e4, 3e4],
      place: [1.52789767, 0.22458557, 9.81987213],
      low: [1022.457853, 1057.779374, 237.546117],
      high: [1033.65116, 1068.966207, 230.982467],
    },
  ])(
    "comes near the catenary where ropes are taut, as in case $id",
    ({ anchors, lengths, stiff, place, low, high }) => {
      const names = anchors.map((_, i) => `a${i}`);
      const answer = solved({
        nodes: {
          load: free([1, 1, 1], 200),
          ...Object.fromEntries(names.map((name, i) => [name, fixed(anchors[i] as unknown as Triple)])),
        },
        lines: Object.fromEntries(
          names.map((name, i) => [
            name,
            { ...spring(["load", name], lengths[i]!, stiff[i]!), linearMassKgM: 0.75 / 9.80665 },
          ]),
        ),
      });
      for (const [i, name] of names.entries()) {
        expect(Math.abs(answer.lines[name]!.tensionsN[0]! - (low[i]! + high[i]!) / 2)).toBeLessThan(1);
      }
      expect(Math.hypot(...place.map((c, i) => c - answer.nodes.load!.position[i]!))).toBeLessThan(0.004);
    },
  );

  it("tells the unstretched length of a line held by tension only where its stiffness is given", () => {
    const network = (stiff: object): Network => ({
      nodes: { load: free([0, 0, 0], 100), tip: fixed([0, 0, 10]), hand: fixed([0, 0, 0]) },
      lines: {
        hold: spring(["load", "tip"], 6, 5e4),
        pull: { through: ["load", "tip", "hand"], tensionN: 100, ...stiff },
      },
    });
    expect(solved(network({})).lines.pull!.unstretchedM).toBeNull();
    const { segmentsM, unstretchedM } = solved(network({ axialStiffnessN: 1e4 })).lines.pull!;
    expect(unstretchedM).toBeCloseTo((segmentsM[0]! + segmentsM[1]!) / 1.01, 9);
  });
});

describe("networks without an answer", () => {
  const under = (lines: Network["lines"], load = free([3, 1, 2], 100)): Network => ({
    nodes: { load, tip: fixed([0, 0, 10]), left: fixed([-5, 0, 10]), right: fixed([5, 0, 10]), hand: fixed([5, 0, 0]) },
    lines,
  });

  it("say that nothing holds a load with no rope, with too little tension, or pulled up by a force", () => {
    expect(failing(under({}))).toMatchObject({ code: "nothing-holds", where: "load" });
    const weight = 980.665;
    const pair = (tensionN: number) =>
      under({ l: { through: ["load", "left"], tensionN }, r: { through: ["load", "right"], tensionN } });
    expect(failing(pair(0.4999 * weight))).toMatchObject({ code: "nothing-holds", where: "load" });
    expect(solved(pair(0.5001 * weight)).nodes.load!.position[2]).toBeCloseTo(
      10 - 5 / Math.tan(Math.acos(1 / 1.0002)),
      3,
    );
    expect(
      failing(under({ r: { through: ["load", "tip"], tensionN: 50 } }, free([0, 0, 0], 1, [0, 0, 100]))),
    ).toMatchObject({ code: "nothing-holds" });
  });

  it("let sheave loss hold a load, or let it go", () => {
    const pair = (tensionN: number, travel: "toEnd" | "toStart") => {
      const line = (side: string) => ({ through: ["hand", side, "load"], tensionN, travel, efficiency: [0.8] });
      return under({ l: line("left"), r: line("right") });
    };
    expect(solved(pair(450, "toEnd")).lines.l!.tensionsN[1]).toBeGreaterThan(490);
    expect(failing(pair(450, "toEnd"), { frictionless: true }).code).toBe("nothing-holds");
    expect(failing(pair(540, "toStart")).code).toBe("nothing-holds");
    expect(solved(pair(540, "toStart"), { frictionless: true }).ok).toBe(true);
  });

  it("name a node that nothing places", () => {
    const loose = under({ main: spring(["load", "tip"], 5, 5e4) });
    expect(failing({ ...loose, nodes: { ...loose.nodes, end: free([6, 0, 0], 0) } })).toMatchObject({
      code: "mechanism",
      where: "end",
    });
    // Two nodes pulled apart by equal forces, and tied to nothing else.
    const pair: Network = {
      nodes: { a: free([0, 0, 0], 0, [100, 0, 0]), b: free([2, 1, 0], 0, [-100, 0, 0]), far: fixed([9, 9, 9]) },
      lines: { tie: spring(["a", "b"], 5, 5e4) },
    };
    expect(failing(pair).code).toBe("mechanism");
  });

  it("name a load that is drawn onto its tip", () => {
    const drawn = failing(under({ main: { through: ["load", "tip", "hand"], tensionN: 990 } }));
    expect(drawn).toMatchObject({ code: "two-blocked", where: "load" });
    expect(drawn.hint).toContain("tip");
    const short = under({
      main: { ...spring(["load", "tip", "hand"], 10.9, 5e4), efficiency: [0.9], travel: "toEnd" },
    });
    expect(failing(short)).toMatchObject({ code: "two-blocked", where: "load" });
  });

  it("give no number that is none, however large or small what is put in", () => {
    for (const scale of [1e-300, 1e-30, 1e-6, 1e6, 1e30, 1e160, 1e300]) {
      for (const which of ["position", "massKg", "axialStiffnessN", "lengthM"]) {
        const s = (name: string) => (name === which ? scale : 1);
        const network: Network = {
          nodes: {
            load: free([3 * s("position"), s("position"), 2], 100 * s("massKg")),
            tip: fixed([0, 0, 10 * s("position")]),
            hand: fixed([5, 0, 0]),
          },
          lines: {
            main: {
              ...spring(["load", "tip", "hand"], 15 * s("lengthM"), 5e4 * s("axialStiffnessN")),
              efficiency: [0.9],
              travel: "toEnd",
              linearMassKgM: 0.1,
            },
          },
        };
        expect(
          JSON.stringify(solveNetwork(network), (_, v) => (typeof v === "number" && !Number.isFinite(v) ? "bad" : v)),
        ).not.toContain('"bad"');
      }
    }
  });

  it("throw on a name that is none, which is a bug of the caller", () => {
    expect(() => solveNetwork(under({ main: spring(["load", "top"], 5, 5e4) }))).toThrow(RangeError);
  });
});

describe("a network compiled once", () => {
  it("gives the same answers as one that is not, whatever was solved before", () => {
    const network: Network = {
      nodes: {
        load: free([0, 0, 0], 186),
        tip: fixed([8.5, 0.2, 26.2]),
        base: fixed([0, 0, 2.4]),
        tag: fixed([25, 3, 1]),
      },
      lines: {
        main: { ...spring(["load", "tip", "base"], 46, 64000), efficiency: [0.93], travel: "toEnd" },
        tag: { through: ["load", "tag"], tensionN: 350 },
      },
    };
    const compiled = compileNetwork(network);
    for (const load of [
      [8, 0, 7],
      [1e5, 0, 0],
      [8.5, 0.2, 26.2],
      [8, 0, 7],
    ] as Triple[]) {
      expect(solveCompiled(compiled, { load })).toEqual(solveNetwork(network, { start: { load } }));
    }
  });
});

describe("the start", () => {
  it("may be anywhere, at an anchor or far off, and does not change the answer", () => {
    const network: Network = {
      nodes: {
        load: free([0, 0, 0], 186),
        tip: fixed([8.5, 0.2, 26.2]),
        base: fixed([0, 0, 2.4]),
        tag: fixed([25, 3, 1]),
      },
      lines: {
        main: { ...spring(["load", "tip", "base"], 52.6, 64000), efficiency: [0.93], travel: "toEnd" },
        tag: { through: ["load", "tag"], tensionN: 350 },
      },
    };
    const { position } = solved(network).nodes.load!;
    const starts: Triple[] = [[8.5, 0.2, 26.2], [25, 3, 1], [1e4, -1e4, 1e4], [8.5, 0.2, -500], position];
    for (const start of starts) {
      const again = solved(network, { start: { load: start } });
      expectAll(again.nodes.load!.position, position, 7);
    }
    expect(solved(network, { start: { load: position } }).iterations).toBeLessThanOrEqual(1);
  });
});
