import type { Triple } from "../base/vector.ts";
import type { LineAnswer, NetworkAnswer } from "../rope/network.ts";
import { unbalanced } from "./balance.ts";
import type { NetworkState } from "./network-state.ts";

/** Puts the names back: the answer of a state that is in balance. */
export function networkAnswer(state: NetworkState, iterations: number): NetworkAnswer {
  const { net, place, force } = state;
  const nodes: Record<string, { readonly position: Triple }> = {};
  const forcesOnFixedN: Record<string, Triple> = {};
  for (let node = 0; node < net.nodeNames.length; node++) {
    const name = net.nodeNames[node]!;
    nodes[name] = { position: tripleAt(place, node) };
    if (net.freeOfNode[node]! < 0) forcesOnFixedN[name] = tripleAt(force, node);
  }
  const lines: Record<string, LineAnswer> = {};
  for (let line = 0; line < net.lineNames.length; line++) lines[net.lineNames[line]!] = lineAnswer(state, line);
  return { ok: true, residualN: unbalanced(state), iterations, nodes, lines, forcesOnFixedN };
}

function lineAnswer(state: NetworkState, line: number): LineAnswer {
  const { net, tension, ratio, stretched } = state;
  const stiff = net.stiffnessN[line]!;
  const tensionsN: number[] = [];
  const segmentsM: number[] = [];
  let unstretchedM = 0;
  for (let q = net.firstSlot[line]!; q < net.firstSlot[line + 1]! - 1; q++) {
    const t = tension[line]! * ratio[q]!;
    tensionsN.push(t);
    segmentsM.push(stretched[q]!);
    if (stiff > 0) unstretchedM += stretched[q]! / (1 + t / stiff);
  }
  const length = net.lengthM[line]!;
  return {
    tensionsN,
    slack: tension[line] === 0,
    segmentsM,
    unstretchedM: length > 0 ? length : stiff > 0 ? unstretchedM : null,
  };
}

const tripleAt = (values: Float64Array, node: number): Triple => [
  values[3 * node]!,
  values[3 * node + 1]!,
  values[3 * node + 2]!,
];
