import type { AerialDevice, RatingRow } from "../../aerial/device.ts";
import { exampleLadder, examplePlatform } from "../../aerial/example-device.ts";
import { seededRandom } from "../../numerics/seeded-random.ts";
import type { Outline, PlanPoint } from "../../scene/outline.ts";
import type { StandObstacle, StandQuestion } from "../stand-question.ts";

/** Invented rating: falls with length, rises with elevation. */
const rows: readonly RatingRow[] = [0, 1, 2].flatMap((e) =>
  [0, 1, 2, 3].map((l) => ({
    elevationMinRad: e * 0.45,
    elevationMaxRad: (e + 1) * 0.45,
    lengthMinM: 10 + 5 * l,
    lengthMaxM: 15 + 5 * l,
    ratedTipLoadN: 3000 + 1500 * e - 500 * l,
  })),
);

/** Invented devices with a rating table. */
export const ratedLadder: AerialDevice = { ...exampleLadder, tipRating: { source: "invented", rows } };
export const ratedPlatform: AerialDevice = { ...examplePlatform, tipRating: { source: "invented", rows } };

export const rectangle = (west: number, south: number, east: number, north: number): Outline => [
  [west, south],
  [east, south],
  [east, north],
  [west, north],
];

/** An open yard, 60 m × 40 m, level, nothing in the way. */
export const openYard: StandQuestion = {
  vehicleKey: "example",
  device: ratedLadder,
  jackReach: {},
  hungFrom: null,
  target: { xM: 30, yM: 32, toleranceM: 0.5, minZM: 14, maxZM: 18 },
  parking: [
    {
      id: "yard",
      name: "Yard",
      outline: rectangle(0, 0, 60, 40),
      plane: { xM: 0, yM: 0, zM: 0, slopeRad: 0, downhillBearingRad: 0 },
    },
  ],
  slopeLimitRad: 0.1,
  keepOuts: [],
  bodyObstacles: [],
  bodyClearanceM: 0.5,
  obstacles: [],
  ladderClearanceM: 0.6,
  wires: [],
  tipDemand: { bearingsRad: [0], elevationsRad: [-0.2, 1.5], heightsM: [0], demandN: [2400, 4000] },
  ratedFactor: 1,
  clearanceCountedM: 3,
  steps: { cellM: 2, headings: 4, tipPlaces: 5, tipHeights: 5 },
};

/** A yard with buildings, parapets, a canopy, trees, wires, keep-outs and sloping ground, all by a seed. */
export function randomYard(seed: number): StandQuestion {
  const random = seededRandom(seed);
  const between = (a: number, b: number): number => a + (b - a) * random();
  const shape = (x: number, y: number, size: number): Outline => {
    const corners = 3 + Math.floor(random() * 6);
    const turn = between(0, Math.PI);
    return Array.from({ length: corners }, (_, i): PlanPoint => {
      const far = size * between(0.35, 1);
      const at = turn + (2 * Math.PI * (i + between(0, 0.6))) / corners;
      return [x + far * Math.cos(at), y + far * Math.sin(at)];
    });
  };
  const obstacle = (i: number): StandObstacle => {
    const bottomZM = random() < 0.25 ? between(3, 10) : -1;
    return {
      id: `o${i}`,
      name: `Obstacle ${i}`,
      outline: shape(between(0, 60), between(0, 40), between(0.5, 7)),
      bottomZM,
      topZM: bottomZM + between(1, 14),
    };
  };
  const x = between(10, 50);
  const y = between(10, 30);
  const minZM = between(4, 18);
  /** Stands close to where the tip is to come. */
  const pole: StandObstacle = {
    id: "pole",
    name: "Pole",
    outline: shape(x + between(-3, 3), y + between(-3, 3), 0.5),
    bottomZM: random() < 0.5 ? minZM - 1 : 0,
    topZM: minZM + between(-1, 4),
  };
  const obstacles = [...Array.from({ length: 3 + Math.floor(random() * 8) }, (_, i) => obstacle(i)), pole];
  return {
    ...openYard,
    device: random() < 0.4 ? ratedPlatform : ratedLadder,
    jackReach: { fl: between(0.5, 1) },
    hungFrom:
      random() < 0.5
        ? null
        : { on: "ladder", alongM: between(0, 0.6), lateralM: between(-0.4, 0.4), dropM: between(0, 0.6) },
    target: { xM: x, yM: y, toleranceM: between(0, 1), minZM, maxZM: minZM + between(0.5, 6) },
    parking: [
      {
        id: "a",
        name: "A",
        outline: shape(between(15, 45), between(10, 30), 35),
        plane: { xM: 0, yM: 0, zM: between(-0.5, 0.5), slopeRad: between(0, 0.08), downhillBearingRad: between(0, 6) },
      },
    ],
    slopeLimitRad: between(0.03, 0.1),
    keepOuts: [{ id: "k", name: "K", outline: shape(between(5, 55), between(5, 35), 4) }],
    bodyObstacles: obstacles,
    obstacles,
    wires: [
      {
        id: "w",
        name: "W",
        requiredM: between(1, 4),
        points: [
          [between(0, 60), -5, between(6, 12)],
          [between(0, 60), 20, between(5, 10)],
          [between(0, 60), 45, between(6, 12)],
        ],
      },
    ],
    ladderClearanceM: between(0, 1.2),
    bodyClearanceM: between(0, 1),
    jackPadSideM: Object.fromEntries(ratedLadder.jacks.map((j) => [j.id, between(0.2, 0.9)])),
  };
}
