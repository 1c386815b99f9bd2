import { describe, expect, it } from "vitest";
import type { Triple } from "../base/vector.ts";
import type { Network, NetworkNode } from "../rope/network.ts";
import { solveNetwork } from "./solve-network.ts";
import { checkBalance } from "./testing/check-balance.ts";
import { randomNetwork } from "./testing/random-network.ts";

// Networks that once came to no answer, to a wrong one, or to one that hung on where the search began.

const free = (position: Triple, massKg = 0, forceN: Triple = [0, 0, 0]): NetworkNode => ({
  position,
  free: true,
  massKg,
  forceN,
});
const kindOf = (network: Network, start: Readonly<Record<string, Triple>> = {}): string => {
  const solution = solveNetwork(network, { start });
  if (!solution.ok) return `${solution.code} at ${solution.where}`;
  const { residualN, tensionErrorN, largestN } = checkBalance(network, solution);
  expect(Math.max(residualN, tensionErrorN)).toBeLessThan(1e-8 * largestN);
  return "answer";
};
const everyStart = (network: Network, at: Triple): Record<string, Triple> =>
  Object.fromEntries(Object.keys(network.nodes).map((name) => [name, at]));

describe("a line whose tension is no more than rounding", () => {
  // k hangs from nothing: p and q together are far longer than the way from the load to a.
  const idle = (k: Triple): Network => ({
    nodes: { a: { position: [0, 0, 20] }, load: free([0, 0, 5], 80), k: free(k) },
    lines: {
      main: { through: ["load", "a"], lengthM: 10, axialStiffnessN: 50_000 },
      p: { through: ["load", "k"], lengthM: 12, axialStiffnessN: 50_000 },
      q: { through: ["k", "a"], lengthM: 12, axialStiffnessN: 50_000 },
    },
  });
  it.each<Triple>([
    [1, 0, 12],
    [-20.7, 25.9, 21.8],
    [20, -20, 30],
    [0, 0, 5],
  ])("ties no node of no mass, begun at %f, %f, %f", (...k) => {
    expect(kindOf(idle(k))).toBe("mechanism at k");
    expect(kindOf(idle([1, 0, 12]), { k })).toBe("mechanism at k");
  });
});

describe("a start far off", () => {
  it("does not make a link of 5 cm too short to be seen", () => {
    const network = (k: Triple, load: Triple): Network => ({
      nodes: { a: { position: [0, 0, 20] }, b: { position: [8, 0, 20] }, k: free(k), load: free(load, 80) },
      lines: {
        p: { through: ["k", "a"], lengthM: 10, axialStiffnessN: 50_000 },
        q: { through: ["k", "b"], lengthM: 11, axialStiffnessN: 50_000 },
        link: { through: ["load", "k"], lengthM: 0.05, axialStiffnessN: 50_000 },
      },
    });
    for (const far of [1e3, 1e5, 1e6, 1e8]) {
      for (let i = 0; i < 20; i++) {
        const at = (phase: number) => [0, 1, 2].map((c) => far * Math.sin(phase + 5 * i + 2 * c)) as unknown as Triple;
        expect(kindOf(network(at(1), at(2)))).toBe("answer");
      }
    }
  });

  const crowd: Network = {
    nodes: {
      a: { position: [12, 12, 14] },
      b: { position: [0.8, -0.2, 26.1] },
      c: { position: [4, -2, 28] },
      d: { position: [-1, 15, 0] },
      n0: free([1e5, -1e5, 1e5], 285, [54, -171, -351]),
      n1: free([1e5, -1e5, 1e5], 51),
      n2: free([1e5, -1e5, 1e5], 150),
      n3: free([1e5, -1e5, 1e5], 287),
      n4: free([1e5, -1e5, 1e5], 264, [-282, 325, -203]),
    },
    lines: {
      l0: { through: ["a", "n1", "n4"], tensionN: 677 },
      l1: { through: ["d", "n4", "b", "n0"], tensionN: 372 },
      l2: { through: ["n0", "n4", "b", "n1", "b"], tensionN: 661 },
      l3: { through: ["d", "n0", "c"], lengthM: 28.7, axialStiffnessN: 21_538 },
      h0: { through: ["n0", "b"], lengthM: 18.44, axialStiffnessN: 8_509 },
      h2: { through: ["n2", "b"], lengthM: 17, axialStiffnessN: 320_788 },
      h3: { through: ["a", "n3"], lengthM: 17, axialStiffnessN: 11_238 },
      h4: { through: ["b", "n4"], lengthM: 21.56, axialStiffnessN: 319_124 },
    },
  };
  it("does not draw together what has room", () => {
    expect(kindOf(crowd)).toBe("answer");
    expect(kindOf(crowd, everyStart(crowd, [0, 0, 5]))).toBe("answer");
  });

  it("does not hide that nothing holds", () => {
    const network: Network = {
      nodes: {
        a: { position: [-11, 14, 18] },
        n0: free([1e5, -1e5, 1e5], 112),
        n1: free([1e5, -1e5, 1e5], 273),
        n2: free([1e5, -1e5, 1e5], 165, [120, 264, -500]),
        n3: free([1e5, -1e5, 1e5], 210),
      },
      lines: { l: { through: ["n3", "n0", "a"], lengthM: 57, axialStiffnessN: 68_851 } },
    };
    // Nothing is tied to n1 and n2; the one with more force goes farther.
    expect(kindOf(network)).toMatch(/^nothing-holds at n[12]$/);
    expect(kindOf(network, everyStart(network, [0, 0, 5]))).toMatch(/^nothing-holds at n[12]$/);
  });
});

