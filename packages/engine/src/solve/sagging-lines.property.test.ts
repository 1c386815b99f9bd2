import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Triple } from "../base/vector.ts";
import { compileNetwork } from "../rope/compile-network.ts";
import type { Network, NetworkAnswer, NetworkLine, NetworkNode } from "../rope/network.ts";
import { applyRopes } from "./apply-ropes.ts";
import { newNetworkState } from "./network-state.ts";
import { solveNetwork } from "./solve-network.ts";
import { checkBalance } from "./testing/check-balance.ts";
import { type RandomNetworkOptions, randomNetwork } from "./testing/random-network.ts";
import { withSag } from "./testing/with-sag.ts";

const ROPES: RandomNetworkOptions = { stiffnessN: [2e3, 1e6] };
const hasSag = (network: Network) => Object.values(network.lines).some((line) => line.sag);

function answerOf(network: Network): NetworkAnswer {
  const answer = solveNetwork(network);
  if (!answer.ok) throw new Error(`${answer.code} at ${answer.where}`);
  return answer;
}

/** Solves many random networks with lines that sag; every third answer is checked by other means. Returns how each ended. */
function tally(count: number, options: RandomNetworkOptions): Record<string, number> {
  const outcomes: Record<string, number> = {};
  for (let seed = 1; seed <= count; seed++) {
    const network = withSag(randomNetwork(seed, { ...ROPES, ...options }), seed);
    if (!hasSag(network)) continue;
    const answer = solveNetwork(network);
    const outcome = answer.ok ? "answer" : answer.code;
    outcomes[outcome] = (outcomes[outcome] ?? 0) + 1;
    if (!answer.ok) expect(network.nodes).toHaveProperty(answer.where);
    if (!answer.ok || seed % 3 > 0) continue;
    const check = checkBalance(network, answer);
    expect(check.finite).toBe(true);
    expect(check.lowestTensionN).toBeGreaterThanOrEqual(0);
    const errors = [check.residualN, check.sumErrorN, check.tensionErrorN, check.fixedErrorN];
    // Textbook equations by bisection lose 1e-16·T/w of way on a taut rope: at EA = 1e6 N some 1e-7 N.
    expect(Math.max(...errors)).toBeLessThan(1e-9 * check.largestN);
  }
  return outcomes;
}

describe("random networks with lines that sag", () => {
  it("all settle, save those with blocks that meet", () => {
    const { answer = 0, "two-blocked": blocked = 0, ...others } = tally(3_000, {});
    expect(others).toEqual({});
    expect(answer).toBeGreaterThan(1_500);
    expect(blocked).toBeLessThan(300);
  });

  it("that may not hold are not left without a reason", () => {
    const options = { hungByTension: 0.6, byTension: 0.5, tangled: 0.6, highestTensionN: 900, maxFree: 3 };
    const outcomes = tally(2_000, options);
    expect(outcomes["not-converged"]).toBeUndefined();
    expect(outcomes["nothing-holds"]).toBeGreaterThan(100);
    expect(outcomes.answer).toBeGreaterThan(300);
  });
});

describe("the tangent of a network with lines that sag", () => {
  const columnsAgree = (network: Network, smoothing: number, softening: number, foreseen: boolean): number => {
    const state = newNetworkState(compileNetwork(network));
    state.smoothing = smoothing;
    state.softening = softening;
    const { net, place, force, size } = state;
    applyRopes(state, false);
    for (let line = 0; line < net.lineNames.length; line++) state.foreseen[line] = Math.max(0, state.tension[line]!);
    // The tangent is that of the force as foreseen, where what is foreseen is what there is.
    if (foreseen) state.foreseenPull.set(state.pull);
    applyRopes(state, true);
    const tangent = Float64Array.from(state.tangent);
    const stiffest = tangent.reduce((most, k) => Math.max(most, Math.abs(k)), 1);
    const step = 1e-5;
    let worst = 0;
    for (let column = 0; column < size; column++) {
      const at = 3 * net.nodeOfFree[Math.floor(column / 3)]! + (column % 3);
      const middle = place[at]!;
      place[at] = middle + step;
      applyRopes(state, false);
      const ahead = Float64Array.from(force);
      place[at] = middle - step;
      applyRopes(state, false);
      place[at] = middle;
      for (let row = 0; row < size; row++) {
        const from = 3 * net.nodeOfFree[Math.floor(row / 3)]! + (row % 3);
        const slope = (force[from]! - ahead[from]!) / (2 * step);
        worst = Math.max(worst, Math.abs(slope - tangent[row * size + column]!) / stiffest);
      }
    }
    return worst;
  };

  it.each([false, true])(
    "is the slope of the forces, by length and by tension, softened or not (pulls foreseen: %s)",
    (foreseen) => {
      let sagged = 0;
      fc.assert(
        fc.property(fc.nat(1e6), fc.constantFrom(0, 3), fc.constantFrom(0, 0.01), (seed, smoothing, softening) => {
          const options = { friction: 1, ropeWeight: 0.5, byTension: 0.5, stiffnessN: [1e3, 3e4] as const };
          const network = withSag(randomNetwork(seed, options), seed);
          if (hasSag(network)) sagged++;
          expect(columnsAgree(network, smoothing, softening, foreseen)).toBeLessThan(1e-6);
        }),
        { seed: 20240702, numRuns: 300, endOnFailure: true },
      );
      expect(sagged).toBeGreaterThan(150);
    },
  );
});

