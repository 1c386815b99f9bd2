import { lengthOf, NO_LENGTH, type SiteVector, site, ZERO } from "@gantline/engine";
import type { RopeNode } from "./rig-state.ts";

/** What the rope does to what it turns round or ends at, at one node of its path, N: its tensions and what hangs of its weight. */
export function sheavePull(nodes: readonly RopeNode[], tensionsN: readonly number[], node: number): SiteVector {
  const here = nodes[node];
  if (!here) return ZERO;
  let [x, y, z] = [0, 0, -here.ropeN];
  for (let side = -1; side <= 1; side += 2) {
    const there = nodes[node + side];
    if (!there) continue;
    const [dx, dy, dz] = [there.at[0] - here.at[0], there.at[1] - here.at[1], there.at[2] - here.at[2]];
    const n = lengthOf(dx, dy, dz);
    if (!(n > NO_LENGTH)) continue;
    const perM = 1 / n;
    const tensionN = tensionsN[side < 0 ? node - 1 : node] ?? 0;
    x += dx * perM * tensionN;
    y += dy * perM * tensionN;
    z += dz * perM * tensionN;
  }
  return site(x, y, z);
}
