import { addScaled, type SiteVector, subtract, unit, ZERO } from "@gantline/engine";
import type { RopeNode } from "./rig-state.ts";

/** What the rope does to what it turns round or ends at, at one node of its path, N. */
export function sheavePull(nodes: readonly RopeNode[], tensionsN: readonly number[], node: number): SiteVector {
  const here = nodes[node];
  if (!here) return ZERO;
  const toward = (other: RopeNode | undefined, tensionN: number | undefined): SiteVector =>
    other ? addScaled(ZERO, unit(subtract(other.at, here.at)), tensionN ?? 0) : ZERO;
  return addScaled(toward(nodes[node - 1], tensionsN[node - 1]), toward(nodes[node + 1], tensionsN[node]), 1);
}
