import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Network, NetworkAnswer, NetworkLine, NetworkNode } from "../rope/network.ts";
import { solveNetwork } from "./solve-network.ts";
import { idleNode } from "./testing/idle-node.ts";
import { type RandomNetworkOptions, randomNetwork } from "./testing/random-network.ts";

/** Ties each free node to where it is given by a spring of this stiffness, N/m, too soft to matter where anything else holds. */
function tethered(network: Network, stiffnessNM: number, awayM = 0): Network {
  const nodes: Record<string, NetworkNode> = { ...network.nodes };
  const lines: Record<string, NetworkLine> = { ...network.lines };
  const lengthM = 1e-3;
  for (const [name, node] of Object.entries(network.nodes)) {
    if (!node.free) continue;
    const [x, y, z] = node.position;
    // The least of forces keeps the tether of a node with no load from going slack.
    if (!node.massKg || network.gravityMS2 === 0) {
      const [fx, fy, fz] = node.forceN ?? [0, 0, 0];
      nodes[name] = { ...node, forceN: [fx, fy, fz - 1e-4] };
    }
    nodes[`${name}*`] = { position: [x + awayM, y, z] };
    lines[`${name}*`] = { through: [name, `${name}*`], lengthM, axialStiffnessN: stiffnessNM * lengthM };
  }
  return { ...network, nodes, lines };
}

const apart = (a: readonly number[], b: readonly number[]) => Math.hypot(...a.map((c, i) => c - b[i]!));

/**
 * Makes one node of two: every mention of `gone` becomes `kept`, and a line passes the place once. Gives also the lines and how
 * many of their segments ran between the two.
 */
function merged(network: Network, gone: string, kept: string): { network: Network; between: Map<string, number> } {
  const nodes = Object.fromEntries(Object.entries(network.nodes).filter(([name]) => name !== gone));
  const lost = network.nodes[gone]!;
  const stays = nodes[kept]!;
  if (stays.free) {
    nodes[kept] = {
      ...stays,
      massKg: (stays.massKg ?? 0) + (lost.massKg ?? 0),
      forceN: [0, 1, 2].map((i) => (stays.forceN?.[i] ?? 0) + (lost.forceN?.[i] ?? 0)) as unknown as [
        number,
        number,
        number,
      ],
    };
  }
  const lines: Record<string, NetworkLine> = {};
  const between = new Map<string, number>();
  for (const [name, line] of Object.entries(network.lines)) {
    const through: string[] = [];
    let count = 0;
    for (const node of line.through) {
      const now = node === gone ? kept : node;
      if (through.at(-1) === now) count++;
      else through.push(now);
    }
    if (count > 0) between.set(name, count);
    if (through.length < 2) continue;
    const { efficiency: _, ...rest } = line;
    lines[name] = { ...rest, through };
  }
  return { network: { nodes, lines }, between };
}

/** Force on the node `gone`, were it where `kept` is in the answer, from all but the segments between the two, N. */
function forceOn(network: Network, gone: string, kept: string, answer: NetworkAnswer): readonly number[] {
  const node = network.nodes[gone]!;
  const force = [...(node.forceN ?? [0, 0, 0])];
  force[2]! -= (node.massKg ?? 0) * 9.80665;
  const at = (name: string) => answer.nodes[name === gone ? kept : name]!.position;
  for (const [name, line] of Object.entries(network.lines)) {
    const t = answer.lines[name]?.tensionsN[0] ?? line.tensionN ?? 0;
    for (let i = 1; i < line.through.length; i++) {
      const [a, b] = [line.through[i - 1]!, line.through[i]!];
      const length = apart(at(a), at(b));
      if ((a !== gone && b !== gone) || length === 0) continue;
      const far = at(a === gone ? b : a);
      for (let axis = 0; axis < 3; axis++) force[axis]! += (t * (far[axis]! - at(gone)[axis]!)) / length;
    }
  }
  return force;
}