describe("an answer with lines that sag", () => {
  const onAnswers = (seed: number, check: (network: Network, answer: NetworkAnswer, largestN: number) => void) => {
    let answered = 0;
    fc.assert(
      fc.property(fc.nat(1e6), (of) => {
        const network = withSag(randomNetwork(of, { ...ROPES, massless: 0 }), of);
        if (!hasSag(network)) return;
        const answer = solveNetwork(network);
        if (!answer.ok) return;
        answered++;
        const largestN = Math.max(50, ...Object.values(answer.lines).flatMap((line) => line.tensionsN));
        check(network, answer, largestN);
      }),
      { seed, numRuns: 250, endOnFailure: true },
    );
    expect(answered).toBeGreaterThan(120);
  };
  const mapNodes = (network: Network, change: (node: NetworkNode) => NetworkNode): Network => ({
    ...network,
    nodes: Object.fromEntries(Object.entries(network.nodes).map(([name, node]) => [name, change(node)])),
  });
  const mapLines = (network: Network, change: (line: NetworkLine) => NetworkLine): Network => ({
    ...network,
    lines: Object.fromEntries(Object.entries(network.lines).map(([name, line]) => [name, change(line)])),
  });
  const endsOf = (answer: NetworkAnswer, name: string) => {
    const line = answer.lines[name]!;
    return [line.tensionsN[0]!, line.tensionAtEndN ?? line.tensionsN.at(-1)!];
  };

  it("turns and mirrors with the site", () => {
    const turns: ((v: Triple) => Triple)[] = [
      ([x, y, z]) => [x * Math.cos(1.1) - y * Math.sin(1.1), x * Math.sin(1.1) + y * Math.cos(1.1), z],
      ([x, y, z]) => [-x, y, z],
    ];
    let k = 0;
    onAnswers(11, (network, answer, largestN) => {
      const turn = turns[k++ % 2]!;
      const turned = answerOf(
        mapNodes(network, (node) => ({
          ...node,
          position: turn(node.position),
          ...(node.forceN ? { forceN: turn(node.forceN) } : {}),
        })),
      );
      for (const [name, force] of Object.entries(answer.forcesOnFixedN)) {
        const expected = turn(force);
        for (let i = 0; i < 3; i++) {
          expect(Math.abs(turned.forcesOnFixedN[name]![i]! - expected[i]!)).toBeLessThan(2e-6 * largestN);
        }
      }
    });
  });

  it("is the same with lines held by length given from their other end", () => {
    onAnswers(12, (network, answer, largestN) => {
      const reversed = answerOf(
        mapLines(network, (line) =>
          line.sag && line.lengthM !== undefined ? { ...line, through: [...line.through].reverse() } : line,
        ),
      );
      for (const [name, line] of Object.entries(network.lines)) {
        const [first, last] = endsOf(answer, name);
        const swapped = line.sag && line.lengthM !== undefined;
        const [again, other] = endsOf(reversed, name);
        expect(Math.abs((swapped ? other! : again!) - first!)).toBeLessThan(1e-6 * largestN);
        expect(Math.abs((swapped ? again! : other!) - last!)).toBeLessThan(1e-6 * largestN);
      }
    });
  });

  it("is the same with each sagging line of given length cut in two and joined", () => {
    onAnswers(13, (network, answer, largestN) => {
      const nodes: Record<string, NetworkNode> = { ...network.nodes };
      const lines: Record<string, NetworkLine> = {};
      for (const [name, line] of Object.entries(network.lines)) {
        if (!line.sag || line.lengthM === undefined) {
          lines[name] = line;
          continue;
        }
        const [a, b] = line.through as [string, string];
        const [p, q] = [network.nodes[a]!.position, network.nodes[b]!.position];
        nodes[`${name}+`] = { position: p.map((c, i) => 0.7 * c + 0.3 * q[i]!) as unknown as Triple, free: true };
        lines[name] = { ...line, through: [a, `${name}+`], lengthM: 0.3 * line.lengthM };
        lines[`${name}+`] = { ...line, through: [`${name}+`, b], lengthM: 0.7 * line.lengthM };
      }
      const cut = answerOf({ ...network, nodes, lines });
      for (const name of Object.keys(network.lines)) {
        expect(Math.abs(endsOf(cut, name)[0]! - endsOf(answer, name)[0]!)).toBeLessThan(1e-6 * largestN);
      }
    });
  });

  it("has every force scaled when loads, rope weights and stiffness are", () => {
    onAnswers(14, (network, answer, largestN) => {
      const s = 3.7;
      const heavier = answerOf(
        mapLines(
          mapNodes(network, (node) => ({
            ...node,
            massKg: s * (node.massKg ?? 0),
            ...(node.forceN ? { forceN: node.forceN.map((f) => s * f) as unknown as Triple } : {}),
          })),
          (line) => ({
            ...line,
            ...(line.axialStiffnessN === undefined ? {} : { axialStiffnessN: s * line.axialStiffnessN }),
            ...(line.tensionN === undefined ? {} : { tensionN: s * line.tensionN }),
            ...(line.linearMassKgM === undefined ? {} : { linearMassKgM: s * line.linearMassKgM }),
          }),
        ),
      );
      for (const name of Object.keys(network.lines)) {
        for (const [i, t] of endsOf(answer, name).entries()) {
          expect(Math.abs(endsOf(heavier, name)[i]! / s - t!)).toBeLessThan(1e-6 * largestN);
        }
      }
    });
  });
});
