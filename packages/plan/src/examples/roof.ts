import { deviceById } from "../library/device-by-id.ts";
import { EXAMPLE_GEAR } from "../library/gear.ts";
import { STARTING_POLICY } from "../library/policies.ts";
import { PLAN_FORMAT, PLAN_VERSION, type Plan } from "../schema/plan.ts";
import { exampleMainLine } from "./main-line.ts";
import { AS_NEEDED, exampleStage } from "./stage.ts";

const DEG = Math.PI / 180;

/** Who is on the load on the way up, and on the way down. */
const UP = ["rescuer", "hardware"];
const DOWN = ["casualty", "hardware"];

type Place = [number, number, number];
/** Where the yoke is: with the load standing on the street, over the parapet, plumb under the tip, and standing on the roof. */
const STREET: Place = [0, 6, 2.4];
const BESIDE_WALL: Place[] = [
  [0, 6.6, 9],
  [0, 7.15, 12.8],
];
const OVER_PARAPET: Place = [0, 7.9, 13.8];
const PLUMB: Place = [0, 10.4, 14];
const LANDING: Place = [0, 10.4, 11.4];
const OFF_ROOF: Place[] = [PLUMB, OVER_PARAPET, [0, 7.15, 12.8]];
const TO_STREET: Place[] = [[0, 6.6, 9], STREET];

