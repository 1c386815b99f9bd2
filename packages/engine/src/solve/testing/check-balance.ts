import type { Network, NetworkAnswer } from "../../rope/network.ts";
import { hangByBisection } from "./hang-by-bisection.ts";

export interface BalanceCheck {
  /** Largest force left over at a free node, N. */
  readonly residualN: number;
  /** Largest tension or load, N. */
  readonly largestN: number;
  /** Largest difference between a tension in the answer and the one its geometry asks for, N. */
  readonly tensionErrorN: number;
  /** Largest difference between a force on a fixed node in the answer and the one worked out here, N. */
  readonly fixedErrorN: number;
  /** Sum of forces on fixed nodes less all loads and rope weight, N. */
  readonly sumErrorN: number;
  readonly lowestTensionN: number;
  readonly finite: boolean;
}

type Vector = [number, number, number];

/**
 * Checks an answer from the network and the places of its nodes alone; shares no code with the solver.
 *
 * The tension of each line is found anew from the geometry, by bisection on the rope that the line would hold at a tension; of
 * one that sags, from the textbook equations of the catenary of its length.
 */
export function checkBalance(network: Network, answer: NetworkAnswer): BalanceCheck {
  const gravity = network.gravityMS2 ?? 9.80665;
  const at = (name: string) => answer.nodes[name]!.position;
  const force: Record<string, Vector> = {};
  const loads: Vector = [0, 0, 0];
  let largestN = 0;
  let tensionErrorN = 0;
  let lowestTensionN = Infinity;
  for (const [name, node] of Object.entries(network.nodes)) {
    force[name] = [0, 0, 0];
    if (!node.free) continue;
    const [x, y, z] = node.forceN ?? [0, 0, 0];
    force[name] = [x, y, z - (node.massKg ?? 0) * gravity];
    largestN = Math.max(largestN, Math.hypot(...force[name]));
    for (let i = 0; i < 3; i++) loads[i]! += force[name]![i]!;
  }
  for (const [name, line] of Object.entries(network.lines)) {
    const given = answer.lines[name]!;
    if (line.sag) {
      const [from, to] = line.through as [string, string];
      const [a, b] = [at(from), at(to)];
      const level = Math.hypot(b[0] - a[0], b[1] - a[1]);
      const weight = line.linearMassKgM! * gravity;
      const length = given.unstretchedM!;
      const pull = hangByBisection(level, b[2] - a[2], length, line.axialStiffnessN!, weight);
      const atA = Math.hypot(pull.levelN, pull.upAtAN);
      const atB = Math.hypot(pull.levelN, pull.upAtBN);
      largestN = Math.max(largestN, atA, atB);
      lowestTensionN = Math.min(lowestTensionN, given.tensionsN[0]!, given.tensionAtEndN!);
      tensionErrorN = Math.max(
        tensionErrorN,
        Math.abs(atA - given.tensionsN[0]!),
        Math.abs(atB - given.tensionAtEndN!),
        Math.abs(atA - (line.tensionN ?? atA)),
        weight * Math.abs(length - (line.lengthM ?? length)),
      );
      for (let c = 0; c < 2; c++) {
        const across = level > 0 ? (pull.levelN * (b[c]! - a[c]!)) / level : 0;
        force[from]![c]! += across;
        force[to]![c]! -= across;
      }
      force[from]![2] += pull.upAtAN;
      force[to]![2] -= pull.upAtBN;
      loads[2] -= weight * length;
      continue;
    }
    const lengths: number[] = [];
    for (let i = 1; i < line.through.length; i++) lengths.push(between(at(line.through[i - 1]!), at(line.through[i]!)));
    const total = lengths.reduce((a, b) => a + b, 0);
    const ratios = [1];
    for (let i = 1; i < lengths.length; i++) {
      const wrap = turn(at(line.through[i - 1]!), at(line.through[i]!), at(line.through[i + 1]!));
      const passed = (line.efficiency?.[i - 1] ?? 1) ** (wrap / Math.PI);
      const factor = line.travel === "toEnd" ? 1 / passed : line.travel === "toStart" ? passed : 1;
      ratios.push(ratios[i - 1]! * factor);
    }
    let first = line.tensionN ?? 0;
    if (line.lengthM !== undefined && total > line.lengthM) {
      const heldAt = (t: number) =>
        lengths.reduce((sum, l, i) => sum + l / (1 + (ratios[i]! * t) / line.axialStiffnessN!), 0);
      let low = 0;
      let high = 1;
      while (heldAt(high) > line.lengthM) high *= 2;
      for (let i = 0; i < 200; i++) {
        const middle = (low + high) / 2;
        if (heldAt(middle) > line.lengthM) low = middle;
        else high = middle;
      }
      first = (low + high) / 2;
    }
    const stretchy = line.axialStiffnessN !== undefined;
    for (let i = 0; i < lengths.length; i++) {
      const t = first * ratios[i]!;
      const told = given.tensionsN[i]!;
      largestN = Math.max(largestN, t);
      lowestTensionN = Math.min(lowestTensionN, told);
      tensionErrorN = Math.max(tensionErrorN, Math.abs(t - told));
      let unstretched = stretchy ? lengths[i]! / (1 + t / line.axialStiffnessN!) : lengths[i]!;
      if (first === 0 && line.lengthM !== undefined)
        unstretched = total > 0 ? (lengths[i]! * line.lengthM) / total : line.lengthM / lengths.length;
      const weight = (line.linearMassKgM ?? 0) * gravity * unstretched;
      loads[2] -= weight;
      const [a, b] = [line.through[i]!, line.through[i + 1]!];
      for (let c = 0; c < 3; c++) {
        const pull = lengths[i]! > 0 ? (t * (at(b)[c]! - at(a)[c]!)) / lengths[i]! : 0;
        force[a]![c]! += pull - (c === 2 ? weight / 2 : 0);
        force[b]![c]! -= pull + (c === 2 ? weight / 2 : 0);
      }
    }
  }
  let residualN = 0;
  let fixedErrorN = 0;
  for (const [name, node] of Object.entries(network.nodes)) {
    if (node.free) residualN = Math.max(residualN, Math.hypot(...force[name]!));
    else {
      const given = answer.forcesOnFixedN[name]!;
      fixedErrorN = Math.max(fixedErrorN, Math.hypot(...force[name]!.map((f, c) => f - given[c]!)));
      for (let c = 0; c < 3; c++) loads[c]! -= given[c]!;
    }
  }
  const numbers = JSON.stringify(answer, (_, v) => (typeof v === "number" && !Number.isFinite(v) ? "not finite" : v));
  return {
    residualN,
    largestN,
    tensionErrorN,
    fixedErrorN,
    lowestTensionN,
    sumErrorN: Math.hypot(...loads),
    finite: !numbers.includes("not finite"),
  };
}

const between = (a: readonly number[], b: readonly number[]) => Math.hypot(a[0]! - b[0]!, a[1]! - b[1]!, a[2]! - b[2]!);

/** Angle by which the way a → b → c turns at b, rad; half-angle form by W. Kahan, accurate near 0 and π. */
function turn(a: readonly number[], b: readonly number[], c: readonly number[]): number {
  const ab = between(a, b);
  const bc = between(b, c);
  if (ab === 0 || bc === 0) return 0;
  const difference: number[] = [];
  const sum: number[] = [];
  for (let i = 0; i < 3; i++) {
    const into = (b[i]! - a[i]!) / ab;
    const out = (c[i]! - b[i]!) / bc;
    difference.push(into - out);
    sum.push(into + out);
  }
  return 2 * Math.atan2(Math.hypot(...difference), Math.hypot(...sum));
}
