import type { StandBand } from "@gantline/engine";
import { searchStands, standGrid } from "@gantline/engine";
import { deviceById } from "../../library/device-by-id.ts";
import { newPlan } from "../../new-plan.ts";
import type { Plan } from "../../schema/plan.ts";
import { standQuestion } from "../stand-question.ts";
import type { AskedStand, FoundStands, StandAsk } from "../stand-types.ts";

/** A rectangle in plan, from its south-west to its north-east corner. */
export const rectangle = (west: number, south: number, east: number, north: number): [number, number][] => [
  [west, south],
  [east, south],
  [east, north],
  [west, north],
];

/**
 * Level open ground south of a place to land, without anything to strike; one position, the load of 100 kg wanted plumb over
 * the landing; everything known.
 */
export function openGround(): Plan {
  const plan = newPlan("Open ground");
  const ground: Plan["scene"]["parking"][number] = {
    id: "field",
    name: "Field",
    outline: rectangle(-20, -48, 20, -5),
    zM: 0,
    slopeRad: 0,
    downhillBearingRad: 0,
    bearingPa: null,
  };
  return {
    ...plan,
    example: false,
    scene: {
      ...plan.scene,
      parking: [ground],
      destination: { name: "Landing", position: [0, 0, 0] },
      wind: { gustMS: 2, fromBearingRad: 0 },
    },
    aerial: {
      ...plan.aerial,
      place: { turntableX: 0, turntableY: -9, groundZM: 0, headingRad: Math.PI },
      pose: { bearingRad: 0, elevationRad: 1.15, lengthM: 23.354 },
      jackReach: { "front-left": 1, "front-right": 1, "rear-left": 1, "rear-right": 1 },
      lockedOut: true,
    },
    rig: {
      ...plan.rig,
      load: {
        ...plan.rig.load,
        parts: [{ id: "person", name: "Person", kind: "rescuer", massKg: 100 }],
        dragAreaM2: 0.8,
        positionM: [0, 0, 6],
      },
    },
  };
}

/** The open ground with its rigging points brought to the tip itself, and a rating that never governs: only geometry is left. */
export function openGroundAtTip(): Plan {
  const plan = openGround();
  const device = deviceById("example-ladder-30");
  const riggingPoints = device.riggingPoints.map((p) => ({ ...p, alongM: 0, lateralM: 0, dropM: 0 }));
  const rows = [
    {
      elevationMinRad: device.elevationMinRad,
      elevationMaxRad: device.elevationMaxRad,
      lengthMinM: device.lengthMinM,
      lengthMaxM: device.lengthMaxM,
      ratedTipLoadN: 50_000,
    },
  ];
  const tipRating = { ...device.tipRating, rows };
  return { ...plan, aerial: { ...plan.aerial, device: { ...device, riggingPoints, tipRating } } };
}

export function askOf(plan: Plan, ask: StandAsk = {}): AskedStand {
  const asked = standQuestion(plan, ask);
  if (!asked.ok) throw new Error(asked.problems.map((p) => `${p.path}: ${p.got}`).join("; "));
  return asked;
}

export function searched(plan: Plan, ask: StandAsk = {}): FoundStands & { readonly band: StandBand } {
  const asked = askOf(plan, ask);
  const band = searchStands(asked.question, { fromRow: 0, toRow: standGrid(asked.question).rows });
  if (band === null) throw new Error("not cancelled, and yet no answer");
  return { asked, bands: [band], band };
}