/** A rescuer raised to a roof that only a ladder reaches. Every name, place and figure is invented. */
export const roofExample: Plan = {
  format: PLAN_FORMAT,
  formatVersion: PLAN_VERSION,
  name: "Example: rescuer to the grain store roof",
  example: true,
  notes:
    "Invented scene for learning. The rescuer goes up between wall and ladder, drawn in by the tether, over the parapet and out to plumb; the casualty comes back the same way, and the rescuer after.",
  scene: {
    name: "Orchard Lane grain store (invented)",
    example: true,
    groundZM: 0,
    structures: [
      {
        id: "grain-store",
        name: "Grain store",
        kind: "building",
        outline: [
          [-11, 8],
          [11, 8],
          [11, 22],
          [-11, 22],
        ],
        baseZM: 0,
        topZM: 9,
        parapetHeightM: 0.9,
        parapetThicknessM: 0.3,
      },
      {
        id: "stair-head",
        name: "Stair head on the roof",
        kind: "building",
        outline: [
          [4, 14],
          [8, 14],
          [8, 18],
          [4, 18],
        ],
        baseZM: 9,
        topZM: 11.6,
        parapetHeightM: 0,
        parapetThicknessM: 0.2,
      },
    ],
    parking: [
      {
        id: "lane",
        name: "Orchard Lane",
        outline: [
          [-25, -4.5],
          [25, -4.5],
          [25, 4.5],
          [-25, 4.5],
        ],
        zM: 0,
        slopeRad: 0,
        downhillBearingRad: 0,
        bearingPa: 250_000,
      },
    ],
    areas: [
      {
        id: "cellar",
        name: "Cellar vault, no jacks",
        kind: "keepOut",
        outline: [
          [-9, 4.5],
          [-4, 4.5],
          [-4, 8],
          [-9, 8],
        ],
        zM: 0,
      },
    ],
    powerLinesLookedFor: true,
    powerLines: [
      {
        id: "lane-line",
        name: "Overhead line across the lane",
        voltageKv: 20,
        wire: [
          [-24, -20, 10.5],
          [-20, 0, 9.5],
          [-18, 24, 10.5],
        ],
      },
    ],
    casualty: { name: "Worker with a broken leg", position: [1, 12, 9] },
    destination: { name: "Landing on the roof", position: [0, 10.4, 9] },
    datum: { name: "South-west corner of the grain store", position: [-11, 8] },
    wind: { gustMS: 2, fromBearingRad: 270 * DEG },
    notes: "",
  },
  aerial: {
    device: deviceById("example-ladder-30"),
    place: { turntableX: 0, turntableY: 0, groundZM: 0, headingRad: 90 * DEG },
    pose: { bearingRad: 0, elevationRad: 66 * DEG, lengthM: 27.5 },
    jackReach: { "front-left": 1, "front-right": 1, "rear-left": 1, "rear-right": 1 },
    useSag: false,
    lockedOut: true,
  },
  rig: {
    load: {
      parts: [
        { id: "rescuer", name: "Rescuer with kit", kind: "rescuer", massKg: 102 },
        { id: "casualty", name: "Casualty, seated", kind: "casualty", massKg: 84 },
        { id: "hardware", name: "Yoke, connectors, radio", kind: "hardware", massKg: 6 },
      ],
      yoke: "yoke-plate",
      bridle: { heightM: 0.6, legs: 1, spreadM: 0, sling: "sling-bridle", connector: "connector-steel" },
      litter: null,
      box: { lengthM: 0.7, widthM: 0.7, heightM: 1.8, bearingRad: 0 },
      dragAreaM2: 0.84,
      positionM: [0, 10.4, 14],
      drive: "position",
      motion: "raise",
    },
    mainLines: [
      exampleMainLine("main-a", "Main A", "tip-left", "turntable-3", "jack-rear-left", "rear-low-1"),
      exampleMainLine("main-b", "Main B", "tip-right", "turntable-2", "jack-front-left", "front-low-1"),
    ],
    taglines: [],
    tether: {
      id: "tether",
      name: "Tether",
      rope: "rope-11",
      knot: "knot-eight",
      connector: "connector-steel",
      pulley: "sheave-large",
      rides: ["main-a", "main-b"],
      parts: 3,
      lengthMinM: 0.4,
      lengthMaxM: 12,
      people: 1,
      drive: "asNeeded",
      tensionN: null,
      lengthM: null,
    },
  },
  evolution: {
    startM: STREET,
    stages: [
      exampleStage("rig", "Lines over the tip, locked out", "rig"),
      exampleStage("weigh", "Rescuer on, weight taken and checked", "hold", { aboard: UP }),
      exampleStage("beside-wall", "Up beside the wall, drawn in", "raise", {
        aboard: UP,
        motion: "raise",
        path: BESIDE_WALL,
      }),
      exampleStage("over-parapet", "Over the parapet", "raise", { aboard: UP, motion: "raise", path: [OVER_PARAPET] }),
      exampleStage("let-out", "Let out to plumb", "move", { aboard: UP, path: [PLUMB] }),
      exampleStage("to-roof", "Down to the roof", "lower", { aboard: UP, motion: "lower", path: [LANDING] }),
      exampleStage("package", "Casualty made ready on the roof", "package"),
      exampleStage("off-roof", "Casualty up and drawn in", "raise", { aboard: DOWN, path: OFF_ROOF }),
      exampleStage("down", "Casualty down beside the wall", "lower", {
        aboard: DOWN,
        motion: "lower",
        path: TO_STREET,
      }),
      exampleStage("hook-back", "Casualty off, empty yoke back to the roof", "rig", {
        path: [...BESIDE_WALL, OVER_PARAPET, PLUMB, LANDING],
      }),
      exampleStage("fetch", "Rescuer up and drawn in", "raise", { aboard: UP, path: OFF_ROOF }),
      exampleStage("rescuer-down", "Rescuer down beside the wall", "lower", {
        aboard: UP,
        motion: "lower",
        path: TO_STREET,
      }),
      exampleStage("stow", "All on the ground, ladder shortened, empty", "moveLadder", {
        lines: { "main-a": AS_NEEDED, "main-b": AS_NEEDED },
        pose: { bearingRad: 0, elevationRad: 72 * DEG, lengthM: 22 },
      }),
    ],
  },
  gear: [...EXAMPLE_GEAR],
  policy: STARTING_POLICY,
};
