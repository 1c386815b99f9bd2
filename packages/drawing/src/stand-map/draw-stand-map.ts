import { type PlanPoint, standStatusAt } from "@gantline/engine";
import type { Evaluation, Plan, UnitSystem } from "@gantline/plan";
import { drawSite, drawWires } from "../plan-view/draw-site.ts";
import type { Drawing, Primitive, WorldPoint } from "../primitives.ts";
import { boundsOf } from "../shared/bounds.ts";
import { drawPlaces } from "../shared/draw-places.ts";
import { writer } from "../shared/write.ts";
import { drawCells, type MapShown } from "./draw-cells.ts";
import { fits, type StandCells } from "./stand-cells.ts";

export interface StandMapOptions {
  readonly system: UnitSystem;
  readonly shown: MapShown;
  /** Stands to mark by their numbers: a turntable and where the vehicle's front faces. */
  readonly marked?: readonly { readonly number: number; readonly turntable: PlanPoint; readonly headingRad: number }[];
}

/** What a place of the map does not tell, line by line. */
export const STAND_MAP_LEAVES_OUT: readonly string[] = [
  "The map judges vehicle, ladder and rating. Ropes, load and the pressure under the jacks are judged only for stands swept through the evolution.",
  "Not checked: the way the ladder is raised and slewed into its pose.",
];

/** From which turntable places does it fit, and what governs elsewhere? A map over the plan of the site, north up. */
export function drawStandMap(
  plan: Plan,
  evaluation: Evaluation,
  cells: StandCells,
  { system, shown, marked = [] }: StandMapOptions,
): Drawing {
  const write = writer(system);
  const drawn = drawCells(cells, shown, system);
  const { wind } = plan.scene;
  return {
    id: "plan",
    title: "Where to stand",
    bounds: mapBounds(plan, evaluation, cells),
    primitives: [
      ...drawSite(plan, evaluation, write).map(withoutParkingDots),
      ...drawn.primitives,
      ...drawWires(plan, evaluation, write),
      ...drawPlaces(
        plan,
        (p) => [p[0], p[1]],
        () => "",
      ),
      ...cells.questions.flatMap(drawAim),
      ...drawPresent(evaluation, plan),
      ...marked.flatMap(drawMarkedStand),
    ],
    handles: [],
    description: describe(cells),
    forceScaleNPerM: 1000,
    forceCaseText: null,
    key: drawn.key,
    wind: {
      fromBearingRad: wind.fromBearingRad,
      text: wind.gustMS === null ? "gust unknown" : `gust ${write(wind.gustMS, "speed")}`,
    },
  };
}

/** Parking ground is covered by the map's own patterns. */
function withoutParkingDots(p: Primitive): Primitive {
  if (p.kind !== "path" || p.style.hatch !== "parking") return p;
  const { hatch: _, ...style } = p.style;
  return { ...p, style };
}

function mapBounds(plan: Plan, evaluation: Evaluation, { grid, questions }: StandCells) {
  return boundsOf(
    [
      ...plan.scene.parking.flatMap(({ outline }) => outline),
      ...questions.map(({ target }): WorldPoint => [target.xM, target.yM]),
      ...evaluation.geometry.vehicle.map((p): WorldPoint => [p[0], p[1]]),
      ...(grid.columns > 0 ? [[grid.westM, grid.southM] as const] : []),
    ],
    1,
  );
}

/** The plumb point, and the circle the point may come to hang in. */
function drawAim({ target: { xM, yM, toleranceM } }: StandCells["questions"][number]): readonly Primitive[] {
  const at: WorldPoint = [xM, yM];
  return [
    {
      kind: "circle",
      at,
      radiusM: toleranceM,
      style: { stroke: "load", widthPx: 1.4, dash: "dashed" },
      title: "The point is to hang within this circle",
    },
    { kind: "mark", at, shape: "cross", sizePx: 11, style: { stroke: "load", widthPx: 2 } },
    {
      kind: "text",
      at,
      text: "Hang over here",
      align: "start",
      offsetPx: [10, 14],
      sizePx: 12,
      tone: "load",
      weight: "strong",
      halo: true,
      label: { priority: 66, keep: true },
    },
  ];
}

/** The stand the plan has now. */
function drawPresent({ geometry }: Evaluation, { aerial }: Plan): readonly Primitive[] {
  const at: WorldPoint = [aerial.place.turntableX, aerial.place.turntableY];
  return [
    {
      kind: "path",
      points: geometry.vehicle.map((p): WorldPoint => [p[0], p[1]]),
      closed: true,
      style: { stroke: "vehicle", widthPx: 1.8, dash: "dashed" },
      title: "The vehicle as planned now",
    },
    { kind: "circle", at, radiusPx: 5, style: { stroke: "vehicle", fill: "paper", widthPx: 2 } },
    {
      kind: "text",
      at,
      text: "as planned",
      align: "start",
      offsetPx: [9, 4],
      sizePx: 12,
      tone: "vehicle",
      weight: "strong",
      halo: true,
      label: { priority: 60 },
    },
  ];
}

const HEADING_M = 3;

function drawMarkedStand({
  number,
  turntable,
  headingRad,
}: NonNullable<StandMapOptions["marked"]>[number]): readonly Primitive[] {
  const [x, y] = turntable;
  return [
    {
      kind: "arrow",
      from: turntable,
      to: [x + HEADING_M * Math.sin(headingRad), y + HEADING_M * Math.cos(headingRad)],
      tone: "ink",
      widthPx: 2,
      title: `Stand ${number}, the way its front faces`,
    },
    { kind: "circle", at: turntable, radiusPx: 11, style: { stroke: "ink", fill: "paper", widthPx: 2 } },
    {
      kind: "text",
      at: turntable,
      text: String(number),
      align: "middle",
      offsetPx: [0, 5],
      sizePx: 14,
      tone: "ink",
      weight: "strong",
    },
  ];
}

function describe(cells: StandCells): string {
  const { columns, rows } = cells.grid;
  let looked = 0;
  let fitting = 0;
  let open = 0;
  for (let cell = 0; cell < columns * rows; cell++) {
    const found = cells.at(cell);
    if (found === null) continue;
    looked++;
    if (fits(found)) fitting++;
    if (found.question.ratingLater && standStatusAt(found.band, found.entry) === "unknown") open++;
  }
  if (looked === 0) return "Map of turntable places, north up: none looked at yet.";
  const shareOf = (count: number): string => {
    const percent = (100 * count) / looked;
    return count === 0 ? "none" : percent < 1 ? "less than 1\u202f%" : `${Math.round(percent)}\u202f%`;
  };
  if (cells.questions.some(({ ratingLater }) => ratingLater))
    return `Map of turntable places, north up: the rating is not yet looked at, so none is told to fit; ${shareOf(open)} of the places looked at are still open.`;
  const share = shareOf(fitting);
  return `Map of turntable places, north up: ${share} of the places looked at fit${cells.complete ? "" : "; the search is under way"}.`;
}
