/**
 * Vectors in the site frame: right-handed, x east, y north, z up, in metres (positions) or newtons (forces).
 *
 * The frame is part of the type, so that a site vector cannot be handed where beam components are expected
 * (those are `BeamVector`, an object with named components).
 */
declare const frame: unique symbol;

/** A position (m), direction (unit) or force (N) in the site frame: [east, north, up]. */
export type SiteVector = readonly [number, number, number] & { readonly [frame]: "site" };

/** A plain triple as it stands in a file, before it is told which frame it is in. */
export type Triple = readonly [number, number, number];

/** A vector in the frame of the ladder at its pivot; what each component means stands at its name. */
export interface BeamVector {
  /** Along the ladder, from pivot to tip. */
  readonly axial: number;
  /** In the ladder's vertical plane, square to the ladder; up when the ladder is level. */
  readonly normal: number;
  /** Level, to the right when looking out along the ladder. */
  readonly lateral: number;
}

export const site = (x: number, y: number, z: number): SiteVector => [x, y, z] as unknown as SiteVector;
/** Take a plain triple to be in the site frame. */
export const asSite = (t: Triple): SiteVector => t as SiteVector;
export const ZERO: SiteVector = site(0, 0, 0);
export const UP: SiteVector = site(0, 0, 1);

export const add = (a: SiteVector, b: SiteVector): SiteVector => site(a[0] + b[0], a[1] + b[1], a[2] + b[2]);
export const subtract = (a: SiteVector, b: SiteVector): SiteVector => site(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
export const scale = (a: SiteVector, s: number): SiteVector => site(a[0] * s, a[1] * s, a[2] * s);
/** a + s·b */
export const addScaled = (a: SiteVector, b: SiteVector, s: number): SiteVector =>
  site(a[0] + b[0] * s, a[1] + b[1] * s, a[2] + b[2] * s);
export const dot = (a: SiteVector, b: SiteVector): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const cross = (a: SiteVector, b: SiteVector): SiteVector =>
  site(a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]);
/** Squares within these bounds neither overflow nor lose figures. */
const LEAST_SQUARE = 1e-280;
const MOST_SQUARE = 1e280;

/** Length of three components. A plain root is several times faster than `Math.hypot`, which is left for the far ends. */
export const lengthOf = (x: number, y: number, z: number): number => {
  const squared = x * x + y * y + z * z;
  return squared > LEAST_SQUARE && squared < MOST_SQUARE ? Math.sqrt(squared) : Math.hypot(x, y, z);
};
export const norm = (a: SiteVector): number => lengthOf(a[0], a[1], a[2]);
export const distance = (a: SiteVector, b: SiteVector): number => lengthOf(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
/** Vectors shorter than this have no direction; far below any length or force that means something. */
export const NO_LENGTH = 1e-150;

/** Unit vector along `a`; zero for a vector without length. */
export const unit = (a: SiteVector): SiteVector => {
  const n = norm(a);
  return n > NO_LENGTH ? scale(a, 1 / n) : ZERO;
};
export const lerp = (a: SiteVector, b: SiteVector, t: number): SiteVector => addScaled(a, subtract(b, a), t);

/** Angle between two vectors, rad in [0, π], accurate at both ends; 0 if either has no length. */
export const angleBetween = (a: SiteVector, b: SiteVector): number => Math.atan2(norm(cross(a, b)), dot(a, b));

/** Level unit vector at a bearing (rad, clockwise from north). */
export const bearingVector = (bearingRad: number): SiteVector => site(Math.sin(bearingRad), Math.cos(bearingRad), 0);
/** Bearing of a vector, rad in [0, 2π), clockwise from north; 0 for a vertical one. */
export const bearingOf = (a: SiteVector): number => {
  const b = Math.atan2(a[0], a[1]);
  return b < 0 ? b + 2 * Math.PI : b;
};
