import { crossingExample } from "./examples/crossing.ts";
import { deviceById } from "./library/device-by-id.ts";
import { EXAMPLE_GEAR } from "./library/gear.ts";
import { STARTING_POLICY } from "./library/policies.ts";
import type { Plan } from "./schema/plan.ts";

/**
 * An empty site to begin from: the example vehicle and gear until the department's own are put in (the ledger says so),
 * nothing known of masses, wind or lock-out.
 */
export function newPlan(name: string): Plan {
  const { rig } = crossingExample;
  return {
    ...crossingExample,
    name,
    example: false,
    notes: "",
    scene: {
      name: "New scene",
      example: false,
      groundZM: 0,
      structures: [],
      parking: [],
      areas: [],
      powerLines: [],
      powerLinesLookedFor: null,
      casualty: null,
      destination: null,
      datum: null,
      wind: { gustMS: null, fromBearingRad: 0 },
      notes: "",
    },
    aerial: {
      device: deviceById("example-ladder-30"),
      place: { turntableX: 0, turntableY: 0, groundZM: 0, headingRad: Math.PI },
      pose: { bearingRad: 0, elevationRad: (70 * Math.PI) / 180, lengthM: 20 },
      jackReach: {},
      useSag: false,
      lockedOut: null,
    },
    rig: {
      ...rig,
      load: {
        ...rig.load,
        parts: [{ id: "person", name: "Person", kind: "rescuer", massKg: null }],
        dragAreaM2: null,
        positionM: [0, 6, 10],
      },
      taglines: [],
      tether: null,
    },
    evolution: { startM: [0, 6, 2], stages: [] },
    gear: [...EXAMPLE_GEAR],
    policy: STARTING_POLICY,
  };
}
