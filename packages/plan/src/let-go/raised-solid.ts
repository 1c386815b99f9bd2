import { addScaled, boundsOf, type SiteVector, type Solid, UP } from "@gantline/engine";

/** The same solid, so much higher, m. */
export function raisedSolid(solid: Solid, byM: number): Solid {
  const raised = (p: SiteVector): SiteVector => addScaled(p, UP, byM);
  const vertices = solid.vertices.map(raised);
  return {
    ...solid,
    vertices,
    edges: solid.edges.map(([a, b]) => [raised(a), raised(b)] as const),
    faces: solid.faces.map((face) => ({ ...face, loop: face.loop.map(raised) })),
    bounds: boundsOf(vertices),
  };
}
