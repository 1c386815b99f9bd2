import type { Evaluation, Plan } from "@gantline/plan";
import type { Primitive, WorldPoint } from "../primitives.ts";
import { boxRound } from "../shared/bounds.ts";
import type { DrawnSection } from "./section-frame.ts";

const RUNG_M = 0.35;
const SLIMMER = 0.13;

/** The ladder as a beam to scale, base section outermost, with rungs; the platform where it has one; rigging points on it. */
export function drawLadder(plan: Plan, evaluation: Evaluation, frame: DrawnSection): readonly Primitive[] {
  const { device } = plan.aerial;
  const { posed, unloadedTip, riggingPoints } = evaluation.geometry;
  const pivot = frame.toSection(posed.pivot);
  const tip = frame.toSection(posed.tip);
  const long = Math.hypot(tip[0] - pivot[0], tip[1] - pivot[1]);
  const u: WorldPoint = long > 0 ? [(tip[0] - pivot[0]) / long, (tip[1] - pivot[1]) / long] : [1, 0];
  const at = (along: number, up: number): WorldPoint => [
    pivot[0] + u[0] * along - u[1] * up,
    pivot[1] + u[1] * along + u[0] * up,
  ];

  const count = Math.min(8, device.sections?.length ?? 3);
  const base = Math.min(device.sections?.[0]?.lengthM ?? device.lengthMinM, long);
  const ends = Array.from({ length: count }, (_, k) => (count === 1 ? long : base + ((long - base) * k) / (count - 1)));
  const half = (k: number): number => (device.beamDepthM / 2) * (1 - SLIMMER * k);
  const sections = ends
    .map((end, k): Primitive => {
      const from = k === 0 ? 0 : (ends[k - 1] as number) - Math.min(0.4, base * 0.05);
      return {
        kind: "path",
        points: [at(from, -half(k)), at(end, -half(k)), at(end, half(k)), at(from, half(k))],
        closed: true,
        style: { stroke: "ladder", fill: "paper", widthPx: k === 0 ? 1.8 : 1.5 },
        title: `Ladder, section ${k + 1} of ${count}`,
      };
    })
    .reverse();
  const rungs = Array.from(
    { length: Math.max(0, Math.floor(long / RUNG_M)) },
    (_, i): readonly [WorldPoint, WorldPoint] => {
      const s = (i + 0.5) * RUNG_M;
      const k = Math.max(
        0,
        ends.findIndex((end) => s <= end),
      );
      return [at(s, -half(k)), at(s, half(k) * 0.35)];
    },
  );
  const straight = frame.toSection(unloadedTip);
  const sags = Math.hypot(straight[0] - tip[0], straight[1] - tip[1]) > 0.02;
  return [
    ...(sags
      ? [
          {
            kind: "path",
            points: [pivot, straight],
            closed: false,
            style: { stroke: "faint", widthPx: 0.8, dash: "dotted" },
            title: "Ladder without sag",
          } as const,
        ]
      : []),
    ...sections,
    { kind: "strokes", lines: rungs, style: { stroke: "ladder", widthPx: 0.6 }, fromPxPerM: 11, title: "Rungs" },
    {
      kind: "circle",
      at: pivot,
      radiusPx: 4,
      style: { stroke: "ladder", fill: "paper", widthPx: 1.6 },
      title: "Pivot",
    },
    ...drawPlatform(plan, tip),
    ...riggingPoints.map(
      (point): Primitive => ({
        kind: "mark",
        at: frame.toSection(point.at),
        shape: point.used ? "square" : "cross",
        sizePx: point.used ? 7 : 5,
        style: point.used ? { stroke: "ladder", fill: "ladder", widthPx: 1 } : { stroke: "faint", widthPx: 1 },
        title: `${point.name}${point.used ? "" : ", not used"}`,
      }),
    ),
  ];
}

/** Floor, rails and posts of a level platform. */
function drawPlatform(plan: Plan, tip: WorldPoint): readonly Primitive[] {
  const { kind, platform } = plan.aerial.device;
  if (kind !== "platform" || platform === null) return [];
  const [x0, x1] = [tip[0] - platform.backM, tip[0] + platform.forwardM];
  const floor = tip[1] - platform.floorDropM;
  const rail = floor + platform.railHeightM;
  const posts = [0, 0.25, 0.5, 0.75, 1].map((t): readonly [WorldPoint, WorldPoint] => [
    [x0 + t * (x1 - x0), floor],
    [x0 + t * (x1 - x0), rail],
  ]);
  return [
    {
      kind: "path",
      points: boxRound([
        [x0, floor],
        [x1, rail],
      ]),
      closed: true,
      style: { stroke: "ladder", fill: "paper", fillOpacity: 0.75, widthPx: 1.2 },
      title: "Platform",
    },
    {
      kind: "strokes",
      lines: [
        ...posts,
        [
          [x0, (floor + rail) / 2],
          [x1, (floor + rail) / 2],
        ],
      ],
      style: { stroke: "ladder", widthPx: 0.7 },
    },
    {
      kind: "path",
      points: [
        [x0, floor],
        [x1, floor],
      ],
      closed: false,
      style: { stroke: "ladder", widthPx: 3 },
    },
  ];
}
