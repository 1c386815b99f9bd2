import type { NetworkState } from "./network-state.ts";
import { ROUNDING } from "./newton-step.ts";

/** Share of the loads up to which what rounding shows as tension does not hinder an answer. */
const HARMLESS = 1e-7;

/** A line in which the rounding of lengths alone shows as so much tension, N, that the loads are not seen beside it. */
export interface TooStiff {
  readonly line: string;
  readonly roundingN: number;
}

/**
 * Is a line so stiff beside the loads that no balance can be told? The one of which rounding shows most; `undefined`: none is.
 *
 * A length is made of places, which are rounded in proportion to how far from the site's origin they lie; the tension shown
 * is in proportion to that, to EA, and to one over the rope's length.
 */
export function lineTooStiff({ net, place }: NetworkState): TooStiff | undefined {
  if (!(net.forceN > 0)) return undefined;
  let most: TooStiff | undefined;
  for (let line = 0; line < net.lineNames.length; line++) {
    const lengthM = net.lengthM[line]!;
    if (lengthM === 0) continue;
    let farM = lengthM;
    for (let slot = net.firstSlot[line]!; slot < net.firstSlot[line + 1]!; slot++) {
      const node = net.through[slot]!;
      if (net.freeOfNode[node]! >= 0) continue;
      for (let i = 3 * node; i < 3 * node + 3; i++) farM = Math.max(farM, Math.abs(place[i]!));
    }
    const roundingN = (ROUNDING * net.stiffnessN[line]! * farM) / lengthM;
    if (roundingN <= HARMLESS * net.forceN || roundingN <= (most?.roundingN ?? 0)) continue;
    most = { line: net.lineNames[line]!, roundingN };
  }
  return most;
}