describe("claims without an answer, and of idle nodes", () => {
  it("`two-blocked`: with the two made one, the force between them is less than the ropes between them can give", () => {
    let proven = 0;
    fc.assert(
      fc.property(fc.nat(1e6), (seed) => {
        // Without sheave loss and rope weight the energy is convex: balance of the whole with the two made one, and a force between
        // them inside the ball of the tensions between them, prove that its minimum has them together.
        const network = randomNetwork(seed, {
          friction: 0,
          ropeWeight: 0,
          massless: 0,
          tangled: 0.8,
          highestTensionN: 900,
          maxFree: 3,
        });
        const outcome = solveNetwork(network);
        if (outcome.ok || outcome.code !== "two-blocked") return;
        const other = Object.keys(network.nodes).find((name) =>
          outcome.hint.startsWith(`${outcome.where} is drawn onto ${name}.`),
        )!;
        const { network: one, between } = merged(network, outcome.where, other);
        const answer = solveNetwork(one);
        // A second pair may meet elsewhere in the same network; leave those out.
        if (!answer.ok) {
          expect(answer.code).toBe("two-blocked");
          return;
        }
        let most = 0;
        for (const [name, count] of between) {
          most += count * (answer.lines[name]?.tensionsN[0] ?? network.lines[name]!.tensionN ?? 0);
        }
        expect(Math.hypot(...forceOn(network, outcome.where, other, answer))).toBeLessThan(most * (1 + 1e-6));
        proven++;
      }),
      { seed: 11, numRuns: 1500 },
    );
    expect(proven).toBeGreaterThan(100);
  });

  it("`nothing-holds`: on a soft tether the node goes ten times as far when the tether is ten times as soft", () => {
    let proven = 0;
    let held = 0;
    fc.assert(
      fc.property(fc.nat(1e6), fc.boolean(), (seed, rubs) => {
        const network = randomNetwork(seed, {
          friction: rubs ? 1 : 0,
          ropeWeight: 0,
          hungByTension: 0.7,
          maxFree: 2,
          massless: 0,
        });
        const outcome = solveNetwork(network);
        if (!outcome.ok && outcome.code !== "nothing-holds") return;
        const where = outcome.ok ? "n0" : outcome.where;
        const begin = network.nodes[where]!.position;
        const [soft, softer] = [1e-3, 1e-4].map((k) => solveNetwork(tethered(network, k)));
        if (!soft!.ok || !softer!.ok) {
          // While one load falls, blocks may meet at another.
          expect([soft, softer].some((s) => !s!.ok && s!.code === "two-blocked")).toBe(true);
          return;
        }
        const growth = apart(softer!.nodes[where]!.position, begin) / apart(soft!.nodes[where]!.position, begin);
        if (outcome.ok) {
          held++;
          expect(growth).toBeLessThan(2);
        } else {
          proven++;
          expect(growth).toBeGreaterThan(5);
        }
      }),
      { seed: 12, numRuns: 600 },
    );
    expect(proven).toBeGreaterThan(100);
    expect(held).toBeGreaterThan(100);
  });

  it.each<[string, RandomNetworkOptions]>([
    ["a node that lies idle", { massless: 0.4 }],
    ["`mechanism`", { massless: 0, gravityMS2: 0 }],
  ])(
    "%s: tethered by a thousandth of a newton a metre, it takes no more from any line, and mostly goes with its tether",
    (_, masses) => {
      let seen = 0;
      let followed = 0;
      fc.assert(
        fc.property(fc.nat(1e6), (seed) => {
          const network = randomNetwork(seed, {
            friction: 0,
            ropeWeight: 0,
            maxFree: 3,
            stiffnessN: [5e3, 5e4],
            ...masses,
          });
          const outcome = solveNetwork(network);
          if (!outcome.ok && outcome.code !== "mechanism") return;
          const where = outcome.ok ? idleNode(network, outcome) : outcome.where;
          if (where === undefined) return;
          // Near an anchor, where it is mostly inside what its slack lines allow, and at the end of one otherwise.
          const anchor = Object.values(network.nodes).find((node) => !node.free)!;
          const home = { ...network.nodes[where]!, position: anchor.position };
          const near = { ...network, nodes: { ...network.nodes, [where]: home } };
          const [here, there] = [0.2, 0.5].map((away) => solveNetwork(tethered(near, 1e-3, away)));
          if (!here!.ok || !there!.ok) {
            // So softly drawn, a node of no mass may still be drawn onto another.
            expect([here, there].some((answer) => !answer!.ok && answer!.code === "two-blocked")).toBe(true);
            return;
          }
          seen++;
          for (const [name, line] of Object.entries(network.lines)) {
            if (line.through.includes(where)) expect(here!.lines[name]!.tensionsN[0]).toBeLessThan(1);
          }
          const [from, to] = [here!, there!].map((answer) => answer.nodes[where]!.position);
          if (apart(from!, to!) > 0.29) followed++;
        }),
        { seed: 13, numRuns: 600 },
      );
      expect(seen).toBeGreaterThan(100);
      expect(followed).toBeGreaterThan(0.6 * seen);
    },
  );
});
