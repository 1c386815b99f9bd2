import { lengthOf } from "../../base/vector.ts";
import type { CompiledSystem } from "./compiled-system.ts";

/** Puts nodes where a state has them, and from that each line's lengths, directions, sheave ratios and rate. */
export function setGeometry(rig: CompiledSystem, state: Float64Array): void {
  const { positionM, velocityMS } = rig;
  for (const { node, index } of rig.movers) {
    for (let c = 0; c < 3; c++) {
      positionM[3 * node + c] = state[6 * index + c]!;
      velocityMS[3 * node + c] = state[6 * index + 3 + c]!;
    }
  }
  for (const line of rig.lines) {
    if (line.gone) continue;
    const { through, along, chain, still } = line;
    const { lengthM, loss, ratio } = chain;
    let rate = 0;
    for (let j = 0; j < lengthM.length; j++) {
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
      rate +=
        per *
        (x * (velocityMS[b]! - velocityMS[a]!) +
          y * (velocityMS[b + 1]! - velocityMS[a + 1]!) +
          z * (velocityMS[b + 2]! - velocityMS[a + 2]!));
    }
    line.rateMS = rate;
    for (let i = 1; i < lengthM.length; i++) {
      if (loss[i] === 0 || still[i] === 2) continue;
      ratio[i] = Math.exp(-loss[i]! * wrapAt(along, i));
      if (still[i] === 1) still[i] = 2;
    }
  }
}

/** Below this a segment has no direction, m. */
const NO_LENGTH_M = 1e-9;

/** Angle the rope turns through between segments i − 1 and i, rad. */
function wrapAt(along: Float64Array, i: number): number {
  const [p, q] = [3 * (i - 1), 3 * i];
  const [a, b, c] = [along[p]!, along[p + 1]!, along[p + 2]!];
  const [x, y, z] = [along[q]!, along[q + 1]!, along[q + 2]!];
  return Math.atan2(lengthOf(b * z - c * y, c * x - a * z, a * y - b * x), a * x + b * y + c * z);
}
