import { lendFloats } from "../../numerics/lent-floats.ts";
import type { CompiledLine, CompiledSystem, Mover } from "./compiled-system.ts";
import { placeRider } from "./place-rider.ts";
import { pullChain } from "./rope-chain.ts";
import { placeMovers, setGeometry, setLine } from "./set-geometry.ts";

/** How a state changes, and the forces that do it. */
export interface MovingSystem {
  /** Derivative of the state, into `into`; the chains then hold their tensions. */
  readonly derivative: (state: Float64Array, into: Float64Array) => void;
  /** Where the ropes that run over sheaves with loss or to brakes will be a moment later, by a state and its derivative; of nothing else. */
  readonly lookAhead: (state: Float64Array, slope: Float64Array, laterS: number) => void;
  /** Force of the ropes on each node that moves, N, three each, of the last evaluation. */
  readonly pullN: Float64Array;
  /** The same on every node. */
  readonly allPullsN: () => Float64Array;
  /** Since this was last asked: did every rope find which of its sheaves move, and what rides where it balances? */
  readonly agreed: () => boolean;
}

export function moveSystem(rig: CompiledSystem): MovingSystem {
  const { lines, movers, rider, stops } = rig;
  const pullN = lendFloats(rig.positionM.length);
  const allN = lendFloats(rig.positionM.length);
  const rides = (line: CompiledLine): boolean => rider?.lines.includes(line) === true;
  const free = lines.filter((line) => !rides(line));
  const lossy = free.filter((line) => line.places.length > 0);
  const ridesLossy = rider?.lines.some((line) => line.places.length > 0) === true;
  let agreed = true;

  const derivative = (state: Float64Array, into: Float64Array): void => {
    setGeometry(rig, state);
    if (rider !== null && !placeRider(rig, rider)) agreed = false;
    for (let k = 0; k < free.length; k++) {
      const line = free[k]!;
      if (!line.gone && !pullChain(line.chain, line.rateMS)) agreed = false;
    }
    // A call of `fill` takes longer than these few.
    for (let i = 0; i < pullN.length; i++) pullN[i] = 0;
    for (let k = 0; k < lines.length; k++) {
      const { gone, live } = lines[k]!;
      if (!gone) for (let i = 0; i < live.length; i++) addPull(lines[k]!, live[i]!, pullN);
    }
    for (let m = 0; m < movers.length; m++) {
      const mover = movers[m]!;
      const at = 6 * m;
      if (mover.pinned >= 0) {
        into.fill(0, at, at + 6);
        continue;
      }
      const from = 3 * mover.node;
      const { massKg, steadyN } = mover;
      into[at] = state[at + 3]!;
      into[at + 1] = state[at + 4]!;
      into[at + 2] = state[at + 5]!;
      into[at + 3] = (pullN[from]! + steadyN[0]) / massKg;
      into[at + 4] = (pullN[from + 1]! + steadyN[1]) / massKg;
      into[at + 5] = (pullN[from + 2]! + steadyN[2]) / massKg;
      if (mover.gives) keepAlong(mover, state, into);
      if (mover.against.size > 0)
        for (const stop of mover.against) bear(into, at + 3, stops[stop]!.faces[mover.face[stop]!]!.normal);
    }
  };
  const askAgreed = (): boolean => {
    const answer = agreed;
    agreed = true;
    return answer;
  };
  const lookAhead = (state: Float64Array, slope: Float64Array, laterS: number): void => {
    placeMovers(rig, state, slope, laterS);
    if (ridesLossy && !placeRider(rig, rider!)) agreed = false;
    for (let k = 0; k < lossy.length; k++) {
      const line = lossy[k]!;
      if (line.gone) continue;
      setLine(rig, line);
      if (!pullChain(line.chain, line.rateMS)) agreed = false;
    }
  };
  const allPullsN = (): Float64Array => {
    allN.fill(0);
    for (let k = 0; k < lines.length; k++) {
      const { gone, chain } = lines[k]!;
      if (!gone) for (let j = 0; j < chain.tensionN.length; j++) addPull(lines[k]!, j, allN);
    }
    return allN;
  };
  return { derivative, lookAhead, pullN, allPullsN, agreed: askAgreed };
}

/** What a segment does to the nodes at its ends. */
function addPull({ chain, through, along }: CompiledLine, j: number, pullN: Float64Array): void {
  const tension = chain.tensionN[j]!;
  if (tension === 0) return;
  const a = 3 * through[j]!;
  const b = 3 * through[j + 1]!;
  const x = tension * along[3 * j]!;
  const y = tension * along[3 * j + 1]!;
  const z = tension * along[3 * j + 2]!;
  pullN[a]! += x;
  pullN[a + 1]! += y;
  pullN[a + 2]! += z;
  pullN[b]! -= x;
  pullN[b + 1]! -= y;
  pullN[b + 2]! -= z;
}

/** Leaves of the acceleration what lies along the give, less its spring. */
function keepAlong({ index, gives, startM, massKg }: Mover, state: Float64Array, into: Float64Array): void {
  const { along, stiffnessNM, startN } = gives!;
  const at = 6 * index;
  let moved = 0;
  let pull = 0;
  for (let c = 0; c < 3; c++) {
    moved += (state[at + c]! - startM[c]!) * along[c]!;
    pull += into[at + 3 + c]! * along[c]!;
  }
  const acceleration = pull + (startN - stiffnessNM * moved) / massKg;
  for (let c = 0; c < 3; c++) into[at + 3 + c] = acceleration * along[c]!;
}

/** Takes from three components what goes into a plane. */
export function bear(of: Float64Array, at: number, normal: readonly number[]): void {
  const inward = of[at]! * normal[0]! + of[at + 1]! * normal[1]! + of[at + 2]! * normal[2]!;
  if (inward < 0) for (let c = 0; c < 3; c++) of[at + c]! -= inward * normal[c]!;
}
