import { add, cross, dot, type SiteVector, scale, site, subtract, unit, ZERO } from "../base/vector.ts";
import { type Bounds, boundsOf } from "./bounds.ts";
import { type Face, face, type Segment } from "./faces.ts";
import { type Outline, type PlanPoint, SAME_POINT_M, tidyOutline } from "./outline.ts";
import { edgesInRuns, facesInRuns, type Run, verticesInRuns } from "./runs.ts";

/** A body with flat sides; sides without area are left out. All but its bounds is made when first asked for. */
export interface Solid {
  readonly kind: "solid";
  readonly vertices: readonly SiteVector[];
  readonly edges: readonly Segment[];
  readonly faces: readonly Face[];
  readonly bounds: Bounds;
  /** The parts again, in runs of some that stand together. */
  readonly vertexRuns: readonly Run<SiteVector>[];
  readonly edgeRuns: readonly Run<Segment>[];
  readonly faceRuns: readonly Run<Face>[];
}

/** Everything within `radiusM` of a segment: a rope with room to swing, a load, a person. A radius of 0 is the segment itself. */
export interface Capsule {
  readonly kind: "capsule";
  readonly from: SiteVector;
  readonly to: SiteVector;
  readonly radiusM: number;
}

/** A line through points, such as a rope or a wire; at least one point. */
export interface Polyline {
  readonly kind: "polyline";
  readonly points: readonly SiteVector[];
}

export type Shape = Solid | Capsule | Polyline;

export const capsule = (from: SiteVector, to: SiteVector, radiusM: number): Capsule => ({
  kind: "capsule",
  from,
  to,
  radiusM,
});
export const sphere = (centre: SiteVector, radiusM: number): Capsule => capsule(centre, centre, radiusM);
export const polyline = (points: readonly SiteVector[]): Polyline => ({ kind: "polyline", points });

/**
 * The solid between two heights over an outline in plan.
 *
 * The outline is a simple polygon of three points or more, convex or not, either way round. Heights may be given either
 * way round; if they are equal the solid is a flat plate.
 */
export function extrudedOutline(outline: Outline, zBottomM: number, zTopM: number): Solid {
  const plan = tidyOutline(outline);
  if (plan.length < 3) throw new RangeError("An outline needs three points or more.");
  const [low, high] = [Math.min(zBottomM, zTopM), Math.max(zBottomM, zTopM)];
  const isFlat = high - low <= SAME_POINT_M;
  const [x, y] = plan[0] as PlanPoint;
  const bounds = boundsOf([site(x, y, isFlat ? high : low), ...plan.map((p) => site(p[0], p[1], high))]);
  const at = (z: number): SiteVector[] => plan.map(([x, y]) => site(x, y, z));
  const bottom = at(low);
  const top = at(high);
  const caps = () => [face(top), face([...bottom].reverse())];
  if (isFlat) return new FlatSided(bounds, { vertices: () => top, edges: () => ring(top), faces: caps });
  return new FlatSided(bounds, {
    vertices: () => [...bottom, ...top],
    edges: () => [...ring(bottom), ...ring(top), ...uprights(bottom, top)],
    faces: () => [...caps(), ...sides(bottom, top).map(face)],
  });
}

/** A box about its centre: three unit axes, square to each other, and half the size along each, m. */
export function orientedBox(
  centre: SiteVector,
  axes: readonly [SiteVector, SiteVector, SiteVector],
  halfM: readonly [number, number, number],
): Solid {
  const [u, v, w] = axes;
  const [long, wide, high] = halfM;
  const corner = (i: number, j: number, k: number): SiteVector =>
    site(
      centre[0] + i * long * u[0] + j * wide * v[0] + k * high * w[0],
      centre[1] + i * long * u[1] + j * wide * v[1] + k * high * w[1],
      centre[2] + i * long * u[2] + j * wide * v[2] + k * high * w[2],
    );
  /** Counterclockwise seen from beyond the third axis. */
  const turn = dot(cross(u, v), w) > 0 ? 1 : -1;
  const layer = (k: number): SiteVector[] => [
    corner(-1, -turn, k),
    corner(1, -turn, k),
    corner(1, turn, k),
    corner(-1, turn, k),
  ];
  const bottom = layer(-1);
  const top = layer(1);
  const vertices = [...bottom, ...top];
  return new FlatSided(boundsOf(vertices), {
    vertices: () => vertices,
    edges: () => [...ring(bottom), ...ring(top), ...uprights(bottom, top)],
    faces: () => [face(top), face([...bottom].reverse()), ...sides(bottom, top).map(face)],
  });
}

