import { bearingVector, type SiteVector, vehiclePoint } from "@gantline/engine";
import type { Evaluation, Plan } from "@gantline/plan";
import type { Primitive, WorldPoint } from "../primitives.ts";
import { convexHull } from "../shared/convex-hull.ts";
import type { Write } from "../shared/write.ts";

const PAD_M = 0.3;
const RUNG_M = 0.35;

const flat = (p: SiteVector): WorldPoint => [p[0], p[1]];

/** Where the vehicle stands: outline and heading, jacks with the figure they stand on, turntable, and the ladder out over the site. */
export function drawStand(plan: Plan, evaluation: Evaluation, write: Write): readonly Primitive[] {
  const { geometry } = evaluation;
  return [
    {
      kind: "path",
      points: convexHull(geometry.jacks.map((j) => flat(j.at))),
      closed: true,
      style: { stroke: "vehicle", fill: "vehicle", fillOpacity: 0.07, widthPx: 1, dash: "dashed" },
      title: "The figure the jacks stand on",
    },
    ...drawVehicle(plan, evaluation, write),
    ...geometry.jacks.map((jack): Primitive => {
      return {
        kind: "path",
        points: padAt(flat(jack.at), plan.aerial.place.headingRad),
        closed: true,
        style: { stroke: "vehicle", fill: "vehicle", fillOpacity: 0.85, widthPx: 1 },
        title: `Jack, ${jack.name}`,
      };
    }),
    ...drawLadder(plan, evaluation, write),
  ];
}

/** A square pad in line with the vehicle. */
function padAt([x, y]: WorldPoint, headingRad: number): readonly WorldPoint[] {
  const [s, c] = [PAD_M * Math.sin(headingRad), PAD_M * Math.cos(headingRad)];
  return [
    [x + s + c, y + c - s],
    [x - s + c, y - c - s],
    [x - s - c, y - c + s],
    [x + s - c, y + c + s],
  ];
}

function drawVehicle(plan: Plan, evaluation: Evaluation, write: Write): readonly Primitive[] {
  const { place, device } = plan.aerial;
  const { frontM, leftM, rightM } = device.outline;
  const at = (forwardM: number, right: number): WorldPoint =>
    flat(vehiclePoint(place, { forwardM, rightM: right, upM: 0 }));
  const middle = (rightM - leftM) / 2;
  const arms = evaluation.geometry.jacks.map((j, i): readonly [WorldPoint, WorldPoint] => {
    const foot = device.jacks[i];
    return [at(foot?.forwardM ?? 0, 0), flat(j.at)];
  });
  return [
    { kind: "strokes", lines: arms, style: { stroke: "vehicle", widthPx: 3 } },
    {
      kind: "path",
      points: evaluation.geometry.vehicle.map(flat),
      closed: true,
      style: { stroke: "vehicle", fill: "paper", widthPx: 1.8 },
      title: "Vehicle",
    },
    {
      kind: "strokes",
      lines: [[at(frontM - 2.2, -leftM), at(frontM - 2.2, rightM)]],
      style: { stroke: "vehicle", widthPx: 0.9 },
    },
    {
      kind: "arrow",
      from: at(frontM - 2, middle),
      to: at(frontM - 0.3, middle),
      tone: "vehicle",
      widthPx: 2,
      title: "Front of the vehicle",
    },
    {
      kind: "text",
      at: at(frontM, middle),
      text: `heading ${write(place.headingRad, "angle")}`,
      align: "start",
      offsetPx: [10, 4],
      sizePx: 11,
      tone: "vehicle",
      halo: true,
      label: { priority: 32 },
    },
    {
      kind: "circle",
      at: [place.turntableX, place.turntableY],
      radiusM: 1.05,
      style: { stroke: "vehicle", fill: "paper", widthPx: 1.4 },
      title: "Turntable",
    },
  ];
}

function drawLadder(plan: Plan, evaluation: Evaluation, write: Write): readonly Primitive[] {
  const { device, pose, place } = plan.aerial;
  const { posed, platform, riggingPoints } = evaluation.geometry;
  const ahead = bearingVector(pose.bearingRad);
  const right = bearingVector(pose.bearingRad + Math.PI / 2);
  const pivot = flat(posed.pivot);
  const out = Math.hypot(posed.tip[0] - posed.pivot[0], posed.tip[1] - posed.pivot[1]);
  const sign = (posed.tip[0] - posed.pivot[0]) * ahead[0] + (posed.tip[1] - posed.pivot[1]) * ahead[1] < 0 ? -1 : 1;
  const at = (along: number, side: number): WorldPoint => [
    pivot[0] + ahead[0] * along * sign + right[0] * side,
    pivot[1] + ahead[1] * along * sign + right[1] * side,
  ];
  const half = device.beamWidthM / 2;
  const tipHalf = 0.8 * half;
  const widthAt = (along: number): number => half + (tipHalf - half) * (out > 0 ? along / out : 0);
  const step = RUNG_M * Math.max(0.1, Math.cos(posed.elevationRad));
  const rungs = Array.from(
    { length: Math.min(120, Math.floor(out / step)) },
    (_, i): readonly [WorldPoint, WorldPoint] => {
      const s = (i + 0.5) * step;
      return [at(s, -widthAt(s)), at(s, widthAt(s))];
    },
  );
  return [
    {
      kind: "path",
      points: [at(0, -half), at(out, -tipHalf), at(out, tipHalf), at(0, half)],
      closed: true,
      style: { stroke: "ladder", fill: "paper", widthPx: 1.8 },
      title: "Ladder",
    },
    { kind: "strokes", lines: rungs, style: { stroke: "ladder", widthPx: 0.5 }, fromPxPerM: 30 },
    {
      kind: "path",
      points: [[place.turntableX, place.turntableY], flat(posed.tip)],
      closed: false,
      style: { stroke: "ladder", widthPx: 0.7, dash: "chain" },
    },
    ...(platform
      ? [
          {
            kind: "path",
            points: convexHull(platform.vertices.map(flat)),
            closed: true,
            style: { stroke: "ladder", fill: "paper", fillOpacity: 0.7, widthPx: 1.4 },
            title: "Platform",
          } as const,
        ]
      : []),
    ...riggingPoints
      .filter((p) => p.used)
      .map(
        (p): Primitive => ({
          kind: "mark",
          at: flat(p.at),
          shape: "square",
          sizePx: 6,
          style: { stroke: "ladder", fill: "ladder", widthPx: 1 },
          title: p.name,
        }),
      ),
    {
      kind: "text",
      at: at(out, 0),
      text: `Tip, bearing ${write(pose.bearingRad, "angle")}`,
      align: "start",
      offsetPx: [10, -8],
      sizePx: 12,
      tone: "ladder",
      weight: "strong",
      halo: true,
      label: { priority: 60 },
    },
  ];
}
