import { add, cross, dot, type SiteVector, scale, site, subtract, unit, ZERO } from "../base/vector.ts";
import { type Bounds, boundsOf } from "./bounds.ts";
import { type Outline, type PlanPoint, SAME_POINT_M, tidyOutline } from "./outline.ts";

/** A flat side of a solid: a simple polygon, convex or not, counterclockwise seen from outside. */
export interface Face {
  readonly loop: readonly SiteVector[];
  /** Outward unit normal. */
  readonly normal: SiteVector;
  /** 0, 1 or 2: the axis to leave out to see the face most nearly head on. */
  readonly drop: 0 | 1 | 2;
}

export type Segment = readonly [SiteVector, SiteVector];

/** A body with flat sides; sides without area are left out. All but its bounds is made when first asked for. */
export interface Solid {
  readonly kind: "solid";
  readonly vertices: readonly SiteVector[];
  readonly edges: readonly Segment[];
  readonly faces: readonly Face[];
  readonly bounds: Bounds;
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
  return solid(bounds, () => {
    const at = (z: number): SiteVector[] => plan.map(([x, y]) => site(x, y, z));
    const bottom = at(low);
    const top = at(high);
    const caps = [face(top), face([...bottom].reverse())];
    if (isFlat) return { vertices: top, edges: ring(top), faces: caps };
    const next = (i: number): number => (i + 1) % plan.length;
    const sides = plan.map((_, i) => face([bottom[i], bottom[next(i)], top[next(i)], top[i]] as SiteVector[]));
    const uprights = bottom.map((b, i): Segment => [b, top[i] as SiteVector]);
    return {
      vertices: [...bottom, ...top],
      edges: [...ring(bottom), ...ring(top), ...uprights],
      faces: [...caps, ...sides],
    };
  });
}

/** A box about its centre: three unit axes, square to each other, and half the size along each, m. */
export function orientedBox(
  centre: SiteVector,
  axes: readonly [SiteVector, SiteVector, SiteVector],
  halfM: readonly [number, number, number],
): Solid {
  const [u, v, w] = axes.map((axis, i) => scale(axis, halfM[i] as number)) as [SiteVector, SiteVector, SiteVector];
  const corner = (i: number, j: number, k: number): SiteVector =>
    add(add(centre, scale(u, i)), add(scale(v, j), scale(w, k)));
  const rightHanded = dot(cross(axes[0], axes[1]), axes[2]) > 0;
  const layer = (k: number): SiteVector[] => {
    const loop = [corner(-1, -1, k), corner(1, -1, k), corner(1, 1, k), corner(-1, 1, k)];
    return rightHanded ? loop : loop.reverse();
  };
  const low = layer(-1);
  const high = layer(1);
  const vertices = [...low, ...high];
  return solid(boundsOf(vertices), () => {
    const sides = low.map((a, i) => {
      const j = (i + 1) % 4;
      return face([a, low[j], high[j], high[i]] as SiteVector[]);
    });
    const uprights = low.map((a, i): Segment => [a, high[i] as SiteVector]);
    return {
      vertices,
      edges: [...ring(low), ...ring(high), ...uprights],
      faces: [face(high), face([...low].reverse()), ...sides],
    };
  });
}

/** A box round the straight line between two points: `widthM` along `lateral`, `depthM` along `normal`, both unit and square to the line. */
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

type Parts = Pick<Solid, "vertices" | "edges" | "faces">;

function solid(bounds: Bounds, make: () => Parts): Solid {
  let made: Parts | undefined;
  const parts = (): Parts => {
    if (!made) {
      const { vertices, edges, faces } = make();
      made = { vertices, edges, faces: faces.filter((f) => f.normal !== ZERO) };
    }
    return made;
  };
  return {
    kind: "solid",
    get vertices() {
      return parts().vertices;
    },
    get edges() {
      return parts().edges;
    },
    get faces() {
      return parts().faces;
    },
    bounds,
  };
}

const ring = (loop: readonly SiteVector[]): Segment[] =>
  loop.map((p, i): Segment => [p, loop[(i + 1) % loop.length] as SiteVector]);

function face(loop: readonly SiteVector[]): Face {
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
