import { lengthOf, type SiteVector, site } from "../../base/vector.ts";
import type { DormandPrince } from "../../numerics/dormand-prince.ts";
import { lendFloats } from "../../numerics/lent-floats.ts";
import type { CompiledSystem } from "./compiled-system.ts";
import type { MovingSystem } from "./move-system.ts";

/** Follows quantities through steps and keeps the highest of each. */
export interface PeakWatch {
  /** Reads all quantities of the state last evaluated, as the first, middle or last of a step. */
  readonly note: (place: 0 | 1 | 2) => void;
  /** Takes in a step from its three notes, and looks between them where one may peak there. True if it did: then another state is evaluated. */
  readonly takeStep: (within: DormandPrince["within"], startS: number, stepS: number) => boolean;
  /** The last of a step is the first of the next. */
  readonly carryOn: () => void;
  /** Takes in what has been read as the first of a step. */
  readonly takeFirst: (timeS: number) => void;
  readonly segment: (line: number, segment: number) => Peak;
  /** What ropes do to a node, N. */
  readonly node: (node: number) => Peak;
  /** Of the part watched, its size either way, N. */
  readonly watched: (watch: number) => Peak;
  /** How far the load was below its start, and how far from it on the level, m. */
  readonly drop: () => Peak;
  readonly swing: () => Peak;
  /** When the load was lowest, when farthest, and when each line pulled hardest at its first node. */
  readonly moments: readonly Moment[];
}

/** Where all nodes were at a moment, m, what each line pulled at its first node, and what ropes did to each node, N. */
export interface Moment {
  timeS: number;
  readonly positionM: Float64Array;
  readonly tensionsN: Float64Array;
  readonly pullN: Float64Array;
}

export interface Peak {
  readonly value: number;
  readonly atS: number;
  /** At that time: of a node and of a part watched the force there, N; of all others where the load was, m. */
  readonly vector: SiteVector;
}

/** Half the distance between looks about a peak that was found, in steps. */
const NEAR = 0.04;
/** Looks nearer to each other than this are one, in steps. */
const SAME = 1e-5;

/** All quantities at one moment, with what their vectors are read from. */
interface Note {
  readonly values: Float64Array;
  readonly pullN: Float64Array;
  readonly positionM: Float64Array;
}

/** Looks about one part of a step: it, a little before it and a little after. */
interface Trio {
  part: number;
  readonly values: readonly [Float64Array, Float64Array, Float64Array];
}

