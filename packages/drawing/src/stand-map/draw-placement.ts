import { type PlanPoint, vehiclePoint } from "@gantline/engine";
import type { Evaluation, Plan, StandPlacement, UnitSystem } from "@gantline/plan";
import { drawSite, drawWires } from "../plan-view/draw-site.ts";
import { drawStand } from "../plan-view/draw-stand.ts";
import type { Drawing, Primitive, WorldPoint } from "../primitives.ts";
import { boundsOf } from "../shared/bounds.ts";
import { shortened, type Write, writer } from "../shared/write.ts";
import { drawParkArea } from "./draw-parked-off.ts";

/**
 * What is taped and painted on the ground for a stand: turntable and jack pads, each where two tapes cross, and the outline
 * within which the turntable may come to stand.
 *
 * @param plan with the stand in it
 */
export function drawPlacement(
  plan: Plan,
  evaluation: Evaluation,
  placement: StandPlacement,
  { system }: { readonly system: UnitSystem },
): Drawing {
  const write = writer(system);
  const { turntableX, turntableY } = plan.aerial.place;
  const turntable: WorldPoint = [turntableX, turntableY];
  const tapePoints = [
    ...new Map(placement.marks.flatMap(({ tapes }) => tapes).map(({ from }) => [from.id, from])).values(),
  ];
  return {
    id: "plan",
    title: "To paint on the ground",
    bounds: boundsOf(
      [
        ...evaluation.geometry.vehicle.map((p): WorldPoint => [p[0], p[1]]),
        ...evaluation.geometry.jacks.map(({ at }): WorldPoint => [at[0], at[1]]),
        ...tapePoints.map(({ at }): WorldPoint => at),
        ...rim(turntable, placement),
      ],
      1,
    ),
    primitives: [
      ...drawSite(plan, evaluation, write).filter((p) => p.kind !== "text"),
      ...drawStand(plan, evaluation, write).filter((p) => p.kind !== "text" && !isLadder(p)),
      ...drawWires(plan, evaluation, write),
      ...drawParkArea(placement.area, turntable),
      ...placement.marks.flatMap((mark) => drawTapes(mark, write)),
      ...placement.marks.map((mark, index) => drawMark(mark, index)),
      ...tapePoints.flatMap(drawTapePoint),
      aimText(plan, placement, write),
    ],
    handles: [],
    description: describe(placement, write),
    forceScaleNPerM: 1000,
    forceCaseText: null,
    key: [
      { style: { stroke: "ladder", widthPx: 0.7, dash: "chain" }, text: "the ladder's bearing" },
      { style: { stroke: "accent", widthPx: 1.4 }, text: "tape to the turntable's middle" },
      { style: { stroke: "accent", widthPx: 0.8, dash: "dotted" }, text: "tape to a jack pad" },
      ...(placement.parkedOff.length > 0
        ? [
            {
              style: { fill: "within", fillOpacity: 0.3 } as const,
              text: "with the turntable within this, vehicle and ladder still fit",
              area: true,
            },
          ]
        : []),
    ],
    wind: null,
  };
}

/** But for the line the ladder is aimed along, it would hide the tapes. */
const isLadder = (p: Primitive): boolean => "style" in p && p.style.stroke === "ladder" && p.style.dash === undefined;

const rim = ([x, y]: PlanPoint, { parkedOff }: StandPlacement): readonly WorldPoint[] =>
  parkedOff.map(({ bearingRad, distanceM }) => [
    x + distanceM * Math.sin(bearingRad),
    y + distanceM * Math.cos(bearingRad),
  ]);

function drawTapes({ id, at, tapes }: StandPlacement["marks"][number], write: Write): readonly Primitive[] {
  return tapes.map(
    ({ from, distanceM }): Primitive =>
      id === "turntable"
        ? {
            kind: "dimension",
            a: from.at,
            b: at,
            offsetPx: 0,
            text: write(distanceM, "length"),
            tone: "accent",
            title: `From ${from.name} to the turntable's middle`,
            priority: 82,
          }
        : {
            kind: "path",
            points: [from.at, at],
            closed: false,
            style: { stroke: "accent", widthPx: 0.8, dash: "dotted" },
            title: `From ${from.name}: ${write(distanceM, "length")}`,
          },
  );
}

/** The turntable is T, jacks are numbered as in the list beside the drawing. */
function drawMark({ id, at }: StandPlacement["marks"][number], index: number): Primitive {
  const turntable = id === "turntable";
  return {
    kind: "text",
    at,
    text: turntable ? "T" : `${index}`,
    align: "middle",
    offsetPx: turntable ? [0, 5] : [0, -10],
    sizePx: 15,
    tone: "ink",
    weight: "strong",
    halo: true,
  };
}

function drawTapePoint({ name, at }: StandPlacement["marks"][number]["tapes"][number]["from"]): readonly Primitive[] {
  return [
    {
      kind: "mark",
      at,
      shape: "triangleUp",
      sizePx: 14,
      style: { stroke: "accent", fill: "paper", widthPx: 1.8 },
      title: `Tape from ${name}`,
    },
    {
      kind: "text",
      at,
      text: shortened(name, 34),
      align: "start",
      offsetPx: [10, -8],
      sizePx: 12,
      tone: "accent",
      weight: "strong",
      halo: true,
      label: { priority: 84, keep: true },
    },
  ];
}

function aimText({ aerial: { device, place } }: Plan, { headingRad }: StandPlacement, write: Write): Primitive {
  const { outline } = device;
  const front = vehiclePoint(place, { forwardM: outline.frontM, rightM: 0, upM: 0 });
  return {
    kind: "text",
    at: [front[0], front[1]],
    text: `front faces ${write(headingRad, "angle")}`,
    align: "start",
    offsetPx: [10, 4],
    sizePx: 12,
    tone: "vehicle",
    weight: "strong",
    halo: true,
    label: { priority: 72 },
  };
}

function describe({ marks, headingRad, area }: StandPlacement, write: Write): string {
  const off = area === null ? "" : ` It may be parked ${write(area.freeM, "length")} off any way.`;
  return `Plan of the stand, north up: ${marks.length} marks to paint, the front faces ${write(headingRad, "angle")}.${off}`;
}
