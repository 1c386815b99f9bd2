import type { Anchorage, MainLine } from "../schema/rig.ts";

const onVehicle = (anchorId: string): Anchorage => ({ on: "vehicle", anchorId });

/** A main line of the examples: over a rigging point, down to a low eye of the frame, out to a jack beam, to a brake on the frame. */
export function exampleMainLine(
  id: string,
  name: string,
  pointId: string,
  baseEye: string,
  jackEye: string,
  brakeEye: string,
): MainLine {
  return {
    id,
    name,
    rope: "rope-12",
    share: 0.5,
    loadKnot: "knot-eight",
    loadConnector: "connector-steel",
    tip: {
      pointId,
      sheave: "sheave-large",
      connector: "connector-steel",
      sling: "sling-60",
      hitch: "basket",
      basketAngleRad: (30 * Math.PI) / 180,
      reachM: 0.35,
    },
    redirects: [
      {
        id: "base",
        name: "Base redirect",
        anchorage: onVehicle(baseEye),
        sheave: "sheave-large",
        connector: "connector-steel",
        sling: null,
        hitch: "straight",
        basketAngleRad: null,
      },
      {
        id: "jack",
        name: "Jack redirect",
        anchorage: onVehicle(jackEye),
        sheave: "sheave-large",
        connector: "connector-steel",
        sling: null,
        hitch: "straight",
        basketAngleRad: null,
      },
    ],
    brake: { anchorage: onVehicle(brakeEye), device: "brake-g", connector: "connector-steel" },
    lengthM: null,
    reserveM: 5,
  };
}
