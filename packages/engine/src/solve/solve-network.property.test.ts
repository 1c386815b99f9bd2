import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Triple } from "../base/vector.ts";
import type { Network, NetworkAnswer, NetworkLine, NetworkNode, Travel } from "../rope/network.ts";
import { solveNetwork } from "./solve-network.ts";
import { type RandomNetworkOptions, randomNetwork } from "./testing/random-network.ts";

/** Every free node has mass, so that it has one place; ropes as ropes are. */
const ROPES: RandomNetworkOptions = { massless: 0, stiffnessN: [5e3, 1e6] };

const mapNodes = (network: Network, change: (node: NetworkNode) => NetworkNode): Network => ({
  ...network,
  nodes: Object.fromEntries(Object.entries(network.nodes).map(([name, node]) => [name, change(node)])),
});
const mapLines = (network: Network, change: (line: NetworkLine) => NetworkLine): Network => ({
  ...network,
  lines: Object.fromEntries(Object.entries(network.lines).map(([name, line]) => [name, change(line)])),
});

/** Runs `check` on the answers of random networks, as many as have one. */
function onAnswers(
  seed: number,
  options: RandomNetworkOptions,
  check: (network: Network, answer: NetworkAnswer) => void,
): void {
  let answered = 0;
  const numRuns = 400;
  fc.assert(
    fc.property(fc.nat(1e6), (of) => {
      const network = randomNetwork(of, options);
      const answer = solveNetwork(network);
      if (!answer.ok) return;
      answered++;
      check(network, answer);
    }),
    { seed, numRuns },
  );
  expect(answered).toBeGreaterThan(0.7 * numRuns);
}

function answerOf(network: Network): NetworkAnswer {
  const answer = solveNetwork(network);
  if (!answer.ok) throw new Error(`${answer.code} at ${answer.where}`);
  return answer;
}

/** Largest tension or load, N. */
function largestN(network: Network, answer: NetworkAnswer): number {
  const loads = Object.values(network.nodes).map(
    (node) => Math.hypot(...(node.forceN ?? [])) + 9.81 * (node.massKg ?? 0),
  );
  return Math.max(...loads, ...Object.values(answer.lines).flatMap((line) => line.tensionsN));
}

/** Two sets of tensions by line are the same, to a millionth of the largest force. */
function expectSameTensions(
  actual: Readonly<Record<string, readonly number[]>>,
  expected: Readonly<Record<string, readonly number[]>>,
  scaleN: number,
): void {
  expect(Object.keys(actual).sort()).toEqual(Object.keys(expected).sort());
  for (const [name, tensions] of Object.entries(expected)) {
    expect(actual[name]).toHaveLength(tensions.length);
    for (const [i, t] of tensions.entries()) expect(Math.abs(actual[name]![i]! - t)).toBeLessThan(1e-6 * scaleN);
  }
}

const tensionsOf = (answer: NetworkAnswer, change = (tensions: readonly number[], _name: string) => tensions) =>
  Object.fromEntries(Object.entries(answer.lines).map(([name, line]) => [name, change(line.tensionsN, name)]));

const other = (travel: Travel | undefined): Travel =>
  travel === "toEnd" ? "toStart" : travel === "toStart" ? "toEnd" : "none";