/** @param tolerance a peak that is higher by less than this part of it is not looked for */
export function peakWatch(rig: CompiledSystem, moving: MovingSystem, tolerance: number): PeakWatch {
  const { lines, watches, held, positionM, nodeNames } = rig;
  const firstOfLine: number[] = [];
  let count = 2;
  for (const { chain } of lines) {
    firstOfLine.push(count);
    count += chain.tensionN.length;
  }
  const firstOfNode = count;
  const firstOfWatch = firstOfNode + nodeNames.length;
  count = firstOfWatch + watches.length;
  const highest = lendFloats(count).fill(-1);
  const atS = lendFloats(count);
  const vectors = lendFloats(3 * count);
  const peakOf = (i: number): Peak => ({ value: highest[i]!, atS: atS[i]!, vector: vectorAt(vectors, 3 * i) });
  const momentOf = new Int32Array(count).fill(-1);
  for (const [m, i] of [0, 1, ...firstOfLine].entries()) momentOf[i] = m;
  const newNote = (): Note => ({
    values: lendFloats(count),
    pullN: lendFloats(positionM.length),
    positionM: lendFloats(positionM.length),
  });
  const notes: [Note, Note, Note] = [newNote(), newNote(), newNote()];
  const spare = newNote();
  const trios: Trio[] = [];
  const looked: number[] = [];
  const state = lendFloats(rig.start.length);
  const slope = lendFloats(rig.start.length);
  const moments = [0, 1, ...firstOfLine].map(
    (): Moment => ({
      timeS: 0,
      positionM: copyOf(positionM),
      tensionsN: lendFloats(lines.length),
      pullN: lendFloats(positionM.length),
    }),
  );
  const load = 3 * rig.load.node;
  const { startM } = rig.load;

  const read = (into: Note): void => {
    const { values } = into;
    const pullN = moving.allPullsN();
    into.pullN.set(pullN);
    into.positionM.set(positionM);
    values[0] = startM[2] - positionM[load + 2]!;
    values[1] = lengthOf(positionM[load]! - startM[0], positionM[load + 1]! - startM[1], 0);
    for (let k = 0; k < lines.length; k++) {
      const { tensionN } = lines[k]!.chain;
      for (let j = 0; j < tensionN.length; j++) values[firstOfLine[k]! + j] = tensionN[j]!;
    }
    for (let h = 0; h < held.length; h++) {
      const at = 3 * held[h]!;
      values[firstOfNode + held[h]!] = lengthOf(pullN[at]!, pullN[at + 1]!, pullN[at + 2]!);
    }
    for (let w = 0; w < watches.length; w++) {
      const { nodes, along } = watches[w]!;
      let part = 0;
      for (let n = 0; n < nodes.length; n++) {
        const at = 3 * nodes[n]!;
        part += pullN[at]! * along[0] + pullN[at + 1]! * along[1] + pullN[at + 2]! * along[2];
      }
      values[firstOfWatch + w] = Math.abs(part);
    }
  };
  const take = (note: Note, timeS: number): void => {
    const { values } = note;
    for (let i = 0; i < count; i++) {
      if (!(values[i]! > highest[i]!)) continue;
      highest[i] = values[i]!;
      atS[i] = timeS;
      keepVector(note, i);
      if (momentOf[i]! < 0) continue;
      const moment = moments[momentOf[i]!]!;
      moment.timeS = timeS;
      moment.positionM.set(note.positionM);
      moment.pullN.set(note.pullN);
      for (let k = 0; k < firstOfLine.length; k++) moment.tensionsN[k] = values[firstOfLine[k]!]!;
    }
  };
  const keepVector = (note: Note, i: number): void => {
    for (let c = 0; c < 3; c++) {
      let part = 0;
      if (i < firstOfNode) part = note.positionM[load + c]!;
      else if (i < firstOfWatch) part = note.pullN[3 * (i - firstOfNode) + c]!;
      else for (const n of watches[i - firstOfWatch]!.nodes) part += note.pullN[3 * n + c]!;
      vectors[3 * i + c] = part;
    }
  };

  const lookAt = (within: DormandPrince["within"], part: number, startS: number, stepS: number): Float64Array => {
    within(part, state);
    moving.derivative(state, slope);
    read(spare);
    take(spare, startS + part * stepS);
    return spare.values;
  };
  const wasLookedAt = (part: number): boolean => {
    for (let p = 0; p < looked.length; p++) if (Math.abs(looked[p]! - part) < SAME) return true;
    return false;
  };

  return {
    note: (place) => read(notes[place]),
    carryOn() {
      const [first, middle, last] = notes;
      notes[0] = last;
      notes[1] = middle;
      notes[2] = first;
    },
    takeFirst: (timeS) => take(notes[0], timeS),
    takeStep(within, startS, stepS) {
      take(notes[1], startS + 0.5 * stepS);
      take(notes[2], startS + stepS);
      const first = notes[0].values;
      const middle = notes[1].values;
      const last = notes[2].values;
      let used = 0;
      looked.length = 0;
      for (let i = 0; i < count; i++) {
        const part = summit(first[i]!, middle[i]!, last[i]!);
        if (
          !(part > -0.1 && part < 1.1) ||
          !(heightAt(first[i]!, middle[i]!, last[i]!, part) > (1 + tolerance) * highest[i]!)
        )
          continue;
        const at = Math.min(1 - NEAR, Math.max(NEAR, part));
        let trio: Trio | null = null;
        for (let t = 0; t < used; t++) if (Math.abs(trios[t]!.part - at) <= NEAR) trio = trios[t]!;
        if (trio === null) {
          trio = trios[used] ?? newTrio(count);
          trios[used++] = trio;
          trio.part = at;
          for (let k = 0; k < 3; k++) trio.values[k]!.set(lookAt(within, at + (k - 1) * NEAR, startS, stepS));
        }
        const [a, b, c] = trio.values;
        const nearer = summit(a[i]!, b[i]!, c[i]!);
        if (!(nearer > -0.1 && nearer < 1.1)) continue;
        const exactly = Math.min(1, Math.max(0, trio.part + NEAR * (2 * nearer - 1)));
        if (wasLookedAt(exactly)) continue;
        looked.push(exactly);
        lookAt(within, exactly, startS, stepS);
      }
      return used > 0;
    },
    segment: (line, segment) => peakOf(firstOfLine[line]! + segment),
    node: (node) => peakOf(firstOfNode + node),
    watched: (watch) => peakOf(firstOfWatch + watch),
    drop: () => peakOf(0),
    swing: () => peakOf(1),
    moments,
  };
}

const copyOf = (of: Float64Array): Float64Array => {
  const copy = lendFloats(of.length);
  copy.set(of);
  return copy;
};

const newTrio = (count: number): Trio => ({
  part: 0,
  values: [lendFloats(count), lendFloats(count), lendFloats(count)],
});

const vectorAt = (of: Float64Array, at: number): SiteVector => site(of[at]!, of[at + 1]!, of[at + 2]!);

/** Where the parabola through three values, at 0, ½ and 1, is highest; infinitely far off if nowhere. */
function summit(first: number, middle: number, last: number): number {
  const bend = 2 * (first - 2 * middle + last);
  const rise = 4 * middle - 3 * first - last;
  return bend < 0 ? -rise / (2 * bend) : Infinity;
}

function heightAt(first: number, middle: number, last: number, part: number): number {
  const bend = 2 * (first - 2 * middle + last);
  return first + part * (4 * middle - 3 * first - last + part * bend);
}
