import { solveDense } from "../numerics/solve-dense.ts";
import { effectiveStiffness, type NetworkState } from "./network-state.ts";

/**
 * The move of the free nodes that would bring them into balance, were the ropes to go on as they do here: solves
 * (tangent + shift) · step = force into `state.step`. The shift, N/m, stands for a spring from each free node to where it is.
 * False when there is no such move.
 */
export function newtonStep(state: NetworkState, shiftNM: number): boolean {
  const { net, size, force, tangent, matrix, step } = state;
  for (let i = 0; i < matrix.length; i++) matrix[i] = tangent[i]!;
  for (let i = 0; i < size; i++) matrix[i * (size + 1)]! += shiftNM;
  for (let f = 0; f < net.nodeOfFree.length; f++) {
    const node = 3 * net.nodeOfFree[f]!;
    step[3 * f] = force[node]!;
    step[3 * f + 1] = force[node + 1]!;
    step[3 * f + 2] = force[node + 2]!;
  }
  return solveDense(matrix, step, size);
}

/** Puts the free nodes at `from` plus the step. */
export function takeStep(state: NetworkState, from: Float64Array): void {
  const { net, place, step } = state;
  for (let f = 0; f < net.nodeOfFree.length; f++) {
    const node = 3 * net.nodeOfFree[f]!;
    for (let i = 0; i < 3; i++) place[node + i] = from[node + i]! + step[3 * f + i]!;
  }
}

/** First tension of a line after the step, to first order, N; 0 where it would be no more than rounding, or is given. */
export function tensionAfterStep(state: NetworkState, line: number): number {
  const { net, step, tensionSlope } = state;
  if (net.tensionN[line]! >= 0) return 0;
  let tension = state.tension[line]!;
  for (let slot = net.firstSlot[line]!; slot < net.firstSlot[line + 1]!; slot++) {
    const f = net.freeOfNode[net.through[slot]!]!;
    if (f < 0) continue;
    for (let i = 0; i < 3; i++) tension += tensionSlope[3 * slot + i]! * step[3 * f + i]!;
  }
  return tension > ROUNDING * effectiveStiffness(state, line) ? tension : 0;
}

/** Pull of each sagging line of given length after the step, to first order, into `state.foreseenPull`. */
export function foreseePulls(state: NetworkState): void {
  const { net, step, pull, pullSlope, foreseenPull } = state;
  if (!net.hasSag) return;
  for (let line = 0; line < net.lineNames.length; line++) {
    if (net.sags[line] !== 1 || net.lengthM[line] === 0) continue;
    const a = net.freeOfNode[net.through[net.firstSlot[line]!]!]!;
    const b = net.freeOfNode[net.through[net.firstSlot[line]! + 1]!]!;
    for (let i = 0; i < 3; i++) {
      let after = pull[3 * line + i]!;
      for (let j = 0; j < 3; j++) {
        const growth = (b < 0 ? 0 : step[3 * b + j]!) - (a < 0 ? 0 : step[3 * a + j]!);
        after += pullSlope[9 * line + 3 * i + j]! * growth;
      }
      foreseenPull[3 * line + i] = after;
    }
  }
}

/** A tension below this share of EA is the rounding of lengths, and no tension. */
export const ROUNDING = 4e-16;
