import type { AerialDevice, StandQuestion } from "@gantline/engine";
import { exampleLadder } from "../packages/engine/src/aerial/example-device.ts";
import { openYard, rectangle } from "../packages/engine/src/stand/testing/example-question.ts";

/** Invented vehicles. */
export const LADDER: AerialDevice = {
  ...exampleLadder,
  pivotHeightM: 2.4,
  pivotSetbackM: 0.5,
  lengthMaxM: 31,
  elevationMinRad: -0.1,
  elevationMaxRad: 1.3,
  beamWidthM: 0.9,
  outline: { ...exampleLadder.outline, heightM: 3.4 },
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
export const LONGER: AerialDevice = { ...LADDER, lengthMaxM: 38, pivotHeightM: 2.8 };

/** A yard before a row of buildings, with the target over the edge of one of their roofs. */
export function yardOf(obstacles: number, cellM: number, device: AerialDevice): StandQuestion {
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
    ...openYard,
    device,
    target: { xM: 30, yM: 31.4, toleranceM: 0.8, minZM: 14, maxZM: 19 },
    keepOuts: [{ id: "k", name: "Gap", outline: rectangle(40, 5, 46, 12) }],
    bodyObstacles: standing,
    obstacles: standing,
    clearanceCountedM: 2,
    steps: { cellM, headings: 8, tipPlaces: 9, tipHeights: 8 },
  };
}

/**
 * The same yard strewn with small things of all heights, spread evenly and by no chance, over ground so many times as long and
 * wide, round the yard.
 */
export function scattered(count: number, times: number): StandQuestion {
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
