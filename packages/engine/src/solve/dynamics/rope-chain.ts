/**
 * One rope, segment by segment, with what its sheaves and its brake remember.
 *
 * The rope between two nodes has a length with no tension in it, `ropeM`. Over a sheave it moves only when the
 * tensions of the two sides stand in the sheave's ratio, and a brake lets it through only at its slip tension; until
 * then it holds. So the tensions hang on the way the rope has gone: `ropeM` is kept as it was when last committed, and
 * each evaluation works out from it how far the rope has moved since, taking the way from there to be one without return.
 *
 * Segment j lies between nodes j and j + 1. Link i (1 and up) is the sheave between segments i − 1 and i.
 */
export interface RopeChain {
  readonly stiffnessN: number;
  readonly dampingNsM: number;
  /** Per link: ln of the tension ratio for each radian of wrap, −ln η/π. */
  readonly loss: Float64Array;
  readonly end: "fixed" | "brake" | "hands";
  /** Tension at which the brake slips or that the hands keep, N; unused where it is fixed. */
  readonly endN: number;

  /** Rope without tension in each segment, m, when last committed. */
  readonly ropeM: Float64Array;
  /** Was it slack when last committed? Then it is so until the next commit, whatever its ends do. */
  slack: boolean;

  /** To be set before each evaluation: length of each segment, m; tension ratio of each link, low over high. */
  readonly lengthM: Float64Array;
  readonly ratio: Float64Array;

  /** Found by each evaluation: tension of each segment, N, the viscous part in it, and rope in each segment, m. */
  readonly tensionN: Float64Array;
  viscousN: number;
  readonly nowM: Float64Array;
  /** Which links the rope moves over: 1 toward the end, −1 toward the start, 0 not; and whether it moves at the end. */
  readonly moves: Int8Array;
  endMoves: boolean;
}

export interface RopeChainOptions {
  readonly stiffnessN: number;
  readonly dampingNsM: number;
  readonly efficiency: readonly number[];
  readonly segments: number;
  readonly end: RopeChain["end"];
  readonly endN: number;
}

export function ropeChain(options: RopeChainOptions): RopeChain {
  const { segments, efficiency, end } = options;
  return {
    stiffnessN: options.stiffnessN,
    // Rope that runs through hands at a steady tension does not stretch.
    dampingNsM: end === "hands" ? 0 : options.dampingNsM,
    loss: Float64Array.from({ length: segments }, (_, i) =>
      i === 0 ? 0 : -Math.log(efficiency[i - 1] ?? 1) / Math.PI,
    ),
    end,
    endN: options.endN,
    ropeM: new Float64Array(segments),
    slack: false,
    lengthM: new Float64Array(segments),
    ratio: new Float64Array(segments).fill(1),
    tensionN: new Float64Array(segments),
    viscousN: 0,
    nowM: new Float64Array(segments),
    moves: Int8Array.from({ length: segments }, (_, i) => (i > 0 && (efficiency[i - 1] ?? 1) === 1 ? 1 : 0)),
    endMoves: end === "hands",
  };
}

/**
 * Lays the rope out for the first time, `lengthM` and `ratio` being set: by the tension at its first node, N, or by
 * the rope in all, m. `running`: 1 if its tension rises toward the end at each sheave, −1 if it falls, 0 for even tension.
 */
export function layChain(
  chain: RopeChain,
  by: { startTensionN: number } | { ropeM: number },
  running: -1 | 0 | 1,
): void {
  const { lengthM, ratio, ropeM, nowM, moves, loss } = chain;
  const last = lengthM.length - 1;
  const total = sum(lengthM);
  if (chain.stiffnessN === 0) {
    ropeM.set(lengthM);
    return;
  }
  const kept = Float64Array.from(ratio);
  if (running === 0) ratio.fill(1);
  for (let i = 1; i <= last; i++) if (loss[i] !== 0) moves[i] = running === 0 ? 1 : running;
  const rope = "ropeM" in by ? by.ropeM : Infinity;
  const first = "ropeM" in by ? (rope < total ? tensionOfRun(chain, 0, last, rope, 0) : 0) : by.startTensionN;
  layRun(chain, 0, last, first, 0);
  ropeM.set(nowM);
  if ("ropeM" in by && rope > total) ropeM[0]! += rope - total;
  chain.slack = first === 0 && chain.end !== "hands";
  ratio.set(kept);
  if (running === 0) for (let i = 1; i <= last; i++) if (loss[i] !== 0) moves[i] = 0;
}

