import type { Triple } from "../base/vector.ts";
import { type CompiledNetwork, compileNetwork } from "../rope/compile-network.ts";
import type { Network, NetworkFailure, NetworkSolution } from "../rope/network.ts";
import { applyRopes } from "./apply-ropes.ts";
import { largestForce, unbalanced, worstNode } from "./balance.ts";
import { blockedNodes } from "./blocked-nodes.ts";
import { findBalance } from "./find-balance.ts";
import { layIdle } from "./lay-idle.ts";
import { lineTooStiff } from "./line-too-stiff.ts";
import { idleAmong, looseNodes } from "./loose-nodes.ts";
import { networkAnswer } from "./network-answer.ts";
import { type NetworkState, newNetworkState } from "./network-state.ts";
import { EXACT, newtonBalance } from "./newton-balance.ts";
import { relaxedStart } from "./relaxed-start.ts";
import { slackenFaint } from "./slacken-faint.ts";

export interface SolveNetworkOptions {
  /** Where to begin, per free node, m, site frame; a node left out begins at its own position. */
  readonly start?: Readonly<Record<string, Triple>>;
  /** Leave every sheave loss out. */
  readonly frictionless?: boolean;
}

/**
 * Where do the free nodes of a rope network come to rest, and what does each rope carry?
 *
 * Model: straight, tension-only rope segments, and elastic catenaries for lines that say `sag`; a line has one unstretched length and gives rope from segment to segment over
 * its sheaves, each of which takes its share η^(θ/π) of the tension for a wrap θ; rope weight is lumped half and half on the ends of
 * a straight segment. Valid where sag is small beside a segment (rope weight much less than tension). A slack line has exactly no tension.
 * The whole of it: `docs/theory/rope-network.md`.
 *
 * @param network sound, as `readNetworks` leaves it: every node named in `through` exists (else a `RangeError`)
 * @returns places (m), tensions (N, never negative), forces of the ropes on the fixed nodes (N, site frame); or why there is no
 *   answer: `nothing-holds`, `mechanism`, `two-blocked`, `not-converged`, each with the node it is about.
 *   Without sheave loss and rope weight the tensions are the only ones there are; a node that balances anywhere along a straight rope
 *   is somewhere along it, and one with no load that only slack lines touch is midway between its neighbours if nothing comes taut so.
 *
 * Accuracy: force left over at each free node below 1e-9 of the largest force, save where rounding of lengths
 * at very high EA forbids it; never above 1e-6. Cost: 4 to 10 µs for one free node near its place; 0.2 ms for six from anywhere,
 * the worst with sheave loss some 20 ms.
 *
 * @example
 * const answer = solveNetwork({
 *   nodes: { load: { position: [0, 0, 5], free: true, massKg: 100 }, anchor: { position: [0, 0, 10] } },
 *   lines: { rope: { through: ["load", "anchor"], lengthM: 4, axialStiffnessN: 50_000 } },
 * });
 * // answer.ok, answer.lines.rope.tensionsN[0] is 980.665
 */
export function solveNetwork(network: Network, options: SolveNetworkOptions = {}): NetworkSolution {
  return solve(newNetworkState(compileNetwork(network, options.frictionless)), options.start);
}

/** `solveNetwork` for a network compiled before; `start` as in its options. */
export function solveCompiled(net: CompiledNetwork, start?: Readonly<Record<string, Triple>>): NetworkSolution {
  let state = states.get(net);
  if (state === undefined) {
    state = newNetworkState(net);
    states.set(net, state);
  }
  return solve(state, start);
}

/** Room for the work of a solve, kept for the next one on the same network. Nothing is remembered in it. */
const states = new WeakMap<CompiledNetwork, NetworkState>();

