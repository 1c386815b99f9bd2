import { STANDARD_GRAVITY_MS2 } from "../base/constants.ts";
import type { Network } from "./network.ts";

/**
 * A network with names turned to numbers, laid out for a solver: what a sweep compiles once and solves many times.
 *
 * Nodes and lines keep the order they have in the network. The nodes of all lines stand one after another in `through`;
 * a place in it is a *slot*, and line L owns the slots from `firstSlot[L]` up to `firstSlot[L + 1]`. A segment, and
 * the sheave at an inner node, bear the number of the slot they begin or stand at.
 */
export interface CompiledNetwork {
  readonly network: Network;
  readonly nodeNames: readonly string[];
  readonly lineNames: readonly string[];
  /** Free node → node. */
  readonly nodeOfFree: Int32Array;
  /** Node → free node, or −1 for a fixed one. */
  readonly freeOfNode: Int32Array;
  /** Three per node, m: the place of a fixed node, the first guess for a free one. */
  readonly positionM: Float64Array;
  /** Three per node, N: weight and force from outside; zero for fixed nodes. */
  readonly loadN: Float64Array;
  readonly firstSlot: Int32Array;
  /** Slot → node. */
  readonly through: Int32Array;
  /** Per line: unstretched length, m; 0 for a line held by tension. */
  readonly lengthM: Float64Array;
  /** Per line: EA, N; 0 where a line held by tension gives none. */
  readonly stiffnessN: Float64Array;
  /** Per line: tension at the first node, N; −1 for a line held by length. */
  readonly tensionN: Float64Array;
  /** Per line: rope weight, N/m. */
  readonly weightNM: Float64Array;
  /** Per slot: d(ln T)/d(wrap) going over this sheave toward the last node, 1/rad. One beside a segment of no length has no wrap. */
  readonly drag: Float64Array;
  /** Per line: 1 if it hangs in a catenary. */
  readonly sags: Uint8Array;
  readonly hasFriction: boolean;
  /** Whether the weight of any rope changes as the nodes move: lumped, or of a sagging line held by tension. */
  readonly hasRopeWeight: boolean;
  readonly hasSag: boolean;
  /** A length that spans what is given of the network: its fixed nodes and its longest rope, m. No guess has a part in it. */
  readonly sizeM: number;
  /** The same with the first guesses in it, m. */
  readonly reachM: number;
  /** A force that bounds what is put on from outside, N. */
  readonly forceN: number;
}

/**
 * Turns the names of a network into numbers.
 *
 * The network is taken to be sound (as `readNetworks` leaves it): an unknown node name in `through` is a bug and
 * throws a `RangeError`, and so is a line that sags through other than two nodes. One without weight is straight. `frictionless` leaves every sheave loss out.
 */
export function compileNetwork(network: Network, frictionless = false): CompiledNetwork {
  const nodeNames = Object.keys(network.nodes);
  const lineNames = Object.keys(network.lines);
  const gravity = network.gravityMS2 ?? STANDARD_GRAVITY_MS2;
  const index = new Map<string, number>();
  const freeOfNode = new Int32Array(nodeNames.length).fill(-1);
  const positionM = new Float64Array(3 * nodeNames.length);
  const loadN = new Float64Array(3 * nodeNames.length);
  const free: number[] = [];
  let forceN = 0;
  for (let i = 0; i < nodeNames.length; i++) {
    const name = nodeNames[i]!;
    const node = network.nodes[name]!;
    index.set(name, i);
    positionM.set(node.position, 3 * i);
    if (!node.free) continue;
    freeOfNode[i] = free.length;
    free.push(i);
    const [x, y, z] = node.forceN ?? [0, 0, 0];
    loadN[3 * i] = x;
    loadN[3 * i + 1] = y;
    loadN[3 * i + 2] = z - (node.massKg ?? 0) * gravity;
    forceN += Math.hypot(x, y, loadN[3 * i + 2]!);
  }

  const lineCount = lineNames.length;
  const firstSlot = new Int32Array(lineCount + 1);
  for (let k = 0; k < lineCount; k++) {
    firstSlot[k + 1] = firstSlot[k]! + network.lines[lineNames[k]!]!.through.length;
  }
  const through = new Int32Array(firstSlot[lineCount]!);
  const drag = new Float64Array(through.length);
  const lengthM = new Float64Array(lineCount);
  const stiffnessN = new Float64Array(lineCount);
  const tensionN = new Float64Array(lineCount);
  const weightNM = new Float64Array(lineCount);
  const sags = new Uint8Array(lineCount);
  let hasFriction = false;
  let hasSag = false;
  let hasRopeWeight = false;
  let longestM = 0;
  for (let k = 0; k < lineCount; k++) {
    const line = network.lines[lineNames[k]!]!;
    const first = firstSlot[k]!;
    const sense = frictionless ? 0 : line.travel === "toEnd" ? 1 : line.travel === "toStart" ? -1 : 0;
    for (let j = 0; j < line.through.length; j++) {
      const node = index.get(line.through[j]!);
      if (node === undefined) throw new RangeError(`line ${lineNames[k]} runs through unknown node ${line.through[j]}`);
      through[first + j] = node;
      if (j === 0 || j === line.through.length - 1 || sense === 0) continue;
      const d = (-sense * Math.log(line.efficiency?.[j - 1] ?? 1)) / Math.PI;
      drag[first + j] = d;
      if (d !== 0) hasFriction = true;
    }
    lengthM[k] = line.lengthM ?? 0;
    stiffnessN[k] = line.axialStiffnessN ?? 0;
    tensionN[k] = line.tensionN ?? -1;
    weightNM[k] = (line.linearMassKgM ?? 0) * gravity;
    if (line.sag && weightNM[k]! > 0) {
      if (line.through.length !== 2) throw new RangeError(`line ${lineNames[k]} sags through other than two nodes`);
      sags[k] = 1;
      hasSag = true;
    }
    if (weightNM[k]! > 0 && (!line.sag || line.tensionN !== undefined)) hasRopeWeight = true;
    longestM = Math.max(longestM, lengthM[k]!);
    forceN += Math.max(0, tensionN[k]!) + weightNM[k]! * lengthM[k]!;
  }
  const sizeM = Math.max(span(positionM, freeOfNode), longestM);
  const reachM = Math.max(span(positionM), sizeM, 1e-3);
  return {
    network,
    nodeNames,
    lineNames,
    nodeOfFree: Int32Array.from(free),
    freeOfNode,
    positionM,
    loadN,
    firstSlot,
    through,
    lengthM,
    stiffnessN,
    tensionN,
    weightNM,
    drag,
    sags,
    hasFriction,
    hasRopeWeight,
    hasSag,
    sizeM: sizeM > 0 ? sizeM : reachM,
    reachM,
    forceN,
  };
}

/** Longest side of the box around points given as triples, or around those that are not free, m. */
function span(points: Float64Array, freeOfNode?: Int32Array): number {
  let longest = 0;
  for (let axis = 0; axis < 3; axis++) {
    let low = Infinity;
    let high = -Infinity;
    for (let i = axis; i < points.length; i += 3) {
      if (freeOfNode && freeOfNode[(i - axis) / 3]! >= 0) continue;
      low = Math.min(low, points[i]!);
      high = Math.max(high, points[i]!);
    }
    longest = Math.max(longest, high - low);
  }
  return longest;
}
