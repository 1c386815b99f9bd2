import { deviceById } from "../library/device-by-id.ts";
import { EXAMPLE_GEAR } from "../library/gear.ts";
import { STARTING_POLICY } from "../library/policies.ts";
import { PLAN_FORMAT, PLAN_VERSION, type Plan } from "../schema/plan.ts";
import { exampleMainLine } from "./main-line.ts";
import { AS_NEEDED, exampleStage, OFF } from "./stage.ts";

const DEG = Math.PI / 180;

const LITTER = ["casualty", "litter", "bridle-gear"];
/** A line that would lie across the wall is kept off the litter until it is above it. */
const WEST_CREW = { "tag-west": AS_NEEDED, "tag-east": OFF };
const EAST_CREW = { "tag-west": OFF, "tag-east": AS_NEEDED };
/** One crew keeps a steady pull and the other lets out against it, so that neither line falls slack onto the wall. */
const BOTH_CREWS = {
  "tag-west": AS_NEEDED,
  "tag-east": { on: true, drive: "tension", tensionN: 180, lengthM: null },
} as const;

/** A litter carried across a flood wall between two tagline crews. Every name, place and figure is invented. */
export const crossingExample: Plan = {
  format: PLAN_FORMAT,
  formatVersion: PLAN_VERSION,
  name: "Example: litter across the flood wall",
  example: true,
  notes: "Invented scene for learning. The litter is held between two tagline crews while it crosses above the wall.",
  scene: {
    name: "Millrace flood wall (invented)",
    example: true,
    groundZM: 0,
    structures: [
      {
        id: "flood-wall",
        name: "Flood wall",
        kind: "obstruction",
        outline: [
          [-0.75, 8],
          [0.75, 8],
          [0.75, 24],
          [-0.75, 24],
        ],
        baseZM: 0,
        topZM: 7,
        parapetHeightM: 0,
        parapetThicknessM: 0.3,
      },
      {
        id: "pump-house",
        name: "Pump house",
        kind: "building",
        outline: [
          [8, -10],
          [15, -10],
          [15, -3],
          [8, -3],
        ],
        baseZM: 0,
        topZM: 4,
        parapetHeightM: 0.3,
        parapetThicknessM: 0.25,
      },
    ],
    parking: [
      {
        id: "yard",
        name: "Paved yard",
        outline: [
          [-7, -14],
          [7, -14],
          [7, 7],
          [-7, 7],
        ],
        zM: 0,
        slopeRad: 0.01,
        downhillBearingRad: 180 * DEG,
        bearingPa: 200_000,
      },
    ],
    areas: [
      {
        id: "channel",
        name: "Mill channel",
        kind: "water",
        outline: [
          [-8, 14],
          [-2.5, 14],
          [-2.5, 24],
          [-8, 24],
        ],
        zM: -0.5,
      },
      {
        id: "grating",
        name: "Grating, no standing",
        kind: "keepOut",
        outline: [
          [3, 3],
          [6, 3],
          [6, 6],
          [3, 6],
        ],
        zM: 0,
      },
    ],
    powerLinesLookedFor: true,
    powerLines: [
      {
        id: "yard-line",
        name: "Overhead line along the lane",
        voltageKv: 11,
        wire: [
          [-30, -18, 8.5],
          [0, -18, 8],
          [30, -18, 8.5],
        ],
      },
    ],
    casualty: { name: "Casualty, west bank", position: [-1.6, 10.66, 0] },
    destination: { name: "Stretcher crew, east bank", position: [1.6, 10.66, 0] },
    datum: { name: "South-west corner of the flood wall", position: [-0.75, 8] },
    wind: { gustMS: 4, fromBearingRad: 250 * DEG },
    notes: "",
  },
  aerial: {
    device: deviceById("example-ladder-30"),
    place: { turntableX: 0, turntableY: 3, groundZM: 0.17, headingRad: 180 * DEG },
    pose: { bearingRad: 0, elevationRad: 70 * DEG, lengthM: 24 },
    jackReach: { "front-left": 1, "front-right": 1, "rear-left": 1, "rear-right": 1 },
    useSag: false,
    lockedOut: true,
  },
  rig: {
    load: {
      parts: [
        { id: "casualty", name: "Casualty", kind: "casualty", massKg: 90 },
        { id: "litter", name: "Basket litter", kind: "litter", massKg: 16 },
        { id: "bridle-gear", name: "Bridle, yoke and packaging", kind: "hardware", massKg: 10 },
      ],
      yoke: "yoke-plate",
      bridle: { heightM: 1, legs: 4, spreadM: 0.75, sling: "sling-bridle", connector: "connector-light" },
      litter: "litter-basket",
      box: { lengthM: 2.1, widthM: 0.7, heightM: 0.5, bearingRad: 0 },
      dragAreaM2: 1.1,
      positionM: [-1.4, 10.66, 10],
      drive: "position",
      motion: "rest",
    },
    mainLines: [
      exampleMainLine("main-a", "Main A", "tip-left", "turntable-3", "jack-rear-right", "right-low-2"),
      exampleMainLine("main-b", "Main B", "tip-right", "turntable-4", "jack-rear-left", "left-low-2"),
    ],
    taglines: [
      {
        id: "tag-west",
        name: "West tagline",
        rope: "rope-tag",
        knot: "knot-eight",
        connector: "connector-light",
        handler: [-16, 10.6, 1.1],
        people: 3,
        drive: "asNeeded",
        tensionN: null,
        lengthM: null,
        reserveM: 5,
      },
      {
        id: "tag-east",
        name: "East tagline",
        rope: "rope-tag",
        knot: "knot-eight",
        connector: "connector-light",
        handler: [16, 10.6, 1.1],
        people: 2,
        drive: "tension",
        tensionN: 80,
        lengthM: null,
        reserveM: 5,
      },
    ],
    tether: null,
  },
  evolution: {
    startM: [-1.6, 10.66, 1.5],
    stages: [
      exampleStage("rig", "Lines over the tip, locked out", "rig"),
      exampleStage("package", "Casualty packaged, weight taken", "package", { aboard: LITTER, lines: WEST_CREW }),
      exampleStage("raise", "Up beside the wall", "raise", {
        aboard: LITTER,
        motion: "raise",
        lines: WEST_CREW,
        path: [[-1.55, 10.66, 9.3]],
      }),
      exampleStage("across", "Across, from crew to crew", "move", {
        aboard: LITTER,
        lines: BOTH_CREWS,
        path: [
          [0, 10.66, 9.5],
          [1.55, 10.66, 9.3],
        ],
      }),
      exampleStage("lower", "Down on the east bank", "lower", {
        aboard: LITTER,
        motion: "lower",
        lines: EAST_CREW,
        path: [[1.6, 10.66, 1.5]],
      }),
      exampleStage("off", "Litter handed over, lines struck", "rig"),
    ],
  },
  gear: [...EXAMPLE_GEAR],
  policy: STARTING_POLICY,
};