function solve(state: NetworkState, start: Readonly<Record<string, Triple>> | undefined): NetworkSolution {
  beginAt(state, start);
  const quick = newtonBalance(state, 20, EXACT);
  // Two nodes in one place pull on each other in no direction: what looks like balance there may be none.
  if (quick.converged && blockedNodes(state, 0) === undefined) return conclude(state, quick.iterations);

  beginAt(state, start);
  relaxedStart(state);
  let found = findBalance(state);
  if (found.kind === "lost") {
    beginAt(state, start);
    state.origin.set(state.place);
    found = findBalance(state);
  }
  switch (found.kind) {
    case "balanced":
      return conclude(state, quick.iterations + found.iterations);
    case "nothing-holds":
      return failure(
        state,
        found.kind,
        found.node,
        `No rope stops ${found.node} from moving away without end. Add a line, or more tension.`,
      );
    case "falls": {
      const { net } = state;
      const name = net.lineNames[found.line] ?? "";
      const ends = net.network.lines[name]?.through ?? [];
      return failure(
        state,
        "nothing-holds",
        ends.find((node) => net.network.nodes[node]?.free) ?? ends[0] ?? "",
        `So little tension cannot hold up ${name}'s own weight. Pull harder, or shorten its way.`,
      );
    }
    case "two-blocked": {
      const { moving, other } = found.nodes;
      const hint = `${moving} is drawn onto ${other}. Lengthen or ease the line between them.`;
      return { ...failure(state, found.kind, moving, hint), other };
    }
    case "lost": {
      // What is left over is told of the lines as they are, not as softened on the way.
      state.softening = 0;
      state.smoothing = 0;
      applyRopes(state, false);
      const where = state.net.nodeNames[worstNode(state)] ?? "";
      return failure(state, "not-converged", where, whyLost(state));
    }
  }
}

/** Makes a state as new, with the free nodes where the search begins. */
function beginAt(state: NetworkState, start: Readonly<Record<string, Triple>> | undefined): void {
  const { net, place } = state;
  state.foreseen.fill(0);
  state.foreseenPull.fill(0);
  state.softening = 0;
  state.smoothing = 0;
  state.slackBelowN = 0;
  state.friction = 1;
  state.liveWeight = true;
  state.oneSided = false;
  place.set(net.positionM);
  if (start === undefined) return;
  for (let f = 0; f < net.nodeOfFree.length; f++) {
    const node = net.nodeOfFree[f]!;
    const given = start[net.nodeNames[node]!];
    if (given !== undefined) place.set(given, 3 * node);
  }
}

/** The answer of a state in balance, unless a node in it could be anywhere. */
function conclude(state: NetworkState, iterations: number): NetworkSolution {
  state.foreseen.fill(0);
  state.foreseenPull.fill(0);
  applyRopes(state, false);
  const largestN = largestForce(state);
  if (!state.force.every(Number.isFinite) || !Number.isFinite(largestN)) {
    return failure(state, "not-converged", state.net.nodeNames[0] ?? "", "Lengths or forces too large to reckon with.");
  }
  slackenFaint(state, largestN);
  const loose = looseNodes(state);
  if (loose.length === 0) return networkAnswer(state, iterations);
  const idle = idleAmong(state, loose);
  const astray = loose.find((node) => !idle.includes(node));
  if (astray === undefined) {
    layIdle(state, idle);
    return networkAnswer(state, iterations);
  }
  const name = state.net.nodeNames[astray] ?? "";
  return failure(
    state,
    "mechanism",
    name,
    `Nothing places ${name}: no taut line ties it to a fixed node and no force to speak of pulls on it.`,
  );
}

function whyLost(state: NetworkState): string {
  const stiff = lineTooStiff(state);
  if (stiff === undefined) return "No balance found. Check lengths and stiffness of the lines at this node.";
  const [shownN, loadsN] = [stiff.roundingN, state.net.forceN].map((force) => Number(force.toPrecision(1)));
  return (
    `${stiff.line} is too stiff for so small loads: the rounding of its length alone shows as ${shownN} N, beside ${loadsN} N ` +
    "of loads. Lower its axialStiffnessN, or leave out what weighs next to nothing."
  );
}

function failure(state: NetworkState, code: NetworkFailure["code"], where: string, hint: string): NetworkFailure {
  const replay = state.net.network;
  const residualN = unbalanced(state);
  const known = Number.isFinite(residualN) && (code === "not-converged" || code === "nothing-holds");
  return { ok: false, code, where, hint, replay, ...(known ? { residualN } : {}) };
}
