import { effectiveStiffness, type NetworkState } from "./network-state.ts";

/**
 * Adds what a line does to `state.tangent` = −∂force/∂place, at the places where the segments of the state were measured.
 *
 * A *row* in here is the slope of one quantity over the places of all slots of the line, three numbers per slot, each at the
 * number of its slot.
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
  const { net, stretched, ratio, tension, foreseen, tensionSlope, wrapSum, row } = state;
  const t = tension[line]!;
  const byLength = net.lengthM[line]! > 0;
  const weight = state.liveWeight ? net.weightNM[line]! : 0;
  const kept = byLength && (t !== 0 || (!state.oneSided && foreseen[line]! > 0));
  clear(tensionSlope, first, last);
  if (kept) slopeOfTension(state, line, first, last, rubs);
  if (!kept && t === 0 && weight === 0) return;

  const turning = !byLength ? t : kept ? foreseen[line]! : 0;
  const compliance = t > 0 && net.stiffnessN[line]! > 0 ? 1 / effectiveStiffness(state, line) : 0;
  if (rubs) clear(wrapSum, first, last);
  for (let q = first; q < last; q++) {
    const r = ratio[q]!;
    const tq = r * turning;
    if (rubs && q > first) addWrapSlope(state, q, net.drag[q]! * state.friction, wrapSum);
    if (kept || rubs) {
      for (let i = 3 * first; i < 3 * last + 3; i++) row[i] = r * tensionSlope[i]! + (rubs ? tq * wrapSum[i]! : 0);
      addAlong(state, q, first, last);
    } else if (weight > 0) clear(row, first, last);
    if (tq !== 0 && stretched[q]! > 0) addTurning(state, q, tq / stretched[q]!);
    if (weight === 0) continue;

    // The row of the unstretched length of the segment, made from that of its tension.
    const pulled = 1 + t * r * compliance;
    let own = 1 / pulled;
    if (t > 0 || !byLength) {
      const shrink = (-stretched[q]! * compliance) / (pulled * pulled);
      for (let i = 3 * first; i < 3 * last + 3; i++) row[i]! *= shrink;
    } else {
      clear(row, first, last);
      if (!(total > 0)) continue;
      own = net.lengthM[line]! / total;
      for (let p = first; p < last; p++) addStretch(state, p, (-own * stretched[q]!) / total, row);
    }
    addStretch(state, q, own, row);
    addRow(state, net.through[q]!, 2, 0.5 * weight, first, last);
    addRow(state, net.through[q + 1]!, 2, 0.5 * weight, first, last);
  }
}

/** The row of the first tension, N/m, by the implicit function of `lineTension`. */
function slopeOfTension(state: NetworkState, line: number, first: number, last: number, rubs: boolean): void {
  const { net, stretched, ratio, tensionSlope } = state;
  const stiff = effectiveStiffness(state, line);
  const strain = Math.max(0, state.tension[line]! / stiff);
  let slope = 0;
  for (let q = first; q < last; q++) {
    const stretch = 1 + ratio[q]! * strain;
    slope += (stretched[q]! * ratio[q]!) / (stretch * stretch);
  }
  const scale = slope > 0 ? stiff / slope : stiff / net.lengthM[line]!;
  let after = 0;
  for (let q = last - 1; q >= first; q--) {
    const stretch = 1 + ratio[q]! * strain;
    addStretch(state, q, scale / stretch, tensionSlope);
    if (!rubs) continue;
    after -= (scale * stretched[q]! * strain * ratio[q]!) / (stretch * stretch);
    if (q > first) addWrapSlope(state, q, after * net.drag[q]! * state.friction, tensionSlope);
  }
}

/** row += factor · the row of the length of segment q. */
function addStretch(state: NetworkState, q: number, factor: number, row: Float64Array): void {
  const { direction } = state;
  for (let i = 3 * q; i < 3 * q + 3; i++) {
    const part = factor * direction[i]!;
    row[i]! -= part;
    row[i + 3]! += part;
  }
}

/** row += factor · the row of the wrap at the sheave of slot q. */
function addWrapSlope(state: NetworkState, q: number, factor: number, row: Float64Array): void {
  if (factor === 0) return;
  const { wrapBefore, wrapAfter } = state;
  for (let i = 3 * q; i < 3 * q + 3; i++) {
    const before = factor * wrapBefore[i]!;
    const after = factor * wrapAfter[i]!;
    row[i - 3]! += before;
    row[i]! += after - before;
    row[i + 3]! -= after;
  }
}

function clear(row: Float64Array, first: number, last: number): void {
  for (let i = 3 * first; i < 3 * last + 3; i++) row[i] = 0;
}

/** Tangent of one component of a node's force += factor · `state.row`, if the node is free. */
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
    tangent[base + 3 * to]! += factor * row[3 * slot]!;
    tangent[base + 3 * to + 1]! += factor * row[3 * slot + 1]!;
    tangent[base + 3 * to + 2]! += factor * row[3 * slot + 2]!;
  }
}

/** Pull along segment q, whose tension has the row `state.row`. */
function addAlong(state: NetworkState, q: number, first: number, last: number): void {
  const { net, direction } = state;
  for (let i = 0; i < 3; i++) {
    const e = direction[3 * q + i]!;
    addRow(state, net.through[q]!, i, -e, first, last);
    addRow(state, net.through[q + 1]!, i, e, first, last);
  }
}

/** Pull of segment q, whose direction turns: stiffness × (I − e·eᵀ) between its two nodes, N/m. */
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
