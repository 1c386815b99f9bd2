import { lengthOf } from "../../base/vector.ts";
import type { CompiledLine, CompiledSystem } from "./compiled-system.ts";

/** Puts what moves where a state has it, and from that each line's lengths, directions, sheave ratios and rate. */
export function setGeometry(rig: CompiledSystem, state: Float64Array): void {
  placeMovers(rig, state);
  const { lines } = rig;
  for (let k = 0; k < lines.length; k++) if (!lines[k]!.gone) setLine(rig, lines[k]!);
}

/** Puts what moves where a state has it, or a little later by its derivative. */
export function placeMovers(
  { positionM, velocityMS, movers }: CompiledSystem,
  state: Float64Array,
  slope: Float64Array = state,
  laterS = 0,
): void {
  for (let m = 0; m < movers.length; m++) {
    const at = 3 * movers[m]!.node;
    const from = 6 * m;
    for (let c = 0; c < 3; c++) {
      positionM[at + c] = state[from + c]! + laterS * slope[from + c]!;
      velocityMS[at + c] = state[from + c + 3]! + laterS * slope[from + c + 3]!;
    }
  }
}

/** Lengths, directions, ratios of every part of a line, those that never change among them. */
export function setAllGeometry(rig: CompiledSystem, line: CompiledLine, state: Float64Array): void {
  placeMovers(rig, state);
  const { loss, lengthM } = line.chain;
  for (let j = 0; j < lengthM.length; j++) setSegment(rig, line, j);
  for (let i = 1; i < lengthM.length; i++) if (loss[i] !== 0) setRatio(line, i);
  setLine(rig, line);
}

/** The lengths, directions, sheave ratios and rate of one line, as far as they change, its nodes being where they are. */
export function setLine(rig: CompiledSystem, line: CompiledLine): void {
  const { live, turning, worksOn } = line;
  let rate = 0;
  for (let i = 0; i < live.length; i++) {
    const j = live[i]!;
    setSegment(rig, line, j);
    if (worksOn[j]) rate += rateOf(rig, line, j);
  }
  line.rateMS = rate;
  for (let i = 0; i < turning.length; i++) setRatio(line, turning[i]!);
}

function setSegment({ positionM }: CompiledSystem, { through, along, chain }: CompiledLine, j: number): void {
  const a = 3 * through[j]!;
  const b = 3 * through[j + 1]!;
  const x = positionM[b]! - positionM[a]!;
  const y = positionM[b + 1]! - positionM[a + 1]!;
  const z = positionM[b + 2]! - positionM[a + 2]!;
  const length = lengthOf(x, y, z);
  const per = length > NO_LENGTH_M ? 1 / length : 0;
  chain.lengthM[j] = length;
  along[3 * j] = x * per;
  along[3 * j + 1] = y * per;
  along[3 * j + 2] = z * per;
}

/** How fast a segment grows, m/s. */
function rateOf({ velocityMS }: CompiledSystem, { through, along }: CompiledLine, j: number): number {
  const a = 3 * through[j]!;
  const b = 3 * through[j + 1]!;
  return (
    along[3 * j]! * (velocityMS[b]! - velocityMS[a]!) +
    along[3 * j + 1]! * (velocityMS[b + 1]! - velocityMS[a + 1]!) +
    along[3 * j + 2]! * (velocityMS[b + 2]! - velocityMS[a + 2]!)
  );
}

function setRatio({ along, chain }: CompiledLine, link: number): void {
  chain.ratio[link] = Math.exp(-chain.loss[link]! * wrapAt(along, link));
}

/** Below this a segment has no direction, m. */
const NO_LENGTH_M = 1e-9;

/** Angle the rope turns through between segments i − 1 and i, rad. */
function wrapAt(along: Float64Array, i: number): number {
  const p = 3 * (i - 1);
  const q = 3 * i;
  const a = along[p]!;
  const b = along[p + 1]!;
  const c = along[p + 2]!;
  const x = along[q]!;
  const y = along[q + 1]!;
  const z = along[q + 2]!;
  return Math.atan2(lengthOf(b * z - c * y, c * x - a * z, a * y - b * x), a * x + b * y + c * z);
}
