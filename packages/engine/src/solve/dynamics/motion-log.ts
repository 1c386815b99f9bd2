import { type SiteVector, site } from "../../base/vector.ts";
import type { CompiledSystem } from "./compiled-system.ts";
import type { Motion } from "./let-go-types.ts";
import type { Way } from "./nearest-approach.ts";

/** Keeps places and tensions as the motion goes. */
export interface MotionLog {
  /** The state last evaluated. */
  readonly add: (timeS: number, rig: CompiledSystem) => void;
  /** All places of the load. */
  readonly wayOfLoad: () => Way;
  /** At most this many instants, about evenly apart, the first and the last among them. */
  readonly thinned: (mostSamples: number) => Motion;
}

export function motionLog(rig: CompiledSystem): MotionLog {
  const timesS: number[] = [];
  const places: SiteVector[][] = rig.movers.map(() => []);
  const tensions: number[][] = rig.lines.map(() => []);
  return {
    add(timeS, { positionM, movers, lines }) {
      // A step cut short may end where it began.
      if (timeS <= (timesS.at(-1) ?? -1)) return;
      timesS.push(timeS);
      for (const { node, index } of movers)
        places[index]!.push(site(positionM[3 * node]!, positionM[3 * node + 1]!, positionM[3 * node + 2]!));
      for (const [k, { chain }] of lines.entries()) tensions[k]!.push(chain.tensionN[0]!);
    },
    wayOfLoad: () => ({ timesS, places: places[rig.load.index]! }),
    thinned(mostSamples) {
      const kept = evenly(timesS, mostSamples);
      const of = <T>(values: readonly T[]): T[] => kept.map((i) => values[i]!);
      return {
        timesS: of(timesS),
        places: Object.fromEntries(rig.movers.map((m) => [rig.nodeNames[m.node]!, of(places[m.index]!)])),
        tensionsN: Object.fromEntries(rig.lines.map((l, k) => [l.name, of(tensions[k]!)])),
      };
    },
  };
}

/** Indices of times about evenly apart, the first and the last among them. */
function evenly(timesS: readonly number[], most: number): readonly number[] {
  const last = timesS.length - 1;
  if (last < most) return timesS.map((_, i) => i);
  const kept = [0];
  let at = 0;
  for (let k = 1; k < most - 1; k++) {
    const wanted = (timesS[last]! * k) / (most - 1);
    while (at < last && timesS[at + 1]! <= wanted) at++;
    const nearer = at < last && timesS[at + 1]! - wanted < wanted - timesS[at]! ? at + 1 : at;
    if (nearer > kept.at(-1)! && nearer < last) kept.push(nearer);
  }
  return [...kept, last];
}
