import type { StandPlacement, UnitSystem } from "@gantline/plan";
import type { Drawing, Primitive, WorldPoint } from "../primitives.ts";
import { writer } from "../shared/write.ts";

const FOOT_RINGS_M = [1, 2, 3].map((feet) => feet * 0.3048);
const METRE_RINGS_M = [0.25, 0.5, 0.75, 1];
/** Half the width of what is drawn, m. */
const HALF_M = 1.2;

/** Within which area may the turntable's middle come to stand, large, with rings to judge the distance by, and the inclinometer's reading at its edge? North up. */
export function drawParkedOff(
  { parkedOff, area }: Pick<StandPlacement, "parkedOff" | "area">,
  { system }: { readonly system: UnitSystem },
): Drawing {
  const write = writer(system);
  const rings = system === "metric" ? METRE_RINGS_M : FOOT_RINGS_M;
  return {
    id: "plan",
    title: "How far it may be parked off",
    bounds: { minX: -HALF_M, minY: -HALF_M, maxX: HALF_M, maxY: HALF_M },
    primitives: [
      ...drawParkArea(area, [0, 0]),
      ...rings.flatMap((radiusM): readonly Primitive[] => [
        { kind: "circle", at: [0, 0], radiusM, style: { stroke: "faint", widthPx: 0.8, dash: "dashed" } },
        {
          kind: "text",
          at: [radiusM * Math.SQRT1_2, radiusM * Math.SQRT1_2],
          text: write(radiusM, "length"),
          align: "middle",
          offsetPx: [0, 4],
          sizePx: 12,
          tone: "ink",
          halo: true,
        },
      ]),
      ...parkedOff
        .filter((_, k) => k % (parkedOff.length / 4) === 0)
        .map(
          ({ bearingRad, reading }): Primitive => ({
            kind: "text",
            at: [1.08 * Math.sin(bearingRad), 1.08 * Math.cos(bearingRad)],
            text: write(reading.elevationRad, "angle"),
            align: Math.abs(Math.sin(bearingRad)) < 0.5 ? "middle" : Math.sin(bearingRad) > 0 ? "end" : "start",
            offsetPx: [0, 4],
            sizePx: 12,
            tone: "ladder",
            weight: "strong",
            halo: true,
          }),
        ),
      {
        kind: "mark",
        at: [0, 0],
        shape: "cross",
        sizePx: 14,
        style: { stroke: "ink", widthPx: 2.2 },
        title: "Turntable",
      },
    ],
    handles: [],
    description:
      parkedOff.length === 0 || area === null
        ? "How far it may be parked off is not told."
        : `The turntable's middle may lie ${write(area.freeM, "length")} off any way; in some directions more.`,
    forceScaleNPerM: 1000,
    forceCaseText: null,
    key: [],
    wind: null,
  };
}

/** The area strip by strip, round where the turntable is planned: none of it is a place that fails. */
export const drawParkArea = (area: StandPlacement["area"], [x, y]: WorldPoint): readonly Primitive[] =>
  (area?.strips ?? []).map(({ westM, eastM, southM, northM }) => ({
    kind: "path",
    points: [
      [x + westM, y + southM],
      [x + eastM, y + southM],
      [x + eastM, y + northM],
      [x + westM, y + northM],
    ],
    closed: true,
    style: { fill: "within", fillOpacity: 0.3 },
    title: "The turntable's middle may lie within this area",
  }));
