import { lineTension } from "../rope/line-tension.ts";
import { applyCatenary } from "./apply-catenary.ts";
import { effectiveStiffness, type NetworkState } from "./network-state.ts";
import { ROUNDING } from "./newton-step.ts";
import { stiffen } from "./stiffen.ts";

/**
 * What all ropes do to all nodes at the places in `state.place`: fills `force`, `tension` and the segments, and, if
 * asked, `tangent` = −∂force/∂place over the free nodes, exactly.
 *
 * A segment from node a to node b along the unit vector e, with tension t, pulls a with +t·e and b with −t·e, and its
 * rope weight rests half on each. A line that is longer than its way and for which no tension is foreseen is slack.
 * One with a tension foreseen is kept as a two-way spring, so that a Newton step can find its way back to it; its
 * tension is then negative here, and the number of such lines is returned. An answer has none.
 * A line that sags is left to `applyCatenary`; one that is not yet what it must be in an answer is counted with these.
 */
export function applyRopes(state: NetworkState, withTangent: boolean): number {
  const { net, force, tangent } = state;
  for (let i = 0; i < force.length; i++) force[i] = net.loadN[i]!;
  if (withTangent) for (let i = 0; i < tangent.length; i++) tangent[i] = 0;
  let pushing = 0;
  for (let line = 0; line < net.lineNames.length; line++) {
    const first = net.firstSlot[line]!;
    const last = net.firstSlot[line + 1]! - 1;
    if (net.hasSag && net.sags[line] === 1) {
      const hanging = applyCatenary(state, line, withTangent);
      if (hanging === "on-its-way" || hanging === "falls") pushing++;
      if (hanging === "hangs" || hanging === "on-its-way") continue;
    }
    const total = measureSegments(state, first, last);
    const rubs = net.hasFriction && passSheaves(state, first, last, withTangent);
    if (tighten(state, line, first, last) < 0) pushing++;
    pull(state, line, first, last, total);
    if (withTangent) stiffen(state, line, first, last, total, rubs);
  }
  return pushing;
}

/** Length and direction of each segment of a line; returns the length of them all, m. */
function measureSegments(state: NetworkState, first: number, last: number): number {
  const { place, stretched, direction, smoothing } = state;
  const { through } = state.net;
  let total = 0;
  for (let q = first; q < last; q++) {
    const a = 3 * through[q]!;
    const b = 3 * through[q + 1]!;
    const x = place[b]! - place[a]!;
    const y = place[b + 1]! - place[a + 1]!;
    const z = place[b + 2]! - place[a + 2]!;
    const length = Math.sqrt(x * x + y * y + z * z + smoothing * smoothing);
    const inverse = length > 0 ? 1 / length : 0;
    direction[3 * q] = x * inverse;
    direction[3 * q + 1] = y * inverse;
    direction[3 * q + 2] = z * inverse;
    stretched[q] = length;
    total += length;
  }
  return total;
}

