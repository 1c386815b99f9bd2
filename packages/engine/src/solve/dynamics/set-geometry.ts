import { lengthOf } from "../../base/vector.ts";
import type { CompiledLine, CompiledSystem } from "./compiled-system.ts";

/** Puts what moves where a state has it, and from that each line's lengths, directions, sheave ratios and rate. */
export function setGeometry(rig: CompiledSystem, state: Float64Array): void {
  const { positionM, velocityMS, movers, lines } = rig;
  for (let m = 0; m < movers.length; m++) {
    const at = 3 * movers[m]!.node;
    const from = 6 * m;
    positionM[at] = state[from]!;
    positionM[at + 1] = state[from + 1]!;
    positionM[at + 2] = state[from + 2]!;
    velocityMS[at] = state[from + 3]!;
    velocityMS[at + 1] = state[from + 4]!;
    velocityMS[at + 2] = state[from + 5]!;
  }
  for (let k = 0; k < lines.length; k++) if (!lines[k]!.gone) setLine(rig, lines[k]!);
}

/** The lengths, directions, sheave ratios and rate of one line, its nodes being where they are. */
export function setLine({ positionM, velocityMS }: CompiledSystem, line: CompiledLine): void {
  const { through, along, chain, still, worksOn } = line;
  const { lengthM, loss, ratio } = chain;
  const count = lengthM.length;
  let rate = 0;
  for (let j = 0; j < count; j++) {
    const a = 3 * through[j]!;
    const b = 3 * through[j + 1]!;
    const x = positionM[b]! - positionM[a]!;
    const y = positionM[b + 1]! - positionM[a + 1]!;
    const z = positionM[b + 2]! - positionM[a + 2]!;
    const length = lengthOf(x, y, z);
    const per = length > NO_LENGTH_M ? 1 / length : 0;
    lengthM[j] = length;
    along[3 * j] = x * per;
    along[3 * j + 1] = y * per;
    along[3 * j + 2] = z * per;
    if (!worksOn[j]) continue;
    rate +=
      per *
      (x * (velocityMS[b]! - velocityMS[a]!) +
        y * (velocityMS[b + 1]! - velocityMS[a + 1]!) +
        z * (velocityMS[b + 2]! - velocityMS[a + 2]!));
  }
  line.rateMS = rate;
  for (let i = 1; i < count; i++) {
    if (loss[i] === 0 || still[i] === 2) continue;
    ratio[i] = Math.exp(-loss[i]! * wrapAt(along, i));
    if (still[i] === 1) still[i] = 2;
  }
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
