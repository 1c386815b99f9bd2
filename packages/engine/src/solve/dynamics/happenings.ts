import type { CompiledSystem, Mover } from "./compiled-system.ts";
import type { Ledger } from "./energy-book.ts";
import type { Touch } from "./let-go-types.ts";
import { bear, type MovingSystem } from "./move-system.ts";
import { strainOf } from "./rope-chain.ts";
import { gapTo, isPulledOff, type StepEvent, speedAgainst } from "./step-events.ts";
import type { LineStory } from "./tell-result.ts";

/** Nearer to a stop than this lies on it, m. */
export const LIES_ON_M = 1e-9;
/** Slower than this does not leave a stop, m/s. */
const LEAVES_MS = 1e-9;

/** What events do to a state and to the rules it moves by. */
export interface Happenings {
  /** Carries out an event at the state last evaluated, which it may change. */
  readonly out: (event: StepEvent, state: Float64Array, timeS: number) => void;
  /** Lets a mover off stops and off what it ran up against, if that is where it goes; tells whether it did. */
  readonly off: (mover: Mover) => boolean;
}

export function happenings(
  rig: CompiledSystem,
  moving: MovingSystem,
  ledger: Ledger,
  stories: readonly LineStory[],
  touches: Touch[],
): Happenings {
  const hit = (mover: Mover, stop: string, atS: number, speedMS: number): void => {
    if (speedMS > 0) touches.push({ node: rig.nodeNames[mover.node]!, stop, atS, speedMS });
    ledger.addHit(0.5 * mover.massKg * speedMS ** 2);
  };
  return {
    out(event, state, timeS) {
      if (event.kind === "lets-go") {
        const { line } = event;
        ledger.addLetGo(strainOf(line.chain));
        line.gone = true;
        line.chain.tensionN.fill(0);
        stories[rig.lines.indexOf(line)]!.letGoAtS = timeS;
      } else if (event.kind === "touches") {
        const { mover, stop } = event;
        const { normal, name } = rig.stops[stop]!;
        hit(mover, name, timeS, Math.max(0, speedAgainst(rig, mover, normal)));
        bear(state, 6 * mover.index + 3, normal);
        mover.against.add(stop);
      } else if (event.kind === "runs-up") {
        const { mover, node } = event;
        const velocity = state.subarray(6 * mover.index + 3, 6 * mover.index + 6);
        hit(mover, rig.nodeNames[node]!, timeS, Math.hypot(...velocity));
        velocity.fill(0);
        mover.pinned = node;
      }
    },
    off(mover) {
      let off = false;
      for (const stop of mover.against) {
        if (-speedAgainst(rig, mover, rig.stops[stop]!.normal) <= LEAVES_MS) continue;
        mover.beyondM[stop] = Math.min(0, gapTo(rig, mover, stop));
        off = mover.against.delete(stop);
      }
      if (mover.pinned >= 0 && isPulledOff(rig, moving, mover)) {
        mover.pinned = -1;
        off = true;
      }
      return off;
    },
  };
}
