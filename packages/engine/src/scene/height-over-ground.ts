import { type SiteVector, site } from "../base/vector.ts";
import type { Face } from "./faces.ts";
import { type GroundPlane, groundZAt } from "./ground-plane.ts";
import { type Extent, extentOf, insideOutline, type Outline, type PlanPoint } from "./outline.ts";
import { cellSides } from "./outline-cells.ts";
import type { Solid } from "./solids.ts";

/** A piece of even ground within an outline. */
export interface GroundPiece {
  readonly name: string;
  readonly outline: Outline;
  readonly extent: Extent;
  readonly plane: GroundPlane;
}

export const groundPiece = (name: string, outline: Outline, plane: GroundPlane): GroundPiece => ({
  name,
  outline,
  extent: extentOf(outline),
  plane,
});

/** The ground of a site: pieces, of which the first counts where they lie over one another, and level ground about them. */
export interface Ground {
  readonly pieces: readonly GroundPiece[];
  readonly elseZM: number;
}

export interface HeightOverGround {
  /** Plumb from the ground up to the body; negative where it is in the ground, m. */
  readonly heightM: number;
  /** The place of the body's underside where that is least. */
  readonly at: SiteVector;
  /** The piece of ground there; null: the ground about them. */
  readonly over: string | null;
}

/** A side of a body that looks down less than this has no underside of its own to see. */
const LOOKS_DOWN = -1e-6;

/**
 * How high does a body hang above the ground, or how deep is it in it?
 *
 * The height of each flat side over each piece of ground is a plane as well, so the least lies at a corner of the parts
 * into which the ground's outlines cut the side: exact for bodies with flat sides, over steps of the ground too (a body
 * beside a bank is in it as soon as it reaches over its edge), but for what is narrower than `BESIDE_M`.
 */
export function heightOverGround(body: Solid, ground: Ground): HeightOverGround {
  const { min, max } = body.bounds;
  const near = ground.pieces.filter(
    ({ extent: { min: low, max: high } }) =>
      low[0] <= max[0] && high[0] >= min[0] && low[1] <= max[1] && high[1] >= min[1],
  );
  const outlines = near.map((p) => p.outline);
  const pieceAt = (place: PlanPoint): GroundPiece | null => near.find((p) => insideOutline(p.outline, place)) ?? null;
  let least: HeightOverGround = { heightM: Number.MAX_VALUE, at: body.bounds.min, over: null };
  const offer = ([x, y]: PlanPoint, z: number, piece: GroundPiece | null): void => {
    const heightM = z - (piece ? groundZAt(piece.plane, x, y) : ground.elseZM);
    if (heightM < least.heightM) least = { heightM, at: site(x, y, z), over: piece?.name ?? null };
  };
  for (const [x, y, z] of body.vertices) offer([x, y], z, pieceAt([x, y]));
  // With no edge of the ground below it, the corners are all there is.
  if (near.length > 0)
    for (const face of body.faces) {
      if (face.normal[2] > LOOKS_DOWN) continue;
      const shadow = face.loop.map(([x, y]): PlanPoint => [x, y]);
      for (const { from, to, beside } of cellSides(shadow, outlines)) {
        if (!insideOutline(shadow, beside)) continue;
        const piece = pieceAt(beside);
        offer(from, zOn(face, from), piece);
        offer(to, zOn(face, to), piece);
      }
    }
  return least;
}

/** Height of a side's plane at a place, m. */
function zOn({ loop, normal }: Face, [x, y]: PlanPoint): number {
  const [x0, y0, z0] = loop[0] as SiteVector;
  return z0 - (normal[0] * (x - x0) + normal[1] * (y - y0)) / normal[2];
}
