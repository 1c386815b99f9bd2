import { add, cross, type SiteVector, subtract, unit, ZERO } from "../base/vector.ts";

/** A flat side of a solid: a simple polygon, convex or not, counterclockwise seen from outside. */
export interface Face {
  readonly loop: readonly SiteVector[];
  /** Outward unit normal. */
  readonly normal: SiteVector;
  /** 0, 1 or 2: the axis to leave out to see the face most nearly head on. */
  readonly drop: 0 | 1 | 2;
}

export type Segment = readonly [SiteVector, SiteVector];

/** A side by its corners; one without area has a normal of zero. */
export function face(loop: readonly SiteVector[]): Face {
  const o = loop[0] as SiteVector;
  // Newell: the sum over the fan is twice the area along the normal, whether or not the polygon is convex.
  let area = ZERO;
  for (let i = 1; i + 1 < loop.length; i++)
    area = add(area, cross(subtract(loop[i] as SiteVector, o), subtract(loop[i + 1] as SiteVector, o)));
  const normal = unit(area);
  const x = Math.abs(normal[0]);
  const y = Math.abs(normal[1]);
  const z = Math.abs(normal[2]);
  return { loop, normal, drop: x >= y && x >= z ? 0 : y >= z ? 1 : 2 };
}
