import { dot, subtract } from "../base/vector.ts";
import type { Solid } from "./solids.ts";

/** As much as a corner may stand out of a side, m. */
const OUT_M = 1e-9;

const known = new WeakMap<Solid, boolean>();

/** Does a solid lie behind every one of its sides? Kept by its identity: a solid never changes. */
export function isConvex(solid: Solid): boolean {
  const found = known.get(solid);
  if (found !== undefined) return found;
  const convex = solid.faces.every(({ loop, normal }) => {
    const [on] = loop;
    return on !== undefined && solid.vertices.every((v) => dot(subtract(v, on), normal) <= OUT_M);
  });
  known.set(solid, convex);
  return convex;
}
