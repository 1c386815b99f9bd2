import { distance, type SiteVector } from "@gantline/engine";
import type { LaidMain, LaidRig } from "./lay-lines.ts";
import type { RopeNode } from "./rig-state.ts";
import { type Floating, isRidden } from "./settle-rig.ts";

/**
 * The weight of ropes, as end weights: each straight part of a rope bears with half its weight at each of its ends, by
 * its length as it runs. A pulley that rides does not hold up the rope that runs through it: the part from tip sheave to
 * redirect hangs from these two, and so does the half of the tether's tackle that hangs at the pulley.
 * Rope of unknown weight is left out here; `LaidRig.unweighed` names it.
 */

/** Weight of rope that hangs at the yoke, N. */
export function ropesAtYokeN(rig: LaidRig, yoke: SiteVector, { sheaves, rider }: Floating): number {
  let sum = rider === null ? 0 : tackleN(rig, yoke, rider);
  for (const [i, main] of rig.mains.entries()) sum += (main.ropeNM ?? 0) * distance(yoke, sheaves[i] ?? main.pointAt);
  for (const tag of rig.tags) sum += (tag.ropeNM ?? 0) * distance(yoke, tag.handsAt);
  return sum / 2;
}

/** Weight of the tether's tackle, N. */
const tackleN = ({ tether }: LaidRig, yoke: SiteVector, rider: SiteVector): number =>
  tether === null ? 0 : (tether.ropeNM ?? 0) * tether.line.parts * distance(yoke, rider);

/** A place on a main line while the weight of rope that hangs there is being summed. */
export type WeighedNode = { -readonly [K in keyof RopeNode]: RopeNode[K] };

/** Puts the weight of a main line's rope on the places that it hangs from. */
export function hangRope(rig: LaidRig, { ropeNM }: LaidMain, nodes: readonly WeighedNode[]): void {
  let from = nodes[0];
  let lengthM = 0;
  let hungN = 0;
  for (const [k, node] of nodes.entries()) {
    const before = nodes[k - 1];
    if (!from || !before) continue;
    lengthM += distance(before.at, node.at);
    if (node.kind === "rider") {
      hungN = halfTackleN(rig, nodes[0]?.at ?? node.at, node.at);
      continue;
    }
    const halfN = ((ropeNM ?? 0) * lengthM + hungN) / 2;
    from.ropeN += halfN;
    node.ropeN += halfN;
    from = node;
    lengthM = 0;
    hungN = 0;
  }
}

/** What hangs of the tackle at the riding pulley, for one of the ropes that it rides, N. */
const halfTackleN = (rig: LaidRig, yoke: SiteVector, rider: SiteVector): number =>
  tackleN(rig, yoke, rider) / 2 / Math.max(1, rig.mains.filter((m) => isRidden(rig, m)).length);