describe("a start with nodes in one place", () => {
  it("does not hide that nothing holds", () => {
    const at: Triple = [0, 0, 5];
    const network: Network = {
      nodes: {
        a: { position: [-14.4, -12.3, 2.5] },
        b: { position: [-10, 1, 1] },
        n0: free(at, 83),
        n1: free(at, 164),
        n2: free(at, 281),
        n3: free(at, 83, [-96, 167, 490]),
        n4: free(at, 20, [-21, -292, -301]),
      },
      lines: {
        l0: { through: ["n2", "b"], tensionN: 135 },
        l1: { through: ["n2", "n3"], tensionN: 769 },
        l2: { through: ["n4", "a", "n4"], lengthM: 40.1, axialStiffnessN: 64_402 },
        l3: { through: ["n0", "b"], lengthM: 16.6, axialStiffnessN: 25_769 },
        l4: { through: ["n1", "a", "n3", "n4"], lengthM: 59.4, axialStiffnessN: 163_766 },
      },
    };
    expect(kindOf(network)).toMatch(/^nothing-holds/);
    expect(kindOf(network, { n0: [1, 2, 3], n1: [9, -4, 2], n2: [-30, 0, 8] })).toMatch(/^nothing-holds/);
  });

  it("does not take for balance that a rope pulls in no direction there", () => {
    // A knot of no mass on a rope held at 100 N: drawn onto its anchor, wherever it begins, and there too.
    const network: Network = {
      nodes: { a: { position: [0, 0, 10] }, load: free([3, 1, 2]) },
      lines: { rope: { through: ["load", "a"], tensionN: 100 } },
    };
    for (const load of [[3, 1, 2] as const, [0, 0, 10] as const])
      expect(kindOf(network, { load })).toBe("two-blocked at load");
  });
});

it("nothing loaded and ropes long enough leave the nodes loose, and are not left without a reason", () => {
  const network: Network = {
    nodes: {
      a: { position: [5.6, 2.4, 28.3] },
      b: { position: [-4.9, -5.1, 22.6] },
      c: { position: [8.68, -12, 10.44] },
      n0: free([6, -2, 6]),
      n1: free([-8, 10, 29]),
    },
    lines: {
      l0: { through: ["c", "a", "b", "n1"], lengthM: 48.29, axialStiffnessN: 17_789 },
      l1: { through: ["n1", "c", "b", "c", "n1"], lengthM: 92, axialStiffnessN: 210_014 },
      l2: { through: ["n1", "b"], lengthM: 11.31, axialStiffnessN: 162_865 },
      l3: { through: ["n1", "a", "b", "c", "b"], lengthM: 56.35, axialStiffnessN: 8_988 },
    },
  };
  expect(kindOf(network)).toBe("mechanism at n0");
});

it("two nodes drawn together keep their reason a hundred metres off, where places are rounded more coarsely", () => {
  const network = randomNetwork(1790, { friction: 1, ropeWeight: 0, hungByTension: 0.8, maxFree: 3, massless: 0.2 });
  const nodes = Object.entries(network.nodes).map(([name, node]) => {
    const [x, y, z] = node.position;
    return [name, { ...node, position: [x + 40, y - 30, z + 100] as Triple }] as const;
  });
  expect(kindOf(network)).toBe("two-blocked at n0");
  expect(kindOf({ ...network, nodes: Object.fromEntries(nodes) })).toBe("two-blocked at n0");
});
