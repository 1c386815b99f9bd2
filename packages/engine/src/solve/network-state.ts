import type { CompiledNetwork } from "../rope/compile-network.ts";

/** Where a solve stands: the places tried, what the ropes do there, and how that changes. Filled by `applyRopes`. */
export interface NetworkState {
  readonly net: CompiledNetwork;
  /** Unknowns: three per free node. */
  readonly size: number;
  /** Three per node, m. */
  readonly place: Float64Array;
  /** Three per node, m: where the search from anywhere began. */
  readonly origin: Float64Array;
  /** Three per node, N: all forces on a free node, what the ropes do to a fixed one. */
  readonly force: Float64Array;
  /** −∂force/∂place over the free nodes, N/m, row after row. */
  readonly tangent: Float64Array;

  /** Per line: tension at its first node, N. Negative while the solve keeps a line in the tangent that pushes. */
  readonly tension: Float64Array;
  /** Per line: tension foreseen by the last step, N, 0 or more; it weighs the turning of the rope in the tangent. */
  readonly foreseen: Float64Array;

  /** Per segment: stretched length, m; unit direction toward the last node; tension over first tension; unstretched length, m. */
  readonly stretched: Float64Array;
  readonly direction: Float64Array;
  readonly ratio: Float64Array;
  readonly unstretched: Float64Array;
  /** Three per slot: ∂(first tension of the line)/∂(place of the slot), N/m. */
  readonly tensionSlope: Float64Array;
  /** Three per slot: ∂(wrap at this sheave) over the place of the node before, and of the node after, rad/m. */
  readonly wrapBefore: Float64Array;
  readonly wrapAfter: Float64Array;
  /**
   * For lines that sag, empty where none does. Per line: tension at its last node, N; energy of stretch and height, J, while
   * `oneSided`. Three per line: pull in the middle of the rope toward the last node, N, and the one that the last step
   * foresaw (zero: none). Nine per line: slope of the pull over the way from the first node to the last, N/m.
   */
  readonly endTension: Float64Array;
  readonly hangEnergy: Float64Array;
  readonly pull: Float64Array;
  readonly foreseenPull: Float64Array;
  readonly pullSlope: Float64Array;

  /** Scratch, three per slot. */
  readonly row: Float64Array;
  readonly wrapSum: Float64Array;
  /** Scratch for one linear solve. */
  readonly matrix: Float64Array;
  readonly step: Float64Array;

  /** Compliance added to every line held by length, m/N. */
  softening: number;
  /** A segment of length d is taken as √(d² + smoothing²), m. */
  smoothing: number;
  /** A tension up to this counts as none, N. */
  slackBelowN: number;
  /** Share of the sheave loss that is in force, 0 to 1. */
  friction: number;
  /** Whether rope weight follows the rope as it moves (true), or stays as it is in `unstretched` (false). */
  liveWeight: boolean;
  /** Whether a line longer than its way is let go at once (true), or kept while a tension is foreseen for it (false). */
  oneSided: boolean;
}

/** A state with every node where the network has it, and nothing worked out yet. */
export function newNetworkState(net: CompiledNetwork): NetworkState {
  const size = 3 * net.nodeOfFree.length;
  const lines = net.lineNames.length;
  const slots = net.through.length;
  const places = net.positionM.length;
  const sagging = net.hasSag ? lines : 0;
  // One block for all: many small arrays of their own would take longer to get than a solve.
  const block = new Float64Array(3 * places + 2 * size * size + size + 2 * lines + 21 * slots + 17 * sagging);
  let taken = 0;
  const floats = (count: number) => {
    taken += count;
    return block.subarray(taken - count, taken);
  };
  const place = floats(places);
  place.set(net.positionM);
  return {
    net,
    size,
    place,
    origin: floats(places),
    force: floats(places),
    tangent: floats(size * size),
    tension: floats(lines),
    foreseen: floats(lines),
    stretched: floats(slots),
    direction: floats(3 * slots),
    ratio: floats(slots).fill(1),
    unstretched: floats(slots),
    tensionSlope: floats(3 * slots),
    wrapBefore: floats(3 * slots),
    wrapAfter: floats(3 * slots),
    endTension: floats(sagging),
    hangEnergy: floats(sagging),
    pull: floats(3 * sagging),
    foreseenPull: floats(3 * sagging),
    pullSlope: floats(9 * sagging),
    row: floats(3 * slots),
    wrapSum: floats(3 * slots),
    matrix: floats(size * size),
    step: floats(size),
    softening: 0,
    smoothing: 0,
    slackBelowN: 0,
    friction: 1,
    liveWeight: true,
    oneSided: false,
  };
}

/** EA of a line with the softening of the state in it, N; 0 for a line held by tension that gives none. */
export function effectiveStiffness(state: NetworkState, line: number): number {
  const stiff = state.net.stiffnessN[line]!;
  const length = state.net.lengthM[line]!;
  return state.softening > 0 && length > 0 ? length / (length / stiff + state.softening) : stiff;
}
