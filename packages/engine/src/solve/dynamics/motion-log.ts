import { type SiteVector, site } from "../../base/vector.ts";
import type { CompiledSystem } from "./compiled-system.ts";
import type { Motion } from "./let-go-types.ts";
import type { Way } from "./nearest-approach.ts";
import type { Moment } from "./peak-watch.ts";

/** Keeps places and tensions as the motion goes. */
export interface MotionLog {
  /** The state last evaluated. */
  readonly add: (timeS: number, rig: CompiledSystem) => void;
  /** All places of the load. */
  readonly wayOfLoad: () => Way;
  /** At most this many instants, about evenly apart, the first and the last among them; these moments too where there is room. */
  readonly thinned: (mostSamples: number, moments: readonly Moment[]) => Motion;
}

/** @param pullsN what ropes do to every node in the state last evaluated, N; null: forces are not kept */
export function motionLog(rig: CompiledSystem, pullsN: (() => Float64Array) | null): MotionLog {
  const { lines, nodeNames } = rig;
  const moving = [...rig.movers.map((m) => m.node), ...(rig.rider ? [rig.rider.node] : [])];
  const timesS: number[] = [];
  const places: number[] = [];
  const tensions: number[] = [];
  const held = pullsN ? [...rig.held] : [];
  const forces: number[] = [];
  const placeOf = (sample: number, m: number): SiteVector => vectorAt(places, 3 * (sample * moving.length + m));
  const ofMover = (m: number): number[] => timesS.flatMap((_, i) => placeOf(i, m));
  return {
    add(timeS, { positionM }) {
      // A step cut short may end where it began.
      if (timeS <= (timesS[timesS.length - 1] ?? -1)) return;
      timesS.push(timeS);
      for (let m = 0; m < moving.length; m++) {
        const at = 3 * moving[m]!;
        places.push(positionM[at]!, positionM[at + 1]!, positionM[at + 2]!);
      }
      for (let k = 0; k < lines.length; k++) tensions.push(lines[k]!.chain.tensionN[0]!);
      if (pullsN === null) return;
      const pullN = pullsN();
      for (let h = 0; h < held.length; h++) for (let c = 0; c < 3; c++) forces.push(pullN[3 * held[h]! + c]!);
    },
    wayOfLoad: () => ({ timesS, placesM: moving.length === 1 ? places : ofMover(rig.load.index) }),
    thinned(mostSamples, moments) {
      const own = distinct(moments, timesS);
      const peaks = mostSamples >= own.length + 2 ? own : [];
      const samples: Sample[] = [
        ...evenly(timesS, mostSamples - peaks.length).map((i) => ({
          timeS: timesS[i]!,
          place: (m: number) => placeOf(i, m),
          tensionN: (k: number) => tensions[i * lines.length + k]!,
          force: (h: number) => vectorAt(forces, 3 * (i * held.length + h)),
        })),
        ...peaks.map(({ timeS, positionM, tensionsN, pullN }) => ({
          timeS,
          place: (m: number) => {
            const at = 3 * moving[m]!;
            return site(positionM[at]!, positionM[at + 1]!, positionM[at + 2]!);
          },
          tensionN: (k: number) => tensionsN[k]!,
          force: (h: number) => vectorAt(pullN, 3 * held[h]!),
        })),
      ].sort((a, b) => a.timeS - b.timeS);
      return {
        timesS: samples.map((s) => s.timeS),
        places: Object.fromEntries(moving.map((node, m) => [nodeNames[node]!, samples.map((s) => s.place(m))])),
        tensionsN: Object.fromEntries(lines.map(({ name }, k) => [name, samples.map((s) => s.tensionN(k))])),
        forcesN: Object.fromEntries(held.map((node, h) => [nodeNames[node]!, samples.map((s) => s.force(h))])),
      };
    },
  };
}

interface Sample {
  readonly timeS: number;
  readonly place: (mover: number) => SiteVector;
  readonly tensionN: (line: number) => number;
  readonly force: (held: number) => SiteVector;
}

const vectorAt = (of: ArrayLike<number>, at: number): SiteVector => site(of[at]!, of[at + 1]!, of[at + 2]!);

/** Moments at times of their own, none of those at the ends. */
function distinct(moments: readonly Moment[], timesS: readonly number[]): readonly Moment[] {
  const seen = new Set<number>([timesS[0]!, timesS.at(-1)!]);
  return moments.filter(({ timeS }) => !seen.has(timeS) && seen.add(timeS));
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
