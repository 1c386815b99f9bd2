import { nearestOf, overlapPoint, type PlanPoint, site, uncoveredPoint } from "@gantline/engine";
import { declare, type Finding } from "../judge.ts";
import type { Situation } from "../situation.ts";

/** Does the whole vehicle stand on parking ground, off every gap, water and keep-out, and clear of structures? */
export function standsOn({ plan: { scene, aerial }, geometry }: Situation): Finding {
  const outline = geometry.vehicle.map(([x, y]): PlanPoint => [x, y]);
  const struck = geometry.structures.find((t) => nearestOf(geometry.vehicleSolid, t.solids)?.clearance.touching);
  const barred = scene.areas
    .map(({ name, outline: area }) => ({ name, at: overlapPoint(outline, area) }))
    .find(({ at }) => at !== null);
  const grounds = scene.parking.map((g) => g.outline);
  const off = uncoveredPoint(outline, grounds);
  const where = struck ? null : (barred?.at ?? off);
  return declare(
    {
      id: "parking",
      rule: "parking",
      demand: null,
      limit: null,
      words: () => ({
        subject: "Vehicle on its ground",
        question: "Does the whole vehicle stand on parking ground, off gap, water and keep-out, clear of structures?",
        reading: struck
          ? [`Stands in "${struck.name}".`]
          : barred
            ? [`Stands over "${barred.name}".`]
            : off
              ? ["Part of it stands off the parking ground."]
              : ["Stands on parking ground."],
        ifOver: ["Move the vehicle."],
        ifUnknown: ["No parking ground is drawn."],
        working: {
          formula: "vehicle outline within parking ground, outside gap, water and keep-out",
          terms: [],
          limitSource: "the scene as drawn",
        },
        at: where ? site(where[0], where[1], aerial.place.groundZM) : geometry.vehicle[0],
        field: "aerial.place.turntableX",
      }),
    },
    struck || barred ? "over" : grounds.length === 0 ? "unknown" : off ? "over" : "within",
  );
}
