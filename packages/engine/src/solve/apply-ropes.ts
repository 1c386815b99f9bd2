import { lineTension } from "../rope/line-tension.ts";
import type { NetworkState } from "./network-state.ts";

/**
 * What all ropes do to all nodes at the places in `state.place`: fills `force`, `tension` and the segments, and, if
 * asked, `tangent` = −∂force/∂place over the free nodes, exactly.
 *
 * A segment from node a to node b along the unit vector e, with tension t, pulls a with +t·e and b with −t·e, and its
 * rope weight rests half on each. A line that is longer than its way and for which no tension is foreseen is slack.
 * One with a tension foreseen is kept as a two-way spring, so that a Newton step can find its way back to it; its
 * tension is then negative here, and the number of such lines is returned. An answer has none.
 */
export function applyRopes(state: NetworkState, withTangent: boolean): number {
  const { net, force, tangent } = state;
  force.set(net.loadN);
  if (withTangent) tangent.fill(0);
  let pushing = 0;
  for (let line = 0; line < net.lineNames.length; line++) {
    const first = net.firstSlot[line]!;
    const last = net.firstSlot[line + 1]! - 1;
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
    ratio[q] = ratio[q - 1]! * Math.exp(d * Math.atan2(across, along));
    if (!withTangent) continue;
    // Square to each segment in the plane of the two, over the sine of the wrap and the length the segment swings on.
    if (across <= 1e-13 * along || across === 0) {
      wrapBefore.fill(0, o, o + 3);
      wrapAfter.fill(0, o, o + 3);
      continue;
    }
    const before = 1 / (across * stretched[q - 1]!);
    const after = 1 / (across * stretched[q]!);
    const alongA = along / (ax * ax + ay * ay + az * az);
    const alongB = along / (bx * bx + by * by + bz * bz);
    wrapBefore[o] = (bx - alongA * ax) * before;
    wrapBefore[o + 1] = (by - alongA * ay) * before;
    wrapBefore[o + 2] = (bz - alongA * az) * before;
    wrapAfter[o] = (ax - alongB * bx) * after;
    wrapAfter[o + 1] = (ay - alongB * by) * after;
    wrapAfter[o + 2] = (az - alongB * bz) * after;
  }
  return rubs;
}

/** EA of a line with the softening of the state in it, N; 0 for a line held by tension that gives none. */
function stiffness(state: NetworkState, line: number): number {
  const stiff = state.net.stiffnessN[line]!;
  const length = state.net.lengthM[line]!;
  return state.softening > 0 && length > 0 ? length / (length / stiff + state.softening) : stiff;
}