/** Keeps a rope as it is, to put it back to that. */
export function chainAsLaid(chain: RopeChain): () => void {
  const { slack, endMoves, viscousN } = chain;
  const ropeM = chain.ropeM.slice();
  const nowM = chain.nowM.slice();
  const tensionN = chain.tensionN.slice();
  const moves = chain.moves.slice();
  return () => {
    chain.ropeM.set(ropeM);
    chain.nowM.set(nowM);
    chain.tensionN.set(tensionN);
    chain.moves.set(moves);
    chain.slack = slack;
    chain.endMoves = endMoves;
    chain.viscousN = viscousN;
  };
}

/**
 * The tensions of a rope whose segments have these lengths, and how far it has moved since it was last committed.
 *
 * Which links move is found by trying: a link at which the ratio is overstepped begins to move, one that would move
 * backward stops, until all agree.
 *
 * @param rateMS how fast its whole way grows, m/s
 * @returns false if no agreement was found
 */
export function pullChain(chain: RopeChain, rateMS: number): boolean {
  const { lengthM, ropeM, tensionN, nowM, stiffnessN, moves, ratio, end, endN } = chain;
  const last = lengthM.length - 1;
  if (end === "hands" && stiffnessN === 0) {
    for (let j = 0; j <= last; j++) {
      tensionN[j] = endN;
      nowM[j] = lengthM[j]!;
    }
    chain.viscousN = 0;
    return true;
  }
  const viscous = chain.dampingNsM * rateMS;
  if (last === 0 && end === "fixed") return pullSpring(chain, viscous);
  if (end !== "hands") {
    const total = sum(lengthM);
    const rope = sum(ropeM);
    const elastic = stiffnessN * (total / rope - 1);
    if (chain.slack || elastic <= 0) {
      tensionN.fill(0);
      chain.viscousN = 0;
      nowM.set(lengthM);
      nowM[0]! += rope - total;
      return true;
    }
    if (elastic + viscous <= 0) {
      // Going limp: it does not push, so the viscous part takes up no more than the stretch still pulls.
      tensionN.fill(0);
      chain.viscousN = -elastic;
      for (let j = 0; j <= last; j++) nowM[j] = (lengthM[j]! * rope) / total;
      return true;
    }
  }
  chain.viscousN = viscous;
  for (let round = 0; round < 12 + 6 * last; round++) {
    let from = 0;
    for (let j = 0; j <= last; j++) {
      if (j < last && moves[j + 1] !== 0) continue;
      layRun(chain, from, j, firstTension(chain, from, j, viscous), viscous);
      from = j + 1;
    }
    let changed = false;
    let flow = 0;
    for (let i = 1; i <= last; i++) {
      flow += ropeM[i - 1]! - nowM[i - 1]!;
      if (chain.loss[i] === 0) continue;
      const before = tensionN[i - 1]!;
      const after = tensionN[i]!;
      let move = moves[i]!;
      if (move !== 0) move = flow * move < -MOVED_M ? 0 : move;
      else if (after * ratio[i]! > before + SAME_N) move = 1;
      else if (before * ratio[i]! > after + SAME_N) move = -1;
      if (move === moves[i]) continue;
      moves[i] = move;
      changed = true;
    }
    if (end === "brake") {
      const out = sum(nowM) - sum(ropeM);
      if (chain.endMoves ? out < -MOVED_M : tensionN[last]! > endN + SAME_N) {
        chain.endMoves = !chain.endMoves;
        changed = true;
      }
    }
    if (!changed) return true;
  }
  return false;
}

/** The same of one segment that is held fast. */
function pullSpring(chain: RopeChain, viscous: number): boolean {
  const { lengthM, ropeM, tensionN, nowM } = chain;
  const elastic = chain.stiffnessN * (lengthM[0]! / ropeM[0]! - 1);
  const pulls = !chain.slack && elastic > 0;
  const tension = pulls ? Math.max(0, elastic + viscous) : 0;
  tensionN[0] = tension;
  // Going limp it takes up no more than the stretch still pulls.
  chain.viscousN = pulls ? tension - elastic : 0;
  nowM[0] = ropeM[0]!;
  return true;
}

/** How much more a segment pulls for a metre more of its length, N/m, the links that move being those that the last evaluation found. */
export function riseAbout(chain: RopeChain, segment: number): number {
  const { lengthM, moves, stiffnessN, tensionN, viscousN } = chain;
  const last = lengthM.length - 1;
  let from = segment;
  let to = segment;
  while (from > 0 && moves[from] !== 0) from--;
  while (to < last && moves[to + 1] !== 0) to++;
  if (tensionN[segment] === 0 || (chain.endMoves && to === last) || stiffnessN === 0) return 0;
  // Of Σ l/(1 + (T − D)/EA) = rope, all tensions of the run standing in their ratios.
  let gives = 0;
  for (let j = from; j <= to; j++) {
    const stretched = 1 + (tensionN[j]! - viscousN) / stiffnessN;
    gives += (lengthM[j]! * tensionN[j]!) / (stretched * stretched);
  }
  return (stiffnessN * tensionN[segment]!) / ((1 + (tensionN[segment]! - viscousN) / stiffnessN) * gives);
}

