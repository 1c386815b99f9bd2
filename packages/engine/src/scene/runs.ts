import type { SiteVector } from "../base/vector.ts";
import { type Bounds, boundsOf } from "./bounds.ts";
import type { Face, Segment, Solid } from "./solids.ts";

/** Things that stand one after another in a list, and the box round them: passed over as one where that is far off. */
export interface Run<T> {
  readonly things: readonly T[];
  readonly bounds: Bounds;
}

interface SolidRuns {
  readonly vertices: readonly Run<SiteVector>[];
  readonly edges: readonly Run<Segment>[];
  readonly faces: readonly Run<Face>[];
}

/** Things in a run. What stands together along an outline lies together, so that the box round it is small. */
const LENGTH = 16;
/** A thing of more corners than this has a run of its own. */
const LARGE = 8;

/** A list in runs. */
export function runsOf<T>(list: readonly T[], cornersOf: (thing: T) => readonly SiteVector[]): readonly Run<T>[] {
  const isLarge = (thing: T | undefined): boolean => thing !== undefined && cornersOf(thing).length > LARGE;
  const runs: Run<T>[] = [];
  for (let from = 0; from < list.length; ) {
    let end = from + 1;
    if (!isLarge(list[from])) while (end < Math.min(list.length, from + LENGTH) && !isLarge(list[end])) end++;
    const things = list.slice(from, end);
    const corners: SiteVector[] = [];
    for (const thing of things) for (const corner of cornersOf(thing)) corners.push(corner);
    runs.push({ things, bounds: boundsOf(corners) });
    from = end;
  }
  return runs;
}

const known = new WeakMap<Solid, SolidRuns>();

/** The parts of a solid in runs, kept by its identity: a solid never changes. A small one is one run. */
export function runsOfSolid(solid: Solid): SolidRuns {
  const found = known.get(solid);
  if (found) return found;
  const { vertices, edges, faces, bounds } = solid;
  const whole = <T>(things: readonly T[]): readonly Run<T>[] => [{ things, bounds }];
  const runs =
    vertices.length <= LENGTH
      ? { vertices: whole(vertices), edges: whole(edges), faces: whole(faces) }
      : {
          vertices: runsOf(vertices, (v) => [v]),
          edges: runsOf(edges, (edge) => edge),
          faces: runsOf(faces, (face) => face.loop),
        };
  known.set(solid, runs);
  return runs;
}
