import type { Triple } from "../base/vector.ts";
import { formOfPull } from "../rope/catenary-form.ts";
import { stretchedOfForm } from "../rope/catenary-way.ts";
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
  if (net.sags[line] === 1) return saggingAnswer(state, line);
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

/** Of a line that hangs in a catenary: it is never slack, and there is always a length to tell. */
function saggingAnswer(state: NetworkState, line: number): LineAnswer {
  const { net, tension, endTension, pull, unstretched } = state;
  const lengthM = unstretched[net.firstSlot[line]!]!;
  const stiff = net.stiffnessN[line]!;
  const rope = { lengthM, weightNM: net.weightNM[line]!, compliancePerN: stiff > 0 ? 1 / stiff : 0 };
  const form = formOfPull(rope, Math.hypot(pull[3 * line]!, pull[3 * line + 1]!), pull[3 * line + 2]!);
  return {
    tensionsN: [tension[line]!],
    tensionAtEndN: endTension[line]!,
    slack: false,
    segmentsM: [stretchedOfForm(rope, form)],
    unstretchedM: lengthM,
  };
}

const tripleAt = (values: Float64Array, node: number): Triple => [
  values[3 * node]!,
  values[3 * node + 1]!,
  values[3 * node + 2]!,
];