/** What has moved so far has moved: later evaluations start from here. `slack` is told anew. */
export function commitChain(chain: RopeChain): void {
  chain.ropeM.set(chain.nowM);
  if (chain.end !== "hands") chain.slack = sum(chain.lengthM) <= sum(chain.ropeM);
}

/** Rope that has gone over link i toward the end since the last commit, m; i = number of segments: out at the end. */
export function flowOver(chain: RopeChain, link: number): number {
  let flow = 0;
  for (let j = 0; j < link; j++) flow += chain.ropeM[j]! - chain.nowM[j]!;
  return flow;
}

/** Energy of stretch, J. Beside a viscous part a segment may for moments be short of its rope; that counts too. */
export function strainOf({ lengthM, nowM, stiffnessN, slack }: RopeChain): number {
  if (slack || sum(lengthM) <= sum(nowM)) return 0;
  let energy = 0;
  for (let j = 0; j < lengthM.length; j++) energy += (stiffnessN * (lengthM[j]! - nowM[j]!) ** 2) / (2 * nowM[j]!);
  return energy;
}

/** Rope that has moved by less than this has not, m. */
const MOVED_M = 1e-13;
/** Tensions closer than this are one, N. */
const SAME_N = 1e-9;

export const sum = (values: Float64Array): number => {
  let total = 0;
  for (let i = 0; i < values.length; i++) total += values[i]!;
  return total;
};

/** Tension over that of the segment before, at a link that moves. */
const stepUp = ({ moves, ratio }: RopeChain, i: number): number => (moves[i]! > 0 ? 1 / ratio[i]! : ratio[i]!);

/** Tension of the first segment of a run that is linked by moving sheaves, N. */
function firstTension(chain: RopeChain, from: number, to: number, viscous: number): number {
  if (chain.endMoves && to === chain.lengthM.length - 1) {
    let first = chain.endN;
    for (let i = to; i > from; i--) first /= stepUp(chain, i);
    return first;
  }
  let rope = 0;
  for (let j = from; j <= to; j++) rope += chain.ropeM[j]!;
  return tensionOfRun(chain, from, to, rope, viscous);
}

/** That tension for this much rope in the run, m: Σ l/(1 + (T − D)/EA) = rope, by Newton's method. */
function tensionOfRun(chain: RopeChain, from: number, to: number, rope: number, viscous: number): number {
  const { lengthM, stiffnessN, loss } = chain;
  let even = true;
  let length = lengthM[from]!;
  // Of the lengths, each by how its tension stands to the first.
  let weighed = length;
  let ratio = 1;
  for (let j = from + 1; j <= to; j++) {
    if (loss[j] !== 0) {
      even = false;
      ratio *= stepUp(chain, j);
    }
    length += lengthM[j]!;
    weighed += ratio * lengthM[j]!;
  }
  let first = stiffnessN * (length / rope - 1) + viscous;
  if (even) return first;
  // Right to first order in the stretch.
  first *= length / weighed;
  for (let iteration = 0; iteration < 30; iteration++) {
    let over = -rope;
    let slope = 0;
    let up = 1;
    for (let j = from; j <= to; j++) {
      if (j > from) up *= stepUp(chain, j);
      const stretched = 1 + (up * first - viscous) / stiffnessN;
      const part = lengthM[j]! / stretched;
      over += part;
      slope -= (part * up) / (stretched * stiffnessN);
    }
    const change = over / slope;
    first -= change;
    // What is left goes as the square of the last change.
    if (Math.abs(change) <= 1e-10 * stiffnessN || !Number.isFinite(first)) break;
  }
  return first;
}

function layRun(chain: RopeChain, from: number, to: number, first: number, viscous: number): void {
  const { lengthM, tensionN, nowM, ropeM, stiffnessN, loss } = chain;
  if (from === to && !(chain.endMoves && to === lengthM.length - 1) && ropeM[from]! > 0) {
    tensionN[from] = first;
    nowM[from] = ropeM[from]!;
    return;
  }
  let tension = first;
  let stretched = 1 + (tension - viscous) / stiffnessN;
  for (let j = from; j <= to; j++) {
    if (j > from && loss[j] !== 0) {
      tension *= stepUp(chain, j);
      stretched = 1 + (tension - viscous) / stiffnessN;
    }
    tensionN[j] = tension;
    nowM[j] = lengthM[j]! / stretched;
  }
}
