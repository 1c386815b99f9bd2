import { distance, type SiteVector } from "../base/vector.ts";
import type { RiggingPoint } from "./device.ts";
import type { PosedAerial } from "./pose-aerial.ts";
import { riggingPointAt } from "./rigging-point-at.ts";

/** A place a rope passes: one that stands still, or a rigging point that moves with the ladder. */
export type PathPlace = { readonly at: SiteVector } | { readonly rigging: RiggingPoint };

export interface PathChange {
  readonly beforeM: number;
  readonly afterM: number;
  /** m; positive: the path grows and rope must be given. */
  readonly changeM: number;
}

/** How long is a straight path from point to point, m? Turns round sheaves are taken as points. */
export function pathLengthM(points: readonly SiteVector[]): number {
  let length = 0;
  for (let i = 1; i < points.length; i++) {
    const a = points[i - 1];
    const b = points[i];
    if (a && b) length += distance(a, b);
  }
  return length;
}

/**
 * How much does each rope's path grow when the ladder goes from one pose to another?
 *
 * A rope made fast at both ends must not see its path change: with live load or fast ends the ladder stays still.
 */
export function ropePathChanges<Id extends string>(
  paths: Readonly<Record<Id, readonly PathPlace[]>>,
  before: PosedAerial,
  after: PosedAerial,
): Readonly<Record<Id, PathChange>> {
  const length = (path: readonly PathPlace[], posed: PosedAerial): number =>
    pathLengthM(path.map((place) => ("at" in place ? place.at : riggingPointAt(posed, place.rigging))));
  const changes = Object.entries<readonly PathPlace[]>(paths).map(([id, path]) => {
    const beforeM = length(path, before);
    const afterM = length(path, after);
    return [id, { beforeM, afterM, changeM: afterM - beforeM }] as const;
  });
  return Object.fromEntries(changes) as Record<Id, PathChange>;
}