/** Tension ratio of each segment to the first, over the sheaves between; returns whether any sheave takes a share. */
function passSheaves(state: NetworkState, first: number, last: number, withTangent: boolean): boolean {
  const { ratio, direction, stretched, wrapBefore, wrapAfter } = state;
  const { drag } = state.net;
  let rubs = false;
  ratio[first] = 1;
  for (let q = first + 1; q < last; q++) {
    const d = drag[q]! * state.friction;
    if (d === 0) {
      ratio[q] = ratio[q - 1]!;
      continue;
    }
    rubs = true;
    const i = 3 * (q - 1);
    const o = 3 * q;
    const ax = direction[i]!;
    const ay = direction[i + 1]!;
    const az = direction[i + 2]!;
    const bx = direction[o]!;
    const by = direction[o + 1]!;
    const bz = direction[o + 2]!;
    const cx = ay * bz - az * by;
    const cy = az * bx - ax * bz;
    const cz = ax * by - ay * bx;
    const along = ax * bx + ay * by + az * bz;
    const across = Math.sqrt(cx * cx + cy * cy + cz * cz);
    const wrap = Math.atan2(across, along);
    // Both are 1 but for smoothing, where a segment on the point of vanishing takes its wrap with it.
    const aa = state.smoothing > 0 ? ax * ax + ay * ay + az * az : 1;
    const bb = state.smoothing > 0 ? bx * bx + by * by + bz * bz : 1;
    ratio[q] = ratio[q - 1]! * Math.exp(d * wrap * aa * bb);
    if (!withTangent) continue;
    // The wrap opens square to each segment in the plane of the two; at no wrap, and at a half turn, that plane is not one.
    const bend = across > 1e-13 * Math.abs(along) ? 1 / across : 0;
    const before = bend > 0 ? (bb * bend) / stretched[q - 1]! : 0;
    const after = bend > 0 ? (aa * bend) / stretched[q]! : 0;
    const fadeBefore = aa < 1 ? (2 * wrap * bb * (1 - aa)) / stretched[q - 1]! : 0;
    const fadeAfter = bb < 1 ? (2 * wrap * aa * (1 - bb)) / stretched[q]! : 0;
    wrapBefore[o] = (aa * bx - along * ax) * before - fadeBefore * ax;
    wrapBefore[o + 1] = (aa * by - along * ay) * before - fadeBefore * ay;
    wrapBefore[o + 2] = (aa * bz - along * az) * before - fadeBefore * az;
    wrapAfter[o] = (bb * ax - along * bx) * after - fadeAfter * bx;
    wrapAfter[o + 1] = (bb * ay - along * by) * after - fadeAfter * by;
    wrapAfter[o + 2] = (bb * az - along * bz) * after - fadeAfter * bz;
  }
  return rubs;
}

/** First tension of a line, N: given, or from its length; zero when slack; negative when kept in spite of that. */
function tighten(state: NetworkState, line: number, first: number, last: number): number {
  const { net, tension, foreseen, stretched, ratio } = state;
  let t = net.tensionN[line]!;
  if (t < 0) {
    const stiff = effectiveStiffness(state, line);
    t = lineTension(stretched, ratio, first, last, net.lengthM[line]!, stiff);
    const least = Math.max(ROUNDING * stiff, state.slackBelowN);
    if (t < least && (state.oneSided || !(foreseen[line]! > 0))) t = 0;
  }
  tension[line] = t;
  return t;
}

/** Adds the pull and the weight of a line to the forces on its nodes. */
function pull(state: NetworkState, line: number, first: number, last: number, total: number): void {
  const { net, force, direction, stretched, ratio, tension, unstretched } = state;
  const t = tension[line]!;
  const weight = net.weightNM[line]!;
  if (t === 0 && weight === 0) return;
  const length = net.lengthM[line]!;
  const compliance = t > 0 && net.stiffnessN[line]! > 0 ? 1 / effectiveStiffness(state, line) : 0;
  for (let q = first; q < last; q++) {
    const a = 3 * net.through[q]!;
    const b = 3 * net.through[q + 1]!;
    const tq = t * ratio[q]!;
    const x = tq * direction[3 * q]!;
    const y = tq * direction[3 * q + 1]!;
    const z = tq * direction[3 * q + 2]!;
    force[a]! += x;
    force[a + 1]! += y;
    force[a + 2]! += z;
    force[b]! -= x;
    force[b + 1]! -= y;
    force[b + 2]! -= z;
    if (weight === 0) continue;
    if (state.liveWeight) {
      unstretched[q] =
        t > 0 || length === 0
          ? stretched[q]! / (1 + tq * compliance)
          : total > 0
            ? (stretched[q]! * length) / total
            : length / (last - first);
    }
    const half = 0.5 * weight * unstretched[q]!;
    force[a + 2]! -= half;
    force[b + 2]! -= half;
  }
}
