import type { SiteVector } from "../base/vector.ts";
import { type Bounds, boundsOf } from "./bounds.ts";
import type { Face, Segment } from "./faces.ts";

/** Things that stand one after another in a list, and the box round them: passed over as one where that is far off. */
export interface Run<T> {
  readonly things: readonly T[];
  readonly bounds: Bounds;
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

/** The parts of a solid in runs; a few of them are one run, with the solid's own box round it. */
const partsInRuns =
  <T>(cornersOf: (part: T) => readonly SiteVector[]) =>
  (parts: readonly T[], bounds: Bounds): readonly Run<T>[] =>
    parts.length <= FEW ? [{ things: parts, bounds }] : runsOf(parts, cornersOf);

/** As many edges as a box has and some more. */
const FEW = 24;

export const verticesInRuns = partsInRuns<SiteVector>((vertex) => [vertex]);
export const edgesInRuns = partsInRuns<Segment>((edge) => edge);
export const facesInRuns = partsInRuns<Face>((face) => face.loop);
