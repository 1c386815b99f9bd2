import { effectiveStiffness, type NetworkState } from "./network-state.ts";

/**
 * Adds what a line does to `state.tangent` = −∂force/∂place, at the places that the segments of the state were measured.
 *
 * @param line,first,last the line, its first slot and its last
 * @param total length of all its segments, m
 * @param rubs whether any of its sheaves takes a share of the tension
 */
export function stiffen(
  state: NetworkState,
  line: number,
  first: number,
  last: number,
  total: number,
  rubs: boolean,
): void {
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
  const compliance = t > 0 && net.stiffnessN[line]! > 0 ? 1 / effectiveStiffness(state, line) : 0;
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
  const stiff = effectiveStiffness(state, line);
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
function addRow(
  state: NetworkState,
  node: number,
  component: number,
  factor: number,
  first: number,
  last: number,
): void {
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
