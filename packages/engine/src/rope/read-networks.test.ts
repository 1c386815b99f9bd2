import { describe, expect, it } from "vitest";
import { readNetworks } from "./read-networks.ts";

/** The example of the interface: a load on a main line over the tip, and a tagline. */
const example = () => ({
  nodes: {
    load: { position: [8.6, 0.4, 7], free: true, massKg: 186, forceN: [0, 0, 0] },
    tip: { position: [8.5, 0.2, 26.2] },
    base: { position: [0, 0, 2.4] },
    tag: { position: [25, 3, 1] },
  } as Record<string, unknown>,
  lines: {
    M: { through: ["load", "tip", "base"], lengthM: 52.6, axialStiffnessN: 64000, efficiency: [0.93], travel: "toEnd" },
    T: { through: ["load", "tag"], tensionN: 350 },
  } as Record<string, unknown>,
});

describe("readNetworks", () => {
  it("takes one network, or a list of them", () => {
    const one = readNetworks(example());
    expect(one).toEqual({ ok: true, many: false, networks: [example()] });
    const list = readNetworks([example(), example()]);
    expect(list).toEqual({ ok: true, many: true, networks: [example(), example()] });
    expect(readNetworks([])).toEqual({ ok: true, many: true, networks: [] });
  });

  it("takes what may be there and what may be left out", () => {
    const network = { ...example(), gravityMS2: 9.81 };
    network.lines = {
      M: {
        through: ["load", "tip", "base"],
        lengthM: 52.6,
        axialStiffnessN: 64000,
        linearMassKgM: 0.08,
        travel: "none",
      },
      T: { through: ["load", "tag"], tensionN: 0, axialStiffnessN: 3e4, efficiency: [] },
      S: { through: ["load", "tag"], tensionN: 200, linearMassKgM: 0.08, sag: true },
      N: { through: ["load", "tip", "base"], tensionN: 200, sag: false },
    };
    expect(readNetworks(network).ok).toBe(true);
    expect(readNetworks(JSON.parse('{"nodes":{"constructor":{"position":[0,0,0]}},"lines":{}}')).ok).toBe(true);
  });

  const line = (changes: Record<string, unknown>) => {
    const network = example();
    network.lines = { M: { ...(example().lines.M as object), ...changes } };
    return network;
  };
  const node = (changes: Record<string, unknown>) => {
    const network = example();
    network.nodes.load = { ...(network.nodes.load as object), ...changes };
    return network;
  };

  it.each([
    ["no object", 7, "(whole input)"],
    ["no network in a list", [example(), null], "[1]"],
    ["no nodes", { lines: {} }, "nodes"],
    ["a list for lines", { nodes: {}, lines: [] }, "lines"],
    ["an unknown field", { ...example(), note: "" }, "note"],
    ["a gravity below zero", { ...example(), gravityMS2: -1 }, "gravityMS2"],
    ["a node that is no object", { nodes: { a: 1 }, lines: {} }, "nodes.a"],
    [
      "a node named __proto__",
      JSON.parse('{"nodes":{"__proto__":{"position":[0,0,0]}},"lines":{}}'),
      "nodes.__proto__",
    ],
    ["an unknown field of a node", node({ mass: 80 }), "nodes.load.mass"],
    ["no position", { nodes: { a: {} }, lines: {} }, "nodes.a.position"],
    ["a position of two", node({ position: [1, 2] }), "nodes.load.position"],
    ["a position with no number", node({ position: [1, "2", 3] }), "nodes.load.position[1]"],
    ["a position without end", node({ position: [1, 2, Infinity] }), "nodes.load.position[2]"],
    ["a mass below zero", node({ massKg: -1 }), "nodes.load.massKg"],
    ["a mass that is text", node({ massKg: "80" }), "nodes.load.massKg"],
    ["free neither true nor false", node({ free: 1 }), "nodes.load.free"],
    ["a force that is none", node({ forceN: [0, 0, null] }), "nodes.load.forceN[2]"],
    ["an unknown field of a line", line({ length: 3 }), "lines.M.length"],
    ["a line that is no object", { nodes: {}, lines: { M: [] } }, "lines.M"],
    ["no way", line({ through: undefined }), "lines.M.through"],
    ["one node only", line({ through: ["load"], efficiency: [] }), "lines.M.through"],
    ["an unknown node", line({ through: ["load", "tap", "base"] }), "lines.M.through[1]"],
    ["a node from the language", line({ through: ["load", "constructor", "base"] }), "lines.M.through[1]"],
    ["the same node twice in a row", line({ through: ["load", "tip", "tip"] }), "lines.M.through[2]"],
    ["a length of zero", line({ lengthM: 0 }), "lines.M.lengthM"],
    ["a stiffness of zero", line({ axialStiffnessN: 0 }), "lines.M.axialStiffnessN"],
    ["a length with no stiffness", line({ axialStiffnessN: undefined }), "lines.M.axialStiffnessN"],
    ["length and tension", line({ tensionN: 5 }), "lines.M"],
    ["neither length nor tension", line({ lengthM: undefined }), "lines.M"],
    ["a tension below zero", line({ lengthM: undefined, tensionN: -1 }), "lines.M.tensionN"],
    ["a rope mass below zero", line({ linearMassKgM: -0.1 }), "lines.M.linearMassKgM"],
    ["an unknown travel", line({ travel: "up" }), "lines.M.travel"],
    ["one efficiency for all", line({ efficiency: 0.9 }), "lines.M.efficiency"],
    ["too many efficiencies", line({ efficiency: [0.9, 0.9] }), "lines.M.efficiency"],
    ["an efficiency of zero", line({ efficiency: [0] }), "lines.M.efficiency[0]"],
    ["sag that is a number", line({ sag: 1 }), "lines.M.sag"],
    ["sag over a sheave", line({ sag: true, linearMassKgM: 0.08 }), "lines.M.sag"],
    ["sag with no rope mass", line({ sag: true, through: ["load", "tip"], efficiency: [] }), "lines.M.linearMassKgM"],
    [
      "sag with a rope mass of zero",
      line({ sag: true, through: ["load", "tip"], efficiency: [], linearMassKgM: 0 }),
      "lines.M.linearMassKgM",
    ],
    ["an efficiency above one", line({ efficiency: [1.01] }), "lines.M.efficiency[0]"],
  ])("refuses %s, naming the field", (_, json, path) => {
    const read = readNetworks(json);
    if (read.ok) throw new Error("taken");
    expect(read.problems.map((problem) => problem.path)).toEqual([path]);
    expect(read.problems[0]!.expected).not.toBe("");
    expect(read.problems[0]!.got).not.toBe("");
  });

  it("reports all problems at once, with their places in a list", () => {
    const read = readNetworks([example(), node({ massKg: -1, position: [0, 0, Number.NaN] })]);
    if (read.ok) throw new Error("taken");
    expect(read.problems.map((problem) => problem.path)).toEqual([
      "[1].nodes.load.position[2]",
      "[1].nodes.load.massKg",
    ]);
    expect(read.problems[1]).toEqual({
      path: "[1].nodes.load.massKg",
      got: "-1",
      expected: "a number, 0 or more",
      unit: "kg",
    });
  });
});
