import { lengthOf } from "../../base/vector.ts";
import { lendFloats } from "../../numerics/lent-floats.ts";
import type { CompiledSystem, Mover, StepEvent } from "./compiled-system.ts";
import { gapTo } from "./step-events.ts";

/** Which events a step has run into. */
export interface DueEvents {
  /** Those whose value is below 0 at the state last evaluated, into `due`, `turns` last; stops that are too far away to be reached are not asked. */
  readonly find: (due: StepEvent[], value: (event: StepEvent) => number) => void;
  /** What lies against what has changed: nothing is known of distances any more. */
  readonly forget: () => void;
}

/** Stops of one mover, and how far it may go from where they were last looked at without coming to any. */
interface Barred {
  readonly mover: Mover;
  readonly touches: readonly (StepEvent & { readonly kind: "touches" })[];
  readonly slidesOff: readonly (StepEvent & { readonly kind: "slides-off" })[];
  readonly lookedAtM: Float64Array;
  clearM: number;
}

export function dueEvents(rig: CompiledSystem, events: readonly StepEvent[]): DueEvents {
  const onRopes = events.filter(({ kind }) => kind !== "touches" && kind !== "slides-off" && kind !== "turns");
  const turns = events.find(({ kind }) => kind === "turns");
  const barred = rig.movers.flatMap((mover): Barred[] => {
    const touches = events.flatMap((e) => (e.kind === "touches" && e.mover === mover ? [e] : []));
    const slidesOff = events.flatMap((e) => (e.kind === "slides-off" && e.mover === mover ? [e] : []));
    return touches.length === 0 ? [] : [{ mover, touches, slidesOff, lookedAtM: lendFloats(3), clearM: -1 }];
  });
  return {
    find(due, value) {
      due.length = 0;
      const add = (event: StepEvent): void => {
        if (value(event) < 0) due.push(event);
      };
      for (let e = 0; e < onRopes.length; e++) add(onRopes[e]!);
      for (let b = 0; b < barred.length; b++) {
        const of = barred[b]!;
        if (!isClear(rig, of)) {
          for (let e = 0; e < of.touches.length; e++) add(of.touches[e]!);
          look(rig, of);
        }
        if (of.mover.against.size > 0) for (const event of of.slidesOff) add(event);
      }
      if (turns) add(turns);
    },
    forget() {
      for (const of of barred) of.clearM = -1;
    },
  };
}

/** A gap shrinks by no more than the mover goes. */
function isClear({ positionM }: CompiledSystem, { mover, lookedAtM, clearM }: Barred): boolean {
  const at = 3 * mover.node;
  return (
    lengthOf(positionM[at]! - lookedAtM[0]!, positionM[at + 1]! - lookedAtM[1]!, positionM[at + 2]! - lookedAtM[2]!) <
    clearM
  );
}

function look(rig: CompiledSystem, of: Barred): void {
  const { mover, touches, lookedAtM } = of;
  const at = 3 * mover.node;
  for (let c = 0; c < 3; c++) lookedAtM[c] = rig.positionM[at + c]!;
  of.clearM = touches.reduce(
    (least, { stop }) =>
      mover.against.has(stop) ? least : Math.min(least, gapTo(rig, mover, stop) - mover.beyondM[stop]!),
    Number.MAX_VALUE,
  );
}
