import { asSite } from "@gantline/engine";
import { type Evaluation, groundLevel, type Plan } from "@gantline/plan";
import type { Bounds, Primitive, WorldPoint } from "../primitives.ts";
import type { Write } from "../shared/write.ts";
import type { DrawnSection } from "./section-frame.ts";

/** The figures of the pose: elevation as an arc, length along the ladder, reach under the ground, heights in columns at the right. */
export function drawDimensions(
  plan: Plan,
  evaluation: Evaluation,
  frame: DrawnSection,
  bounds: Bounds,
  write: Write,
): readonly Primitive[] {
  const { posed } = evaluation.geometry;
  const pivot = frame.toSection(posed.pivot);
  const tip = frame.toSection(posed.tip);
  const ground = groundLevel(plan.scene, [posed.tip[0], posed.tip[1]]);
  return [
    ...elevationArc(pivot, posed.elevationRad, posed.lengthM, write),
    {
      kind: "dimension",
      a: pivot,
      b: tip,
      offsetPx: 34,
      text: `Ladder ${write(posed.lengthM, "length")}`,
      tone: "ladder",
      title: "Length from pivot to tip",
      priority: 95,
    },
    {
      kind: "dimension",
      a: [0, bounds.minY],
      b: [tip[0], bounds.minY],
      offsetPx: tip[0] >= 0 ? -22 : 22,
      text: `Reach ${write(tip[0], "length")}`,
      tone: "ink",
      title: "Level, from the middle of the turntable to the tip",
      priority: 80,
    },
    ...heights(plan, evaluation, frame, bounds, ground, write),
  ];
}

/** From level at the pivot up to the ladder. */
function elevationArc(pivot: WorldPoint, elevationRad: number, lengthM: number, write: Write): readonly Primitive[] {
  const radius = Math.min(4.2, 0.25 * lengthM);
  const at = (a: number, r = radius): WorldPoint => [pivot[0] + r * Math.cos(a), pivot[1] + r * Math.sin(a)];
  const arc = Array.from({ length: 25 }, (_, i) => at((elevationRad * i) / 24));
  return [
    {
      kind: "path",
      points: [pivot, at(0, radius * 1.15)],
      closed: false,
      style: { stroke: "ladder", widthPx: 0.7, dash: "chain" },
    },
    { kind: "path", points: arc, closed: false, style: { stroke: "ladder", widthPx: 1 }, title: "Elevation" },
    {
      kind: "text",
      at: at(elevationRad * 0.42),
      text: write(elevationRad, "angle"),
      align: "start",
      offsetPx: [7, 4],
      sizePx: 14,
      weight: "strong",
      tone: "ladder",
      halo: true,
      label: { priority: 94, keep: true },
    },
  ];
}

/** Heights in columns right of everything, each with a thin line across from what it measures. */
function heights(
  plan: Plan,
  evaluation: Evaluation,
  frame: DrawnSection,
  bounds: Bounds,
  ground: number,
  write: Write,
): readonly Primitive[] {
  const tip = frame.toSection(evaluation.geometry.posed.tip);
  const yoke = frame.toSection(evaluation.load.yoke);
  const goal = plan.scene.destination ? asSite(plan.scene.destination.position) : null;
  const columns: { readonly from: number; readonly to: number; readonly text: string; readonly title: string }[] = [
    { from: ground, to: yoke[1], text: `Yoke ${write(yoke[1] - ground, "length")}`, title: "Yoke above ground" },
    ...(goal && Math.abs(goal[2] - ground) > 0.3
      ? [
          {
            from: goal[2],
            to: tip[1],
            text: `Tip ${write(tip[1] - goal[2], "length")} above destination`,
            title: "Tip above the destination",
          },
        ]
      : []),
    {
      from: ground,
      to: tip[1],
      text: `Tip ${write(tip[1] - ground, "length")} above ground`,
      title: "Tip above ground",
    },
  ];
  const x = bounds.maxX;
  const witness = [tip, yoke].map((p): readonly [WorldPoint, WorldPoint] => [p, [x, p[1]]]);
  return [
    { kind: "strokes", lines: witness, style: { stroke: "faint", widthPx: 0.5, dash: "dotted" } },
    ...columns.map(
      (c, i): Primitive => ({
        kind: "dimension",
        a: [x, c.from],
        b: [x, c.to],
        offsetPx: -(14 + 26 * i),
        text: c.text,
        tone: "ink",
        title: c.title,
        priority: 75,
      }),
    ),
  ];
}