describe("an answer", () => {
  it("turns and mirrors with the site", () => {
    const turns: ((v: Triple) => Triple)[] = [
      ([x, y, z]) => [x * Math.cos(1.1) - y * Math.sin(1.1), x * Math.sin(1.1) + y * Math.cos(1.1), z],
      ([x, y, z]) => [-x, y, z],
      ([x, y, z]) => [y, x, z],
    ];
    let k = 0;
    onAnswers(1, ROPES, (network, answer) => {
      const turn = turns[k++ % turns.length]!;
      const turned = answerOf(
        mapNodes(network, (node) => ({
          ...node,
          position: turn(node.position),
          ...(node.forceN ? { forceN: turn(node.forceN) } : {}),
        })),
      );
      const scale = largestN(network, answer);
      expectSameTensions(tensionsOf(turned), tensionsOf(answer), scale);
      for (const [name, force] of Object.entries(answer.forcesOnFixedN)) {
        const expected = turn(force);
        for (let i = 0; i < 3; i++)
          expect(Math.abs(turned.forcesOnFixedN[name]![i]! - expected[i]!)).toBeLessThan(2e-6 * scale);
      }
    });
  });

  it("moves with the site", () => {
    onAnswers(2, ROPES, (network, answer) => {
      const moved = answerOf(
        mapNodes(network, (node) => ({
          ...node,
          position: [node.position[0] + 40, node.position[1] - 30, node.position[2] + 100],
        })),
      );
      expectSameTensions(tensionsOf(moved), tensionsOf(answer), largestN(network, answer));
    });
  });

  it("does not depend on names or on order", () => {
    onAnswers(3, ROPES, (network, answer) => {
      const renamed = (name: string) => `${name.length}${[...name].reverse().join("")}é`;
      const again = answerOf({
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
      });
      expectSameTensions(tensionsOf(again), tensionsOf(answer), largestN(network, answer));
    });
  });

  it("is the same with a line given from its other end, its travel swapped", () => {
    onAnswers(4, ROPES, (network, answer) => {
      // A tension is given at the first node: with sheave loss the other end has another.
      const swaps = (line: NetworkLine) => line.lengthM !== undefined || (line.travel ?? "none") === "none";
      const reversed = answerOf(
        mapLines(network, (line) =>
          swaps(line)
            ? {
                ...line,
                through: [...line.through].reverse(),
                travel: other(line.travel),
                ...(line.efficiency ? { efficiency: [...line.efficiency].reverse() } : {}),
              }
            : line,
        ),
      );
      const back = tensionsOf(reversed, (tensions, name) =>
        swaps(network.lines[name]!) ? [...tensions].reverse() : tensions,
      );
      expectSameTensions(back, tensionsOf(answer), largestN(network, answer));
    });
  });

  it("has forces in proportion to masses, loads, tensions and stiffnesses together", () => {
    onAnswers(5, ROPES, (network, answer) => {
      const factor = 3.7;
      const heavier = answerOf(
        mapLines(
          mapNodes(network, (node) => ({
            ...node,
            massKg: factor * (node.massKg ?? 0),
            ...(node.forceN ? { forceN: node.forceN.map((f) => f * factor) as unknown as Triple } : {}),
          })),
          (line) => ({
            ...line,
            ...(line.axialStiffnessN ? { axialStiffnessN: factor * line.axialStiffnessN } : {}),
            ...(line.tensionN !== undefined ? { tensionN: factor * line.tensionN } : {}),
            ...(line.linearMassKgM ? { linearMassKgM: factor * line.linearMassKgM } : {}),
          }),
        ),
      );
      const expected = tensionsOf(answer, (tensions) => tensions.map((t) => t * factor));
      expectSameTensions(tensionsOf(heavier), expected, factor * largestN(network, answer));
    });
  });

  it("has the same tensions when a segment is split by a free node of no mass, or by a fixed one where the rope runs", () => {
    const splits = { taut: 0, slack: 0 };
    let k = 0;
    onAnswers(6, { ...ROPES, ropeWeight: 0 }, (network, answer) => {
      // A segment long enough to be split; which one differs from case to case.
      const segments = Object.entries(answer.lines).flatMap(([name, line]) =>
        line.tensionsN.flatMap((t, i) => ((t > 1 || line.slack) && line.segmentsM[i]! > 1e-3 ? [{ name, i }] : [])),
      );
      const { name, i } = segments[k++ % segments.length]!;
      const line = network.lines[name]!;
      const { slack } = answer.lines[name]!;
      splits[slack ? "slack" : "taut"]++;
      const [a, b] = [answer.nodes[line.through[i]!]!.position, answer.nodes[line.through[i + 1]!]!.position];
      const split = a.map((c, axis) => c + 0.4 * (b[axis]! - c)) as unknown as Triple;
      const free = k % 2 === 0;
      const through = line.through.toSpliced(i + 1, 0, "split");
      // Beside the fixed node the rope may rub: it does not turn. A free one would slide with the rope's every quiver.
      const rubs = slack || !free ? 0.7 : 1;
      const efficiency = through
        .slice(2)
        .map((_, j) => (j < i ? line.efficiency?.[j] : j > i ? line.efficiency?.[j - 1] : rubs) ?? 1);
      const places = Object.fromEntries(Object.entries(answer.nodes).map(([of, node]) => [of, node.position]));
      // On a slack line the search begins away from the answer, up to where the line would be taut many times over.
      const away = [0, 3, 40, 1e4][k % 4]!;
      const from: Triple = slack && free ? [split[0] + away, split[1] - away / 2, split[2] + away] : split;
      const again = solveNetwork(
        {
          nodes: { ...network.nodes, split: { position: free ? from : split, free } },
          lines: { ...network.lines, [name]: { ...line, through, efficiency } },
        },
        slack && k % 3 > 0 ? {} : { start: places },
      );
      if (!again.ok) throw new Error(`${again.code} at ${again.where}`);
      const scale = largestN(network, answer);
      const expected = tensionsOf(answer, (tensions, of) =>
        of === name ? tensions.toSpliced(i, 0, tensions[i]!) : tensions,
      );
      expectSameTensions(tensionsOf(again), expected, scale);
      expect(again.residualN).toBeLessThan(1e-6 * scale);
      if (slack) expect(again.lines[name]!.slack).toBe(true);
      if (!free) expect(Math.hypot(...again.forcesOnFixedN.split!)).toBeLessThan(1e-6 * scale);
    });
    expect(Math.min(splits.taut, splits.slack)).toBeGreaterThan(80);
  });

  it("is found again, in a step or two, from its own places", () => {
    onAnswers(7, ROPES, (network, answer) => {
      const start = Object.fromEntries(Object.entries(answer.nodes).map(([name, node]) => [name, node.position]));
      const again = solveNetwork(network, { start });
      if (!again.ok) throw new Error(again.code);
      expect(again.iterations).toBeLessThanOrEqual(2);
      expectSameTensions(tensionsOf(again), tensionsOf(answer), largestN(network, answer));
    });
  });

  it("without sheave loss has the same tensions from any start", () => {
    onAnswers(8, { ...ROPES, friction: 0 }, (network, answer) => {
      const start = Object.fromEntries(
        Object.keys(network.nodes).map((name, i) => [name, [50 * Math.sin(i), 80, -20 * i] as Triple]),
      );
      const again = solveNetwork(network, { start });
      if (!again.ok) throw new Error(again.code);
      expectSameTensions(tensionsOf(again), tensionsOf(answer), largestN(network, answer));
    });
  });
});
