import type { AerialDevice, RatingRow } from "./device.ts";
import { POSE_TOLERANCE } from "./pose-limits.ts";

/** What the maker's table says at one pose, and from which of its rows. */
export interface TipRatingAnswer {
  /** Rated vertical tip load, N; `null` when the table does not say. */
  readonly ratedTipLoadN: number | null;
  /** The rows the answer rests on; several on a boundary or between bands. */
  readonly rows: readonly RatingRow[];
  readonly where: "inside" | "boundary" | "between" | "outside";
  /** The same in a plain sentence. */
  readonly reason: string;
}

/**
 * What vertical load does the maker's table allow at the tip, at this elevation and length?
 *
 * Bands are closed rectangles of elevation and length. Inside one its value holds; on a shared boundary, or in a gap
 * between bands, the lowest of the neighbours holds, and a neighbour with no value leaves it unknown. Outside every
 * band it is unknown. Nothing is interpolated or carried on beyond the table.
 * A pose within 1e-6 rad or 1e-6 m of a band's edge counts as on it, so that rounding in units cannot open a gap.
 * A value that is negative or not finite counts as missing; zero is a value.
 */
export function ratedTipLoad(table: AerialDevice["tipRating"], elevationRad: number, lengthM: number): TipRatingAnswer {
  const gaps = table.rows.map((row) => ({
    row,
    elevation: gap(elevationRad, row.elevationMinRad, row.elevationMaxRad),
    length: gap(lengthM, row.lengthMinM, row.lengthMaxM),
  }));

  const holding = gaps.filter((g) => g.elevation === 0 && g.length === 0);
  if (holding.length > 0) return answer(holding, holding.length > 1 ? "boundary" : "inside");

  const between = [
    ...bracket(
      gaps.filter((g) => g.length === 0),
      (g) => g.elevation,
    ),
    ...bracket(
      gaps.filter((g) => g.elevation === 0),
      (g) => g.length,
    ),
  ];
  if (between.length > 0) return answer(between, "between");

  const corners = [-1, 1].flatMap((e) => [-1, 1].map((l) => nearestCorner(gaps, e, l)));
  if (corners.every((c) => c.length > 0)) return answer(corners.flat(), "between");
  return answer([], "outside");
}

/** A row and how far the pose lies from its bands: 0 within, positive when the band lies above the pose, negative below. */
interface RowGap {
  readonly row: RatingRow;
  readonly elevation: number;
  readonly length: number;
}

const gap = (x: number, min: number, max: number): number =>
  x < min - POSE_TOLERANCE ? min - x : x > max + POSE_TOLERANCE ? max - x : 0;

/** The nearest rows on either side along one direction; empty unless there are rows on both sides. */
function bracket(rows: readonly RowGap[], along: (g: RowGap) => number): readonly RowGap[] {
  const above = nearest(
    rows.filter((g) => along(g) > 0),
    along,
  );
  const below = nearest(
    rows.filter((g) => along(g) < 0),
    along,
  );
  return above.length > 0 && below.length > 0 ? [...below, ...above] : [];
}

function nearest(rows: readonly RowGap[], along: (g: RowGap) => number): readonly RowGap[] {
  const least = rows.reduce((d, g) => Math.min(d, Math.abs(along(g))), Number.POSITIVE_INFINITY);
  return rows.filter((g) => Math.abs(along(g)) <= least + POSE_TOLERANCE);
}

/** In one corner (both directions in a gap): the rows that no other row of that corner lies nearer than in both directions. */
function nearestCorner(rows: readonly RowGap[], elevationSign: number, lengthSign: number): readonly RowGap[] {
  const there = rows.filter((g) => Math.sign(g.elevation) === elevationSign && Math.sign(g.length) === lengthSign);
  const nearerInBoth = (a: RowGap, b: RowGap): boolean =>
    Math.abs(a.elevation) < Math.abs(b.elevation) && Math.abs(a.length) < Math.abs(b.length);
  return there.filter((g) => !there.some((other) => nearerInBoth(other, g)));
}

function answer(used: readonly RowGap[], where: TipRatingAnswer["where"]): TipRatingAnswer {
  const rows = used.map((g) => g.row);
  const values = rows.map((row) => row.ratedTipLoadN);
  const known = values.filter((v): v is number => v !== null && Number.isFinite(v) && v >= 0);
  const ratedTipLoadN = rows.length > 0 && known.length === values.length ? Math.min(...known) : null;
  return { ratedTipLoadN, rows, where, reason: sentence(where, ratedTipLoadN !== null) };
}

function sentence(where: TipRatingAnswer["where"], known: boolean): string {
  if (where === "outside") return "The rating table does not cover this elevation and length.";
  if (!known) return "The rating table has no value here.";
  if (where === "inside") return "Read from one band of the rating table.";
  if (where === "boundary") return "On the boundary of bands: the lowest of their values holds.";
  return "Between bands: the lowest of the neighbouring values holds.";
}
