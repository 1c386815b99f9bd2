import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Triple } from "../base/vector.ts";
import type { Network, NetworkLine, NetworkNode, NetworkSolution } from "../rope/network.ts";
import { solveNetwork } from "./solve-network.ts";
import { idleNode } from "./testing/idle-node.ts";
import { type RandomNetworkOptions, randomNetwork } from "./testing/random-network.ts";

/**
 * Without sheave loss the energy is convex: its least value, whether it has one, and the tensions there are a matter of the network
 * alone (Rockafellar, Convex Analysis, 1970, section 27; from memory). So no change that leaves the network what it is may change the kind of answer.
 */
const FRICTIONLESS: RandomNetworkOptions = { friction: 0, ropeWeight: 0 };
const KINDS: readonly RandomNetworkOptions[] = [
  FRICTIONLESS,
  { ...FRICTIONLESS, massless: 0.4, stiffnessN: [1e3, 1e6], shortest: 0.8 },
  { ...FRICTIONLESS, massless: 0.2, stiffnessN: [1e7, 1e8] },
  { ...FRICTIONLESS, massless: 0.2, hungByTension: 0.8, maxFree: 3 },
  {
    ...FRICTIONLESS,
    massless: 0.15,
    stiffnessN: [1e3, 1e6],
    shortest: 0.7,
    hungByTension: 0.6,
    byTension: 0.5,
    tangled: 0.6,
    highestTensionN: 900,
  },
  // A mass that nothing pulls on, and no line holds, is loose.
  { ...FRICTIONLESS, gravityMS2: 0, maxFree: 3 },
];

const mapped = <T>(values: Readonly<Record<string, T>>, change: (value: T) => T): Record<string, T> =>
  Object.fromEntries(Object.entries(values).map(([name, value]) => [name, change(value)]));
const turned = (network: Network, turn: (v: Triple) => Triple): Network => ({
  ...network,
  nodes: mapped(network.nodes, (node) => ({
    ...node,
    position: turn(node.position),
    ...(node.forceN ? { forceN: turn(node.forceN) } : {}),
  })),
});
const times = (factor: number) => (v: Triple) => v.map((c) => c * factor) as unknown as Triple;
const renamed = (name: string): string => `${name.length}${[...name].reverse().join("")}`;

/** Each leaves the network the same but for how it is put down; tensions come out times the factor. */
const FORMS: Readonly<Record<string, { readonly put: (network: Network) => Network; readonly factor?: number }>> = {
  turned: {
    put: (network) =>
      turned(network, ([x, y, z]) => [x * Math.cos(0.7) - y * Math.sin(0.7), x * Math.sin(0.7) + y * Math.cos(0.7), z]),
  },
  mirrored: { put: (network) => turned(network, ([x, y, z]) => [-x, y, z]) },
  moved: {
    put: (network) => ({
      ...network,
      nodes: mapped(network.nodes, ({ position: [x, y, z], ...node }) => ({
        ...node,
        position: [x + 40, y - 30, z + 100],
      })),
    }),
  },
  "named and ordered otherwise": {
    put: (network) => ({
      ...network,
      nodes: Object.fromEntries(
        Object.entries(network.nodes)
          .reverse()
          .map(([name, node]) => [renamed(name), node]),
      ),
      lines: Object.fromEntries(
        Object.entries(network.lines)
          .reverse()
          .map(([name, line]) => [name, { ...line, through: line.through.map(renamed) }]),
      ),
    }),
  },
  "with lines from their other end": {
    put: (network) => ({
      ...network,
      lines: mapped(network.lines, (line) => ({ ...line, through: [...line.through].reverse() })),
    }),
  },
  "with forces scaled": {
    factor: 3.7,
    put: (network) => ({
      ...network,
      nodes: mapped(network.nodes, (node: NetworkNode) => ({
        ...node,
        massKg: 3.7 * (node.massKg ?? 0),
        ...(node.forceN ? { forceN: times(3.7)(node.forceN) } : {}),
      })),
      lines: mapped(network.lines, (line: NetworkLine) => ({
        ...line,
        ...(line.axialStiffnessN ? { axialStiffnessN: 3.7 * line.axialStiffnessN } : {}),
        ...(line.tensionN === undefined ? {} : { tensionN: 3.7 * line.tensionN }),
      })),
    }),
  },
  "with lengths scaled": {
    put: (network) => ({
      ...network,
      nodes: mapped(network.nodes, (node) => ({ ...node, position: times(7.3)(node.position) })),
      lines: mapped(network.lines, (line) => ({
        ...line,
        ...(line.lengthM === undefined ? {} : { lengthM: 7.3 * line.lengthM }),
      })),
    }),
  },
};