/** A box round the straight line between two points: `widthM` along `lateral`, `depthM` along `normal`, both unit and square to the line, or nearly so for a ladder that sinks under its load. */
export function boxAlong(
  from: SiteVector,
  to: SiteVector,
  lateral: SiteVector,
  normal: SiteVector,
  widthM: number,
  depthM: number,
): Solid {
  const along = subtract(to, from);
  const halfLength = Math.hypot(...along) / 2;
  return orientedBox(scale(add(from, to), 0.5), [unit(along), lateral, normal], [halfLength, widthM / 2, depthM / 2]);
}

/** The same solid, elsewhere. */
export function movedSolid(solid: Solid, by: SiteVector): Solid {
  const moved = (p: SiteVector): SiteVector => add(p, by);
  return new FlatSided(
    { min: moved(solid.bounds.min), max: moved(solid.bounds.max) },
    {
      vertices: () => solid.vertices.map(moved),
      edges: () => solid.edges.map(([a, b]): Segment => [moved(a), moved(b)]),
      faces: () => solid.faces.map(({ loop, normal, drop }) => ({ loop: loop.map(moved), normal, drop })),
    },
  );
}

/** How the parts of a solid are made. */
interface Making {
  readonly vertices: () => readonly SiteVector[];
  readonly edges: () => readonly Segment[];
  readonly faces: () => readonly Face[];
}

class FlatSided implements Solid {
  readonly kind = "solid";
  readonly bounds: Bounds;
  readonly #make: Making;
  #vertices: readonly SiteVector[] | undefined;
  #edges: readonly Segment[] | undefined;
  #faces: readonly Face[] | undefined;
  #vertexRuns: readonly Run<SiteVector>[] | undefined;
  #edgeRuns: readonly Run<Segment>[] | undefined;
  #faceRuns: readonly Run<Face>[] | undefined;

  constructor(bounds: Bounds, make: Making) {
    this.bounds = bounds;
    this.#make = make;
  }
  get vertices() {
    this.#vertices ??= this.#make.vertices();
    return this.#vertices;
  }
  get edges() {
    this.#edges ??= this.#make.edges();
    return this.#edges;
  }
  get faces() {
    this.#faces ??= this.#make.faces().filter((f) => f.normal !== ZERO);
    return this.#faces;
  }
  get vertexRuns() {
    this.#vertexRuns ??= verticesInRuns(this.vertices, this.bounds);
    return this.#vertexRuns;
  }
  get edgeRuns() {
    this.#edgeRuns ??= edgesInRuns(this.edges, this.bounds);
    return this.#edgeRuns;
  }
  get faceRuns() {
    this.#faceRuns ??= facesInRuns(this.faces, this.bounds);
    return this.#faceRuns;
  }
  /** As it is written to a file. */
  toJSON(): Pick<Solid, "kind" | "vertices" | "edges" | "faces" | "bounds"> {
    const { kind, vertices, edges, faces, bounds } = this;
    return { kind, vertices, edges, faces, bounds };
  }
}

const next = <T>(loop: readonly T[], i: number): T => loop[(i + 1) % loop.length] as T;

const ring = (loop: readonly SiteVector[]): Segment[] => loop.map((p, i): Segment => [p, next(loop, i)]);

const uprights = (bottom: readonly SiteVector[], top: readonly SiteVector[]): Segment[] =>
  bottom.map((p, i): Segment => [p, top[i] as SiteVector]);

const sides = (bottom: readonly SiteVector[], top: readonly SiteVector[]): SiteVector[][] =>
  bottom.map((p, i) => [p, next(bottom, i), next(top, i), top[i] as SiteVector]);
