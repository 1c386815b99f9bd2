import { type AerialDevice, type Outline, type StandQuestion, searchStands, standGrid } from "@gantline/engine";
import { type BenchReport, type Measurement, summarise } from "./measure.ts";
import { plainStands } from "./plain-stands.ts";

/**
 * How long does it take to search a yard of 60 m × 40 m for places to stand?
 *
 * `yard` is both vehicles at 0.25 m, one after the other on one core; its rows can be shared out among workers. `posesPerS`
 * counts every heading × place to hang from × height, all of which are decided; `ladderPosesPerS` counts distinct poses of the
 * ladder alone, place to hang from × height, whatever the headings. `cellsRatio` is the time for four times the
 * cells. `obstaclesRatio` is that for a hundred times the obstacles on a site a hundred times as large, `crowdedRatio` on the same
 * ground, where a hundred times as many come near the ladder. `ratio` is against the same question answered by a plain
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
    "1000 obstacles, same site": crowded,
    "yard at 2 m": ours,
    "yard at 2 m, plain grid": plain,
    posesPerS: Math.round((1000 * yard.reduce((n, q) => n + candidates(q), 0)) / both.minMs),
    ladderPosesPerS: Math.round((1000 * yard.reduce((n, q) => n + candidates(q) / q.steps.headings, 0)) / both.minMs),
    cellsRatio: fine.minMs / coarse.minMs,
    obstaclesRatio: wide.minMs / few.minMs,
    crowdedRatio: crowded.minMs / few.minMs,
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

const rectangle = (west: number, south: number, east: number, north: number): Outline => [
  [west, south],
  [east, south],
  [east, north],
  [west, north],
];

/** Invented vehicles. */
const LADDER: AerialDevice = {
  kind: "ladder",
  pivotHeightM: 2.4,
  pivotSetbackM: 0.5,
  lengthMinM: 10,
  lengthMaxM: 31,
  elevationMinRad: -0.1,
  elevationMaxRad: 1.3,
  beamWidthM: 0.9,
  beamDepthM: 0.7,
  platform: null,
  outline: { frontM: 7, rearM: 4, leftM: 1.25, rightM: 1.25, heightM: 3.4 },
  jacks: [
    { id: "fl", name: "front left", forwardM: 3, rightM: -2.4 },
    { id: "fr", name: "front right", forwardM: 3, rightM: 2.4 },
    { id: "rr", name: "rear right", forwardM: -2, rightM: 2.4 },
    { id: "rl", name: "rear left", forwardM: -2, rightM: -2.4 },
  ],
  riggingPoints: [],
  tipRating: {
    source: "invented",
    rows: [0, 1, 2].flatMap((e) =>
      [0, 1, 2, 3].map((l) => ({
        elevationMinRad: e * 0.45,
        elevationMaxRad: (e + 1) * 0.45,
        lengthMinM: 10 + 5.25 * l,
        lengthMaxM: 15.25 + 5.25 * l,
        ratedTipLoadN: 4500 + 1200 * e - 500 * l,
      })),
    ),
  },
  sections: null,
  massKg: null,
};
const LONGER: AerialDevice = { ...LADDER, lengthMaxM: 38, pivotHeightM: 2.8 };

/** A yard before a row of buildings, with the target over the edge of one of their roofs. */
function yardOf(obstacles: number, cellM: number, device: AerialDevice): StandQuestion {
  const standing = Array.from({ length: obstacles }, (_, i) => {
    const row = i % 2;
    const west = 3 + 11 * Math.floor(i / 2);
    return {
      id: `o${i}`,
      name: `Obstacle ${i}`,
      outline: row ? rectangle(west + 4, 18 + i, west + 4.4, 18.4 + i) : rectangle(west, 32, west + 9, 44),
      bottomZM: 0,
      topZM: row ? 7 : 9 + (i % 5),
    };
  });
  return {
    vehicleKey: "example",
    device,
    jackReach: {},
    hungFrom: null,
    target: { xM: 30, yM: 31.4, toleranceM: 0.8, minZM: 14, maxZM: 19 },
    parking: [
      {
        id: "yard",
        name: "Yard",
        outline: rectangle(0, 0, 60, 40),
        plane: { xM: 0, yM: 0, zM: 0, slopeRad: 0, downhillBearingRad: 0 },
      },
    ],
    slopeLimitRad: 0.1,
    keepOuts: [{ id: "k", name: "Gap", outline: rectangle(40, 5, 46, 12) }],
    bodyObstacles: standing,
    bodyClearanceM: 0.5,
    obstacles: standing,
    ladderClearanceM: 0.6,
    wires: [],
    tipDemand: { bearingsRad: [0], elevationsRad: [-0.2, 1.5], heightsM: [0], demandN: [2400, 4000] },
    ratedFactor: 1,
    clearanceCountedM: 2,
    steps: { cellM, headings: 8, tipPlaces: 9, tipHeights: 8 },
  };
}

/**
 * The same yard strewn with small things of all heights, spread evenly and by no chance, over ground so many times as long and
 * wide, round the yard.
 */
function scattered(count: number, times: number): StandQuestion {
  const yard = yardOf(10, 0.5, LADDER);
  const spread = (share: number, sizeM: number): number => sizeM * (0.5 + times * ((share % 1) - 0.5));
  const things = Array.from({ length: count }, (_, i) => {
    const x = spread(i * 0.7548776662466927, 60);
    const y = spread(i * 0.5698402909980532, 40);
    const size = 0.1 + 0.3 * ((i * 0.618) % 1);
    return {
      id: `o${i}`,
      name: `Thing ${i}`,
      outline: rectangle(x, y, x + size, y + size),
      bottomZM: 0,
      topZM: 1 + 6 * ((i * 0.3819) % 1),
    };
  });
  return { ...yard, obstacles: things, bodyObstacles: things.slice(0, 10) };
}
