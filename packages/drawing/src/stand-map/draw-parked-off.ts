import type { StandPlacement, UnitSystem } from "@gantline/plan";
import type { Drawing, Primitive, WorldPoint } from "../primitives.ts";
import { writer } from "../shared/write.ts";

const FOOT_RINGS_M = [1, 2, 3].map((feet) => feet * 0.3048);
const METRE_RINGS_M = [0.25, 0.5, 0.75, 1];
/** Half the width of what is drawn, m. */
const HALF_M = 1.2;

/** Within which outline may the turntable's middle come to stand, large, with rings to judge the distance by? North up. */
export function drawParkedOff(
  { parkedOff }: Pick<StandPlacement, "parkedOff">,
  { system }: { readonly system: UnitSystem },
): Drawing {
  const write = writer(system);
  const rings = system === "metric" ? METRE_RINGS_M : FOOT_RINGS_M;
  const least = parkedOff.reduce((m, { distanceM }) => Math.min(m, distanceM), Number.MAX_VALUE);
  const outline = parkedOff.map(
    ({ bearingRad, distanceM }): WorldPoint => [distanceM * Math.sin(bearingRad), distanceM * Math.cos(bearingRad)],
  );
  return {
    id: "plan",
    title: "How far it may be parked off",
    bounds: { minX: -HALF_M, minY: -HALF_M, maxX: HALF_M, maxY: HALF_M },
    primitives: [
      ...(outline.length > 2
        ? [
            {
              kind: "path",
              points: outline,
              closed: true,
              style: { stroke: "within", fill: "within", fillOpacity: 0.18, hatch: "tint4", widthPx: 2.2 },
              title: "The turntable's middle may lie within this line",
            } as const,
          ]
        : []),
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
      parkedOff.length === 0
        ? "How far it may be parked off is not told."
        : `The turntable's middle may lie ${write(least, "length")} off any way; in some directions more.`,
    forceScaleNPerM: 1000,
    forceCaseText: null,
    key: [],
    wind: null,
  };
}
