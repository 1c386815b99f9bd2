import { type StandQuestion, searchStands, standGrid } from "@gantline/engine";
import { type BenchReport, type Measurement, summarise } from "./measure.ts";
import { plainStands } from "./plain-stands.ts";
import { LADDER, LONGER, scattered, yardOf } from "./stand-yard.ts";

/**
 * How long does it take to search a yard of 60 m × 40 m for places to stand?
 *
 * `yard` is both vehicles at 0.25 m, one after the other on one core; its rows can be shared out among workers. `posesPerS`
 * counts every heading × place to hang from × height, all of which are decided; `ladderPosesPerS` counts distinct poses of the
 * ladder alone, place to hang from × height, whatever the headings. `cellsRatio` is the time for four times the
 * cells. `obstaclesRatio` is that for a hundred times the obstacles on a site a hundred times as large, `crowdedRatio` on the same
 * ground, where a hundred times as many come near the ladder, one on every 2.4 m² at last; `crowdedTenfold` for the second ten
 * times of these. Their logarithm goes as 3 to 1, and as 1.5 to 1. `ratio` is against the same question answered by a plain
 * grid over general-purpose polygon operations (polygon-clipping), in the same process at 2 m; `agreement` is the share of
 * cells that both call feasible or both not. The plain way takes the ladder's shadow for the ladder, which is stricter at
 * corners.
 */
export async function benchStand(): Promise<BenchReport> {
  const yard = [yardOf(10, 0.25, LADDER), yardOf(10, 0.25, LONGER)];
  const both = repeated(3, () => yard.map(search));
  const coarse = repeated(5, () => search(yardOf(10, 0.5, LADDER)));
  const fine = repeated(3, () => search(yardOf(10, 0.25, LADDER)));
  const few = repeated(5, () => search(scattered(10, 1)));
  const wide = repeated(5, () => search(scattered(1000, 10)));
  const hundred = repeated(3, () => search(scattered(100, 1)));
  const crowded = repeated(3, () => search(scattered(1000, 1)));
  const small = yardOf(10, 2, LADDER);
  const ours = repeated(20, () => search(small));
  const plain = repeated(5, () => plainStands(small));
  const theirs = plainStands(small);
  const found = search(small);
  const same = found.feasibleCount.reduce((n, count, i) => n + (count > 0 === (theirs[i] ?? 0) > 0 ? 1 : 0), 0);
  return {
    "yard, both vehicles": both,
    "one vehicle at 0.5 m": coarse,
    "one vehicle at 0.25 m": fine,
    "10 obstacles": few,
    "1000 obstacles, larger site": wide,
    "100 obstacles, same site": hundred,
    "1000 obstacles, same site": crowded,
    "yard at 2 m": ours,
    "yard at 2 m, plain grid": plain,
    posesPerS: Math.round((1000 * yard.reduce((n, q) => n + candidates(q), 0)) / both.minMs),
    ladderPosesPerS: Math.round((1000 * yard.reduce((n, q) => n + candidates(q) / q.steps.headings, 0)) / both.minMs),
    cellsRatio: fine.minMs / coarse.minMs,
    obstaclesRatio: wide.minMs / few.minMs,
    crowdedRatio: crowded.minMs / few.minMs,
    crowdedTenfold: crowded.minMs / hundred.minMs,
    ratio: plain.minMs / ours.minMs,
    agreement: same / theirs.length,
    feasibleCells: yard.reduce((n, q) => n + search(q).status.reduce((m, s) => m + (s === 0 ? 1 : 0), 0), 0),
  };
}

/** A few timed runs after one that is not: these take too long for many. */
function repeated(runs: number, run: () => unknown): Measurement {
  run();
  return summarise(
    Array.from({ length: runs }, () => {
      const startMs = performance.now();
      run();
      return performance.now() - startMs;
    }),
  );
}

function search(question: StandQuestion) {
  const band = searchStands(question, { fromRow: 0, toRow: standGrid(question).rows });
  if (!band) throw new Error("The search was cancelled by nobody.");
  return band;
}

function candidates(question: StandQuestion): number {
  const { rows, columns } = standGrid(question);
  const { headings, tipPlaces, tipHeights } = question.steps;
  return rows * columns * headings * tipPlaces * tipHeights;
}
