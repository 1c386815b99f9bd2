import { type SiteVector, site, subtract, unit } from "../../base/vector.ts";
import type { CompiledSystem, Mover, Rider, StepEvent } from "./compiled-system.ts";
import type { Ledger } from "./energy-book.ts";
import type { Touch } from "./let-go-types.ts";
import { bear, type MovingSystem } from "./move-system.ts";
import { strainOf } from "./rope-chain.ts";
import { faceTouched, gapTo, isPulledOff, speedAgainst } from "./step-events.ts";
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
  /** The same of a pulley without mass. */
  readonly offBlock: (pulley: Mover | Rider) => boolean;
}

export function happenings(
  rig: CompiledSystem,
  moving: MovingSystem,
  ledger: Ledger,
  stories: readonly LineStory[],
  touches: Touch[],
): Happenings {
  const hit = (mover: Mover, stop: string, atS: number, speedMS: number, away: SiteVector): void => {
    if (speedMS > 0) touches.push({ node: rig.nodeNames[mover.node]!, stop, atS, speedMS, away });
    ledger.addHit(0.5 * mover.massKg * speedMS ** 2);
  };
  const offBlock = (pulley: Mover | Rider): boolean => {
    if (pulley.pinned < 0 || !isPulledOff(rig, moving, pulley)) return false;
    pulley.pinned = -1;
    return true;
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
        const { faces, name } = rig.stops[stop]!;
        const face = faceTouched(rig, mover, stop);
        const { normal } = faces[face]!;
        // Of the state, not of the rig: another side may have been hit at the same moment.
        const at = 6 * mover.index + 3;
        const speedMS = -(state[at]! * normal[0] + state[at + 1]! * normal[1] + state[at + 2]! * normal[2]);
        hit(mover, name, timeS, Math.max(0, speedMS), normal);
        bear(state, at, normal);
        mover.against.add(stop);
        mover.face[stop] = face;
      } else if (event.kind === "slides-off") {
        event.mover.against.delete(event.stop);
      } else if (event.kind === "runs-up") {
        const { pulley, node } = event;
        pulley.pinned = node;
        // One without mass comes to a halt without a blow.
        if (!("massKg" in pulley)) return;
        const velocity = state.subarray(6 * pulley.index + 3, 6 * pulley.index + 6);
        const away = unit(subtract(placeOf(rig, pulley.node), placeOf(rig, node)));
        hit(pulley, rig.nodeNames[node]!, timeS, Math.hypot(...velocity), away);
        velocity.fill(0);
      }
    },
    off(mover) {
      let off = false;
      for (const stop of mover.against) {
        const { normal } = rig.stops[stop]!.faces[mover.face[stop]!]!;
        if (-speedAgainst(rig, mover, normal) <= LEAVES_MS) continue;
        mover.beyondM[stop] = Math.min(0, gapTo(rig, mover, stop));
        off = mover.against.delete(stop);
      }
      return offBlock(mover) || off;
    },
    offBlock,
  };
}

const placeOf = ({ positionM }: CompiledSystem, node: number): SiteVector =>
  site(positionM[3 * node]!, positionM[3 * node + 1]!, positionM[3 * node + 2]!);
