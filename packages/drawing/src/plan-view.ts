import { asSite, type SiteVector, vehiclePoint } from "@gantline/engine";
import { type Evaluation, type Plan, poseAt, stageWay, type When } from "@gantline/plan";
import { drawMeasures } from "./plan-view/draw-measures.ts";
import { drawSite, drawWires } from "./plan-view/draw-site.ts";
import { drawStand } from "./plan-view/draw-stand.ts";
import type { Bounds, Drawing, Handle, WorldPoint } from "./primitives.ts";
import { boundsOf } from "./shared/bounds.ts";
import { drawClearances } from "./shared/draw-clearances.ts";
import { drawLetOut } from "./shared/draw-let-out.ts";
import { drawLoad } from "./shared/draw-load.ts";
import { drawMarked } from "./shared/draw-marked.ts";
import { drawPlaces } from "./shared/draw-places.ts";
import { drawHandlers, drawRopes, ropeKey } from "./shared/draw-ropes.ts";
import { drawStatus } from "./shared/draw-status.ts";
import { drawSwept } from "./shared/draw-swept.ts";
import { drawTether } from "./shared/draw-tether.ts";
import { drawUnsolved } from "./shared/draw-unsolved.ts";
import { drawWay, wayHandles } from "./shared/draw-way.ts";
import { momentText } from "./shared/moment-text.ts";
import { shownCase } from "./shared/shown-forces.ts";
import type { ViewOptions } from "./shared/view-options.ts";
import { type Write, writer } from "./shared/write.ts";

const SHEET_SHAPE = 1.3;

/** What does the site look like from above? World points are [east, north], m. */
export function drawPlan(plan: Plan, evaluation: Evaluation, options: ViewOptions): Drawing {
  const { system, evolution, letOut, marked = null, swept = [] } = options;
  const bare = evolution !== undefined && plan.rig.load.parts.length === 0;
  const write = writer(system);
  const travel = shownCase(evaluation);
  const { wind } = plan.scene;
  return {
    id: "plan",
    title: "Plan of the site",
    bounds: planBounds(plan, evaluation, evolution),
    primitives: [
      ...drawSwept(swept, flat),
      ...drawSite(plan, evaluation, write),
      ...drawStand(plan, evaluation, write),
      ...drawWires(plan, evaluation, write),
      ...drawMeasures(plan, evaluation, write),
      ...drawPlaces(plan, flat, () => ""),
      ...drawWay(plan, evolution, flat),
      ...drawLoad(evaluation, flat, write, bare),
      ...drawRopes(evaluation, travel, flat, write, false),
      ...drawTether(evaluation, flat),
      ...drawHandlers(plan, evaluation, flat, () => ""),
      ...drawUnsolved(plan, evaluation, flat, system, bare),
      ...drawLetOut(plan, letOut, flat, write),
      ...drawClearances(evaluation, flat, write, bare),
      ...drawStatus(evaluation, flat, bare, marked),
      ...drawMarked(marked, flat, bare),
    ],
    handles: planHandles(plan, evaluation, write, evolution),
    description: describe(plan, evaluation, write) + momentText(plan, evolution),
    forceScaleNPerM: 1000,
    forceCaseText: null,
    key: ropeKey(evaluation),
    wind: {
      fromBearingRad: wind.fromBearingRad,
      text: wind.gustMS === null ? "gust unknown" : `gust ${write(wind.gustMS, "speed")}`,
    },
  };
}

const flat = (p: SiteVector): WorldPoint => [p[0], p[1]];

/** Vehicle, ladder, load, crews and places; structures and parking ground as far as they fit a usual sheet. */
function planBounds(plan: Plan, evaluation: Evaluation, when: When | undefined): Bounds {
  const { geometry, load } = evaluation;
  const { scene } = plan;
  const points = [
    flat(geometry.posed.tip),
    ...geometry.vehicle.map(flat),
    ...geometry.jacks.map((j) => flat(j.at)),
    ...load.box.vertices.map(flat),
    ...plan.rig.taglines.map((t) => flat(asSite(t.handler))),
    ...[scene.casualty, scene.destination].flatMap((p) => (p ? [flat(asSite(p.position))] : [])),
    ...(when ? plan.evolution.stages.flatMap((_, i) => stageWay(plan, i).map(flat)) : []),
  ];
  const near = boundsOf(points, 1);
  const wide = near.maxX - near.minX;
  const high = near.maxY - near.minY;
  const reachX = Math.max(0.15 * wide, (SHEET_SHAPE * high - wide) / 2);
  const reachY = Math.max(0.15 * high, (wide / SHEET_SHAPE - high) / 2);
  const around = [...scene.structures, ...scene.parking, ...scene.areas]
    .flatMap((s) => s.outline)
    .map(
      ([x, y]): WorldPoint => [
        Math.min(near.maxX + reachX, Math.max(near.minX - reachX, x)),
        Math.min(near.maxY + reachY, Math.max(near.minY - reachY, y)),
      ],
    );
  return boundsOf([...points, ...around], 0.8);
}

function planHandles(plan: Plan, evaluation: Evaluation, write: Write, when: When | undefined): readonly Handle[] {
  const { place, pose, device } = plan.aerial;
  const { posed } = evaluation.geometry;
  const where = ([x, y]: WorldPoint): string =>
    `${write(Math.abs(x), "length")} ${x < 0 ? "west" : "east"}, ${write(Math.abs(y), "length")} ${y < 0 ? "south" : "north"}`;
  const turntable: WorldPoint = [place.turntableX, place.turntableY];
  const wanted = flat(evaluation.load.wanted);
  return [
    { id: "vehicle", at: turntable, label: "Vehicle, at the turntable", valueText: where(turntable) },
    {
      id: "heading",
      at: flat(vehiclePoint(place, { forwardM: device.outline.frontM, rightM: 0, upM: 0 })),
      label: "Heading, at the vehicle's front",
      valueText: `bearing ${write(place.headingRad, "angle")}`,
    },
    ...(when && poseAt(plan, when) === null
      ? []
      : [
          {
            id: "tip",
            at: flat(posed.tip),
            label: "Ladder tip",
            valueText: `bearing ${write(pose.bearingRad, "angle")}, ${write(posed.elevationRad, "angle")} up, ${write(posed.lengthM, "length")}`,
          },
        ]),
    ...(plan.rig.load.drive === "position" && !when
      ? [{ id: "load", at: wanted, label: "Load, at the yoke", valueText: where(wanted) }]
      : []),
    ...wayHandles(plan, when, flat, where),
    ...plan.rig.taglines.map(
      (t): Handle => ({
        id: `tagline:${t.id}`,
        at: flat(asSite(t.handler)),
        label: `${t.name}, hands`,
        valueText: where(flat(asSite(t.handler))),
      }),
    ),
  ];
}

function describe(plan: Plan, evaluation: Evaluation, write: Write): string {
  const { place, pose } = plan.aerial;
  const { tip } = evaluation.geometry.posed;
  const reach = Math.hypot(tip[0] - place.turntableX, tip[1] - place.turntableY);
  return (
    `Plan of ${plan.scene.name}, north up: vehicle heading ${write(place.headingRad, "angle")}, ladder on bearing ${write(pose.bearingRad, "angle")} with a reach of ${write(reach, "length")}; ` +
    `${plan.scene.structures.length} structures, ${plan.scene.powerLines.length} power lines, ${plan.rig.taglines.length} taglines.`
  );
}
