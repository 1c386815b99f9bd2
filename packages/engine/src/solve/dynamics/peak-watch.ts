import { lengthOf, type SiteVector, site } from "../../base/vector.ts";
import type { DormandPrince } from "../../numerics/dormand-prince.ts";
import type { CompiledSystem } from "./compiled-system.ts";
import type { MovingSystem } from "./move-system.ts";

/** Follows quantities through steps and keeps the highest of each. */
export interface PeakWatch {
  /** Reads all quantities of the state last evaluated, as the first, middle or last of a step. */
  readonly note: (place: 0 | 1 | 2) => void;
  /** Takes in a step from its three notes, and looks between them where one may peak there. True if it did: then another state is evaluated. */
  readonly takeStep: (within: DormandPrince["within"], startS: number, stepS: number) => boolean;
  /** Takes in what has been read as the first of a step. */
  readonly takeFirst: (timeS: number) => void;
  readonly segment: (line: number, segment: number) => Peak;
  /** What ropes do to a node, N. */
  readonly node: (node: number) => Peak;
  /** Of the part watched, its size either way, N. */
  readonly watched: (watch: number) => Peak;
  /** How far the load was below its start, and how far from it on the level, m. */
  readonly drop: Peak;
  readonly swing: Peak;
}

export interface Peak {
  value: number;
  atS: number;
  /** At that time: of a node and of a part watched the force on the node, N; of all others where the load was, m. */
  vector: SiteVector;
}

/** Half the distance between looks about a peak that was found, in steps. */
const NEAR = 0.04;

export function peakWatch(rig: CompiledSystem, moving: MovingSystem): PeakWatch {
  const firstOfLine: number[] = [];
  let count = 2;
  for (const { chain } of rig.lines) {
    firstOfLine.push(count);
    count += chain.tensionN.length;
  }
  const firstOfNode = count;
  const firstOfWatch = firstOfNode + rig.nodeNames.length;
  count = firstOfWatch + rig.watches.length;
  const peaks = Array.from({ length: count }, (): Peak => ({ value: -1, atS: 0, vector: site(0, 0, 0) }));
  const notes = [0, 1, 2].map(() => new Float64Array(count));
  const spare = new Float64Array(count);
  const state = new Float64Array(rig.start.length);
  const slope = new Float64Array(rig.start.length);
  const load = 3 * rig.load.node;
  const { startM } = rig.load;

  const read = (into: Float64Array): void => {
    const { positionM } = rig;
    into[0] = startM[2] - positionM[load + 2]!;
    into[1] = lengthOf(positionM[load]! - startM[0], positionM[load + 1]! - startM[1], 0);
    for (const [k, { chain }] of rig.lines.entries()) into.set(chain.tensionN, firstOfLine[k]!);
    for (let n = 0; n < rig.nodeNames.length; n++)
      into[firstOfNode + n] = lengthOf(moving.pullN[3 * n]!, moving.pullN[3 * n + 1]!, moving.pullN[3 * n + 2]!);
    for (const [w, { node, along }] of rig.watches.entries()) {
      const { pullN } = moving;
      into[firstOfWatch + w] = Math.abs(
        pullN[3 * node]! * along[0] + pullN[3 * node + 1]! * along[1] + pullN[3 * node + 2]! * along[2],
      );
    }
  };
  const take = (values: Float64Array, timeS: number): void => {
    for (let i = 0; i < count; i++) {
      const peak = peaks[i]!;
      if (!(values[i]! > peak.value)) continue;
      peak.value = values[i]!;
      peak.atS = timeS;
      const node = i < firstOfWatch ? i - firstOfNode : rig.watches[i - firstOfWatch]!.node;
      const [of, at] = node < 0 ? [rig.positionM, load] : [moving.pullN, 3 * node];
      peak.vector = site(of[at]!, of[at + 1]!, of[at + 2]!);
    }
  };

  return {
    note: (place) => read(notes[place]!),
    takeFirst: (timeS) => take(notes[0]!, timeS),
    takeStep(within, startS, stepS) {
      const lookAt = (part: number): Float64Array => {
        within(part, state);
        moving.derivative(state, slope);
        read(spare);
        take(spare, startS + part * stepS);
        return spare;
      };
      const [first, middle, last] = notes as [Float64Array, Float64Array, Float64Array];
      let looked = false;
      for (let i = 0; i < count; i++) {
        const part = summit(first[i]!, middle[i]!, last[i]!);
        if (part !== null && heightAt(first[i]!, middle[i]!, last[i]!, part) > peaks[i]!.value) {
          looked = true;
          const at = Math.min(1 - NEAR, Math.max(NEAR, part));
          const [a, b, c] = [at - NEAR, at, at + NEAR].map((p) => lookAt(p)[i]!) as [number, number, number];
          const nearer = summit(a, b, c);
          if (nearer !== null) lookAt(Math.min(1, Math.max(0, at + NEAR * (2 * nearer - 1))));
        }
      }
      for (let i = 0; i < count && !looked; i++) looked = middle[i]! > peaks[i]!.value || last[i]! > peaks[i]!.value;
      if (!looked) return false;
      lookAt(0.5);
      lookAt(1);
      return true;
    },
    segment: (line, segment) => peaks[firstOfLine[line]! + segment]!,
    node: (node) => peaks[firstOfNode + node]!,
    watched: (watch) => peaks[firstOfWatch + watch]!,
    drop: peaks[0]!,
    swing: peaks[1]!,
  };
}

/** Where the parabola through three values, at 0, ½ and 1, is highest, if that is not far out of the step. */
function summit(first: number, middle: number, last: number): number | null {
  const bend = 2 * (first - 2 * middle + last);
  const rise = 4 * middle - 3 * first - last;
  if (!(bend < 0)) return null;
  const part = -rise / (2 * bend);
  return part > -0.1 && part < 1.1 ? part : null;
}

function heightAt(first: number, middle: number, last: number, part: number): number {
  const bend = 2 * (first - 2 * middle + last);
  return first + part * (4 * middle - 3 * first - last + part * bend);
}
