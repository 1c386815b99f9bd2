import type { CompiledSystem, Mover } from "./compiled-system.ts";
import { pullChain } from "./rope-chain.ts";
import { setGeometry } from "./set-geometry.ts";

/** How a state changes, and the forces that do it. */
export interface MovingSystem {
  /** Derivative of the state, into `into`; the chains then hold their tensions. */
  readonly derivative: (state: Float64Array, into: Float64Array) => void;
  /** Force of the ropes on each node, N, three each, of the last evaluation. */
  readonly pullN: Float64Array;
  /** Did every rope so far find which of its sheaves move? */
  readonly agreed: () => boolean;
}

export function moveSystem(rig: CompiledSystem): MovingSystem {
  const pullN = new Float64Array(rig.positionM.length);
  let agreed = true;

  const derivative = (state: Float64Array, into: Float64Array): void => {
    setGeometry(rig, state);
    pullN.fill(0);
    for (const line of rig.lines) {
      if (line.gone) continue;
      const { chain, through, along } = line;
      if (!pullChain(chain, line.rateMS)) agreed = false;
      for (let j = 0; j < chain.tensionN.length; j++) {
        const tension = chain.tensionN[j]!;
        if (tension === 0) continue;
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
    }
    for (const mover of rig.movers) {
      const at = 6 * mover.index;
      if (mover.pinned >= 0) {
        into.fill(0, at, at + 6);
        continue;
      }
      for (let c = 0; c < 3; c++) {
        into[at + c] = state[at + 3 + c]!;
        into[at + 3 + c] = (pullN[3 * mover.node + c]! + mover.steadyN[c]!) / mover.massKg;
      }
      if (mover.gives) keepAlong(mover, state, into);
      for (const stop of mover.against) bear(into, at + 3, rig.stops[stop]!.normal);
    }
  };
  return { derivative, pullN, agreed: () => agreed };
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