const anchorOf = (network: Network): Triple => Object.values(network.nodes).find((node) => !node.free)!.position;
const scattered = (awayM: number, i: number): Triple => [
  awayM * Math.sin(i + 1),
  awayM * Math.cos(3 * i),
  awayM * Math.sin(7 * i + 1),
];

/** Where the search begins, by the number of the node. */
const STARTS: Readonly<Record<string, (network: Network, i: number) => Triple>> = {
  "all in one place": () => [0, 0, 5],
  "all at one anchor": anchorOf,
  "50 m off": (_, i) => scattered(50, i),
  "10 km off": (_, i) => scattered(1e4, i),
  "all in one place 170 km off": () => [1e5, -1e5, 1e5],
  "1000 km off": (_, i) => scattered(1e6, i),
};

const kindOf = (solution: NetworkSolution) => (solution.ok ? "answer" : solution.code);

/** The same kind of answer, and in an answer the same tensions times the factor, whichever end they are told from. */
function expectSame(actual: NetworkSolution, expected: NetworkSolution, factor: number): void {
  expect(kindOf(actual)).toBe(kindOf(expected));
  if (!actual.ok || !expected.ok) return;
  const largestN = Math.max(...Object.values(expected.lines).flatMap((line) => line.tensionsN));
  for (const [name, { tensionsN, slack }] of Object.entries(expected.lines)) {
    // Without loss a line has one tension. A millionth of the largest is the rule for an answer.
    const error = Math.abs(actual.lines[name]!.tensionsN[0]! - factor * tensionsN[0]!);
    expect(error).toBeLessThanOrEqual(1e-6 * factor * largestN);
    expect(actual.lines[name]!.slack).toBe(slack);
    if (slack) expect(Math.max(...tensionsN)).toBe(0);
    // Rounding that passes for tension would tie what is loose.
    else expect(Math.min(...tensionsN)).toBeGreaterThanOrEqual(1e-9 * largestN);
  }
}

const overNetworks = (seed: number, check: (network: Network, solution: NetworkSolution) => void): void => {
  const seen: Record<string, number> = {};
  fc.assert(
    fc.property(fc.nat(1e6), fc.constantFrom(...KINDS), (of, options) => {
      const network = randomNetwork(of, options);
      const solution = solveNetwork(network);
      const kind = solution.ok && idleNode(network, solution) ? "idle" : kindOf(solution);
      seen[kind] = (seen[kind] ?? 0) + 1;
      check(network, solution);
    }),
    { seed, numRuns: 1500 },
  );
  expect(Object.keys(seen).sort()).toEqual(["answer", "idle", "mechanism", "nothing-holds", "two-blocked"]);
  for (const count of Object.values(seen)) expect(count).toBeGreaterThan(100);
};

describe("the kind of answer without sheave loss, and its tensions", () => {
  it.each(Object.entries(FORMS))("are those of the same network %s", (_, { put, factor = 1 }) => {
    overNetworks(31, (network, solution) => expectSame(solveNetwork(put(network)), solution, factor));
  });

  it.each(Object.entries(STARTS))("are those of a search begun %s", (_, place) => {
    overNetworks(32, (network, solution) => {
      const start = Object.fromEntries(Object.keys(network.nodes).map((name, i) => [name, place(network, i)]));
      expectSame(solveNetwork(network, { start }), solution, 1);
      const nodes = Object.entries(network.nodes).map(
        ([name, node]) => [name, node.free ? { ...node, position: start[name]! } : node] as const,
      );
      expectSame(solveNetwork({ ...network, nodes: Object.fromEntries(nodes) }), solution, 1);
    });
  });
});
