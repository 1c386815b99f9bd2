import type { Moment } from "@gantline/plan";
import type { WorldPoint } from "../primitives.ts";
import type { Field } from "./chart.ts";
import { runsOf } from "./runs-of.ts";

/** A value with no neighbour is drawn this long, px. */
const ALONE_PX = 4;

/** The line through values, open where one is not known and from stage to stage, where it may jump; a value alone is a short level line. */
export function openParts(
  moments: readonly Moment[],
  values: readonly (number | null)[],
  field: Field,
): readonly (readonly WorldPoint[])[] {
  const joined = runsOf(
    moments.map((m, i) => ({ stage: m.when.stage, known: values[i] !== null && values[i] !== undefined })),
    (a, b) => a.stage === b.stage && a.known === b.known,
  );
  return joined.flatMap(([first, last]): readonly (readonly WorldPoint[])[] => {
    const points = moments.slice(first, last + 1).flatMap((m, k): WorldPoint[] => {
      const value = values[first + k];
      return value === null || value === undefined ? [] : [field.point(m.at, value)];
    });
    const [only] = points;
    if (!only || points.length > 1) return points.length > 1 ? [points] : [];
    return [
      [
        [only[0] - ALONE_PX / 2, only[1]],
        [only[0] + ALONE_PX / 2, only[1]],
      ],
    ];
  });
}
