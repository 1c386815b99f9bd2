import { deviceById } from "../library/device-by-id.ts";
import { EXAMPLE_GEAR } from "../library/gear.ts";
import { STARTING_POLICY } from "../library/policies.ts";
import { PLAN_FORMAT, PLAN_VERSION, type Plan } from "../schema/plan.ts";
import { exampleMainLine } from "./main-line.ts";

const DEG = Math.PI / 180;

/** A rescuer raised to a roof that only a ladder reaches. Every name, place and figure is invented. */
export const roofExample: Plan = {
  format: PLAN_FORMAT,
  formatVersion: PLAN_VERSION,
  name: "Example: rescuer to the grain store roof",
  example: true,
  notes: "Invented scene for learning. The rescuer hangs at the height at which the boots clear the parapet.",
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
          [-11, 6.2],
          [11, 6.2],
          [11, 22],
          [-11, 22],
        ],
        baseZM: 0,
        topZM: 15,
        parapetHeightM: 1,
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
        baseZM: 15,
        topZM: 17.6,
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
          [-4, 6.2],
          [-9, 6.2],
        ],
        zM: 0,
      },
    ],
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
    casualty: { name: "Worker with a broken leg", position: [1, 12, 15] },
    destination: { name: "Landing on the roof", position: [0, 8.9, 15] },
    datum: { name: "South-west corner of the grain store", position: [-11, 6.2] },
    wind: { gustMS: 5, fromBearingRad: 270 * DEG },
    notes: "",
  },
  aerial: {
    device: deviceById("example-ladder-30"),
    place: { turntableX: 0, turntableY: 0, groundZM: 0, headingRad: 90 * DEG },
    pose: { bearingRad: 0, elevationRad: 68.5 * DEG, lengthM: 26 },
    jackReach: { "front-left": 1, "front-right": 1, "rear-left": 1, "rear-right": 1 },
    useSag: true,
    lockedOut: true,
  },
  rig: {
    load: {
      parts: [
        { id: "rescuer", name: "Rescuer with kit", kind: "rescuer", massKg: 102 },
        { id: "hardware", name: "Yoke, connectors, radio", kind: "hardware", massKg: 6 },
      ],
      yoke: "yoke-plate",
      bridle: { heightM: 0.6, legs: 1, spreadM: 0, sling: "sling-bridle", connector: "connector-steel" },
      litter: null,
      box: { lengthM: 0.7, widthM: 0.7, heightM: 1.8, bearingRad: 0 },
      dragAreaM2: 0.84,
      positionM: [-0.03, 8.9, 19.2],
      drive: "position",
      motion: "raise",
    },
    mainLines: [
      exampleMainLine("main-a", "Main A", "tip-left", "turntable-4", "jack-rear-left", "rear-low-1"),
      exampleMainLine("main-b", "Main B", "tip-right", "turntable-1", "jack-front-left", "front-low-1"),
    ],
    taglines: [
      {
        id: "tag-lane",
        name: "Lane tagline",
        rope: "rope-tag",
        knot: "knot-eight",
        connector: "connector-light",
        handler: [-9, -13, 1.1],
        people: 1,
        drive: "tension",
        tensionN: 60,
        lengthM: null,
        reserveM: 5,
      },
    ],
    tether: null,
  },
  evolution: { startM: [-0.03, 8.9, 19.2], stages: [] },
  gear: [...EXAMPLE_GEAR],
  policy: STARTING_POLICY,
};
