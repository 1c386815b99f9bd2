import type { Triple } from "../base/vector.ts";
import { type CompiledNetwork, compileNetwork } from "../rope/compile-network.ts";
import type { Network, NetworkAnswer, NetworkFailure, NetworkSolution } from "../rope/network.ts";
import { applyRopes } from "./apply-ropes.ts";
import { unbalanced, worstNode } from "./balance.ts";
import { fallsWithoutEnd } from "./falls-without-end.ts";
import { blockedSegment, looseNode } from "./network-outcome.ts";
import { type NetworkState, newNetworkState } from "./network-state.ts";
import { newtonBalance } from "./newton-balance.ts";
import { settleFrictionless } from "./settle-frictionless.ts";

export interface SolveNetworkOptions {
  /** Where to begin, per free node, m, site frame; a node left out begins at its own position. */
  readonly start?: Readonly<Record<string, Triple>>;
  /** Leave every sheave loss out. */
  readonly frictionless?: boolean;
}

export function solveNetwork(network: Network, options: SolveNetworkOptions = {}): NetworkSolution {
  return solveCompiled(compileNetwork(network, options.frictionless), options.start);
}

export function solveCompiled(net: CompiledNetwork, start?: Readonly<Record<string, Triple>>): NetworkSolution {
  const state = newNetworkState(net);
  if (start) {
    for (const node of net.nodeOfFree) {
      const place = start[net.nodeNames[node]!];
      if (place) state.place.set(place, 3 * node);
    }
  }
  const begin = Float64Array.from(state.place);

  let run = newtonBalance(state, 20);
  let iterations = run.iterations;
  if (run.converged) return conclude(state, iterations);

  state.place.set(begin);
  state.foreseen.fill(0);
  const settling = settleFrictionless(state);
  const softening = state.softening;
  state.softening = 0;
  state.smoothing = 0;
  if (settling !== "nothing-holds") {
    run = newtonBalance(state, 30);
    iterations += run.iterations;
    if (!net.hasFriction) {
      if (run.converged) return conclude(state, iterations);
      const blocked = blockedSegment(state, 1e-6 * net.sizeM);
      if (blocked) return failure(state, "two-blocked", blocked, "two nodes are drawn onto each other");
    }
    if (run.converged) {
      let reached = 0;
      let stride = 1;
      const kept = Float64Array.from(state.place);
      const keptForeseen = Float64Array.from(state.foreseen);
      while (reached < 1 && stride > 1e-3) {
        state.friction = Math.min(1, reached + stride);
        run = newtonBalance(state, 20);
        iterations += run.iterations;
        if (run.converged) {
          reached = state.friction;
          kept.set(state.place);
          keptForeseen.set(state.foreseen);
          stride *= 2;
        } else {
          state.place.set(kept);
          state.foreseen.set(keptForeseen);
          stride /= 3;
        }
      }
      if (reached === 1) return conclude(state, iterations);
    }
  } else if (!net.hasFriction) {
    return failure(state, "nothing-holds", net.nodeNames[farthestNode(state)]!, "no rope takes this load");
  }
  if (net.hasFriction) {
    state.friction = 1;
    state.place.set(begin);
    state.foreseen.fill(0);
    run = newtonBalance(state, 400, net.forceN / net.sizeM);
    iterations += run.iterations;
    if (run.converged) return conclude(state, iterations);
    if (fallsWithoutEnd(state)) return failure(state, "nothing-holds", net.nodeNames[farthestNode(state)]!, "no rope takes this load");
  }
  void softening;
  const worst = worstNode(state);
  return failure(state, "not-converged", worst < 0 ? "" : net.nodeNames[worst]!, `no balance found (${settling})`);
}

function farthestNode(state: NetworkState): number {
  let farthest = -1;
  let node = 0;
  for (const n of state.net.nodeOfFree) {
    const d = Math.hypot(...[0, 1, 2].map((i) => state.place[3 * n + i]! - state.net.positionM[3 * n + i]!));
    if (d > farthest) {
      farthest = d;
      node = n;
    }
  }
  return node;
}

function failure(state: NetworkState, code: NetworkFailure["code"], where: string, hint: string): NetworkFailure {
  return { ok: false, code, where, hint, residualN: unbalanced(state), replay: state.net.network };
}

/** The answer at a state in balance, or the reason why it is none. */
function conclude(state: NetworkState, iterations: number): NetworkSolution {
  const { net, place, force, tension, ratio, stretched } = state;
  state.foreseen.fill(0);
  applyRopes(state, false);
  const loose = looseNode(state);
  if (loose) return failure(state, "mechanism", loose, "nothing places this node");
  const triple = (values: Float64Array, node: number): Triple => [values[3 * node]!, values[3 * node + 1]!, values[3 * node + 2]!];
  const nodes: Record<string, { position: Triple }> = {};
  const forcesOnFixedN: Record<string, Triple> = {};
  for (let node = 0; node < net.nodeNames.length; node++) {
    const name = net.nodeNames[node]!;
    nodes[name] = { position: triple(place, node) };
    if (net.freeOfNode[node]! < 0) forcesOnFixedN[name] = triple(force, node);
  }
  const lines: Record<string, NetworkAnswer["lines"][string]> = {};
  for (let line = 0; line < net.lineNames.length; line++) {
    const first = net.firstSlot[line]!;
    const last = net.firstSlot[line + 1]! - 1;
    const tensionsN: number[] = [];
    const segmentsM: number[] = [];
    const stiff = net.stiffnessN[line]!;
    let unstretched = 0;
    for (let q = first; q < last; q++) {
      const t = tension[line]! * ratio[q]!;
      tensionsN.push(t);
      segmentsM.push(stretched[q]!);
      if (stiff > 0) unstretched += stretched[q]! / (1 + t / stiff);
    }
    lines[net.lineNames[line]!] = {
      tensionsN, slack: tension[line] === 0, segmentsM,
      unstretchedM: net.lengthM[line]! > 0 ? net.lengthM[line]! : stiff > 0 ? unstretched : null,
    };
  }
  return { ok: true, residualN: unbalanced(state), iterations, nodes, lines, forcesOnFixedN };
}