/** First tension of a line, N: given, or from its length; zero when slack; negative when kept in spite of that. */
function tighten(state: NetworkState, line: number, first: number, last: number): number {
  const { net, tension, foreseen, stretched, ratio } = state;
  let t = net.tensionN[line]!;
  if (t < 0) {
    t = lineTension(stretched, ratio, first, last, net.lengthM[line]!, stiffness(state, line));
    if (t < 0 && (state.oneSided || !(foreseen[line]! > 0))) t = 0;
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
  const compliance = t > 0 && net.stiffnessN[line]! > 0 ? 1 / stiffness(state, line) : 0;
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

/** Adds what a line does to the tangent. */
function stiffen(state: NetworkState, line: number, first: number, last: number, total: number, rubs: boolean): void {
  const { net, direction, stretched, ratio, tension, foreseen, tensionSlope, wrapSum, row } = state;
  const t = tension[line]!;
  const byLength = net.lengthM[line]! > 0;
  const weight = state.liveWeight ? net.weightNM[line]! : 0;
  const width = 3 * (last - first + 1);
  tensionSlope.fill(0, 3 * first, 3 * first + width);
  const kept = byLength && (t !== 0 || (!state.oneSided && foreseen[line]! > 0));
  if (kept) slopeOfTension(state, line, first, last, rubs);
  if (!kept && t === 0 && weight === 0) return;

  const turning = !byLength ? t : kept ? foreseen[line]! : 0;
  const compliance = t > 0 && net.stiffnessN[line]! > 0 ? 1 / stiffness(state, line) : 0;
  wrapSum.fill(0, 0, width);
  for (let q = first; q < last; q++) {
    const o = q - first;
    if (rubs && q > first) addWrapSlope(state, q, first, net.drag[q]! * state.friction, wrapSum);
    const r = ratio[q]!;
    const tq = r * turning;
    if (kept || rubs) {
      for (let i = 0; i < width; i++) row[i] = r * tensionSlope[3 * first + i]! + tq * wrapSum[i]!;
      addAlong(state, q, first, last);
    } else if (weight > 0) row.fill(0, 0, width);
    if (tq !== 0 && stretched[q]! > 0) addTurning(state, q, tq / stretched[q]!);
    if (weight === 0) continue;

    // Slope of the unstretched length of the segment, into `row`.
    const pulled = 1 + t * r * compliance;
    let own = 1 / pulled;
    if (t > 0 || !byLength) {
      const shrink = (-stretched[q]! * compliance) / (pulled * pulled);
      for (let i = 0; i < width; i++) row[i]! *= shrink;
    } else {
      row.fill(0, 0, width);
      if (!(total > 0)) continue;
      own = net.lengthM[line]! / total;
      const shared = (-own * stretched[q]!) / total;
      for (let p = first; p < last; p++) addStretch(direction, p, p - first, shared, row);
    }
    addStretch(direction, q, o, own, row);
    addRow(state, net.through[q]!, 2, 0.5 * weight, first, last);
    addRow(state, net.through[q + 1]!, 2, 0.5 * weight, first, last);
  }
}

/** ∂(first tension)/∂(places of the line's slots), N/m, by the implicit function of `lineTension`. */
function slopeOfTension(state: NetworkState, line: number, first: number, last: number, rubs: boolean): void {
  const { net, direction, stretched, ratio, tensionSlope } = state;
  const stiff = stiffness(state, line);
  const strain = Math.max(0, state.tension[line]! / stiff);
  let slope = 0;
  for (let q = first; q < last; q++) {
    const stretch = 1 + ratio[q]! * strain;
    slope += (stretched[q]! * ratio[q]!) / (stretch * stretch);
  }
  const scale = slope > 0 ? stiff / slope : stiff / net.lengthM[line]!;
  const own = tensionSlope.subarray(3 * first, 3 * (last + 1));
  let after = 0;
  for (let q = last - 1; q >= first; q--) {
    const stretch = 1 + ratio[q]! * strain;
    addStretch(direction, q, q - first, scale / stretch, own);
    if (!rubs) continue;
    after -= (scale * stretched[q]! * strain * ratio[q]!) / (stretch * stretch);
    if (q > first) addWrapSlope(state, q, first, after * net.drag[q]! * state.friction, own);
  }
}

/** row += factor · ∂(length of segment q); `o` is the place of its first slot in the row. */
function addStretch(direction: Float64Array, q: number, o: number, factor: number, row: Float64Array): void {
  for (let i = 0; i < 3; i++) {
    const part = factor * direction[3 * q + i]!;
    row[3 * o + i]! -= part;
    row[3 * o + 3 + i]! += part;
  }
}

/** row += factor · ∂(wrap at the sheave of slot q). */
function addWrapSlope(state: NetworkState, q: number, first: number, factor: number, row: Float64Array): void {
  if (factor === 0) return;
  const { wrapBefore, wrapAfter } = state;
  const o = 3 * (q - first);
  for (let i = 0; i < 3; i++) {
    const before = factor * wrapBefore[3 * q + i]!;
    const after = factor * wrapAfter[3 * q + i]!;
    row[o - 3 + i]! += before;
    row[o + i]! += after - before;
    row[o + 3 + i]! -= after;
  }
}

/** Tangent row of one component of a node += factor · `row`, for a node that is free. */
function addRow(state: NetworkState, node: number, component: number, factor: number, first: number, last: number): void {
  const { net, tangent, size, row } = state;
  const at = net.freeOfNode[node]!;
  if (at < 0 || factor === 0) return;
  const base = (3 * at + component) * size;
  for (let slot = first; slot <= last; slot++) {
    const to = net.freeOfNode[net.through[slot]!]!;
    if (to < 0) continue;
    const o = 3 * (slot - first);
    tangent[base + 3 * to]! += factor * row[o]!;
    tangent[base + 3 * to + 1]! += factor * row[o + 1]!;
    tangent[base + 3 * to + 2]! += factor * row[o + 2]!;
  }
}

/** Pull along segment q whose tension changes as `row` says. */
function addAlong(state: NetworkState, q: number, first: number, last: number): void {
  const { direction } = state;
  const a = state.net.through[q]!;
  const b = state.net.through[q + 1]!;
  for (let i = 0; i < 3; i++) {
    const e = direction[3 * q + i]!;
    addRow(state, a, i, -e, first, last);
    addRow(state, b, i, e, first, last);
  }
}

/** Pull of segment q whose direction turns: stiffness × (I − e·eᵀ) between its two nodes, N/m. */
function addTurning(state: NetworkState, q: number, stiffnessNM: number): void {
  const { net, tangent, size, direction } = state;
  const a = net.freeOfNode[net.through[q]!]!;
  const b = net.freeOfNode[net.through[q + 1]!]!;
  for (let i = 0; i < 3; i++) {
    for (let j = 0; j < 3; j++) {
      const k = stiffnessNM * ((i === j ? 1 : 0) - direction[3 * q + i]! * direction[3 * q + j]!);
      if (a >= 0) tangent[(3 * a + i) * size + 3 * a + j]! += k;
      if (b >= 0) tangent[(3 * b + i) * size + 3 * b + j]! += k;
      if (a >= 0 && b >= 0) {
        tangent[(3 * a + i) * size + 3 * b + j]! -= k;
        tangent[(3 * b + i) * size + 3 * a + j]! -= k;
      }
    }
  }
}
