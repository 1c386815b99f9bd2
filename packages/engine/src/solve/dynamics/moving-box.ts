import { type SiteVector, site, type Triple, UP, ZERO } from "../../base/vector.ts";
import { orientedBox, type Solid } from "../../scene/solids.ts";

/**
 * One upright box that is moved from place to place: its corners are, and all else stands on these. Only for measuring,
 * and only by whoever has made it.
 */
export function movingBox(halfSizeM: Triple): (at: SiteVector) => Solid {
  const box = orientedBox(ZERO, [site(1, 0, 0), site(0, 1, 0), UP], halfSizeM);
  const corners = box.vertices.map((corner) => ({ corner: corner as unknown as Mutable, from: copyOf(corner) }));
  const { min, max } = box.bounds;
  const ends = [min, max].map((end) => ({ corner: end as unknown as Mutable, from: copyOf(end) }));
  const moved = [...corners, ...ends];
  return (at) => {
    for (const { corner, from } of moved) for (let c = 0; c < 3; c++) corner[c] = from[c]! + at[c]!;
    return box;
  };
}

type Mutable = [number, number, number];

const copyOf = ([x, y, z]: Triple): Triple => [x, y, z];
