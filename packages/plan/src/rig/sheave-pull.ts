import { addScaled, type SiteVector, site, subtract, unit, ZERO } from "@gantline/engine";
import type { RopeNode } from "./rig-state.ts";

/** What the rope does to what it turns round or ends at, at one node of its path, N: its tensions and what hangs of its weight. */
export function sheavePull(nodes: readonly RopeNode[], tensionsN: readonly number[], node: number): SiteVector {
  const here = nodes[node];
  if (!here) return ZERO;
  let pull = site(0, 0, -here.ropeN);
  const [before, after] = [nodes[node - 1], nodes[node + 1]];
  if (before) pull = addScaled(pull, unit(subtract(before.at, here.at)), tensionsN[node - 1] ?? 0);
  if (after) pull = addScaled(pull, unit(subtract(after.at, here.at)), tensionsN[node] ?? 0);
  return pull;
}
