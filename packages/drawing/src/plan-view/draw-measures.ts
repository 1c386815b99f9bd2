import { asSite } from "@gantline/engine";
import type { Evaluation, Plan } from "@gantline/plan";
import type { Primitive, WorldPoint } from "../primitives.ts";
import { shortened, type Write } from "../shared/write.ts";

const NEAR_M = 0.02;

/** What is taped on the ground: the turntable's offsets from the datum; level reach; the fan between tagline crews. */
export function drawMeasures(plan: Plan, evaluation: Evaluation, write: Write): readonly Primitive[] {
  return [
    ...offsets(plan, evaluation, write),
    ...reach(plan, evaluation, write),
    ...fan(plan, evaluation, write),
    ...crews(plan, evaluation),
  ];
}

/** From the datum to the turntable's centre in two legs, by the corner that lies farther from the ladder. */
function offsets(plan: Plan, evaluation: Evaluation, write: Write): readonly Primitive[] {
  const { datum } = plan.scene;
  if (!datum) return [];
  const [dx, dy] = datum.position;
  const { turntableX: tx, turntableY: ty } = plan.aerial.place;
  const { tip } = evaluation.geometry.posed;
  const fromLadder = ([x, y]: WorldPoint): number => Math.abs((x - tx) * (tip[1] - ty) - (y - ty) * (tip[0] - tx));
  const corners: readonly [WorldPoint, WorldPoint] = [
    [tx, dy],
    [dx, ty],
  ];
  const corner = fromLadder(corners[0]) > fromLadder(corners[1]) ? corners[0] : corners[1];
  const leg = (a: WorldPoint, b: WorldPoint): readonly Primitive[] => {
    const [east, north] = [b[0] - a[0], b[1] - a[1]];
    if (Math.hypot(east, north) < NEAR_M) return [];
    const toward = Math.abs(east) > Math.abs(north) ? (east > 0 ? "east" : "west") : north > 0 ? "north" : "south";
    return [
      {
        kind: "dimension",
        a,
        b,
        offsetPx: 0,
        text: `${write(Math.hypot(east, north), "length")} ${toward}`,
        tone: "accent",
        title: "Offset of the turntable's centre from the datum",
        priority: 78,
      },
    ];
  };
  return [
    ...leg([dx, dy], corner),
    ...leg(corner, [tx, ty]),
    {
      kind: "mark",
      at: [dx, dy],
      shape: "triangleUp",
      sizePx: 14,
      style: { stroke: "accent", fill: "paper", widthPx: 1.8 },
      title: `Datum: ${datum.name}`,
    },
    { kind: "circle", at: [dx, dy], radiusPx: 1.6, style: { fill: "accent" } },
    {
      kind: "text",
      at: [dx, dy],
      text: `Tape from: ${shortened(datum.name, 40)}`,
      align: "end",
      offsetPx: [-10, -8],
      sizePx: 12,
      tone: "accent",
      halo: true,
      label: { priority: 46, keep: true },
    },
  ];
}

function reach(plan: Plan, evaluation: Evaluation, write: Write): readonly Primitive[] {
  const { turntableX, turntableY } = plan.aerial.place;
  const { tip } = evaluation.geometry.posed;
  const level = Math.hypot(tip[0] - turntableX, tip[1] - turntableY);
  if (level < 0.5) return [];
  return [
    {
      kind: "dimension",
      a: [turntableX, turntableY],
      b: [tip[0], tip[1]],
      offsetPx: -44,
      text: `Reach ${write(level, "length")}`,
      tone: "ink",
      title: "Level, from the middle of the turntable to the tip",
      priority: 80,
    },
  ];
}

/** The angle at the load between two tagline crews. */
function fan(plan: Plan, evaluation: Evaluation, write: Write): readonly Primitive[] {
  const [a, b] = plan.rig.taglines;
  if (!a || !b) return [];
  const [x, y] = evaluation.load.yoke;
  const toward = (handler: readonly [number, number, number]): number => Math.atan2(handler[1] - y, handler[0] - x);
  const from = toward(a.handler);
  let sweep = toward(b.handler) - from;
  while (sweep > Math.PI) sweep -= 2 * Math.PI;
  while (sweep < -Math.PI) sweep += 2 * Math.PI;
  const near = Math.min(Math.hypot(a.handler[0] - x, a.handler[1] - y), Math.hypot(b.handler[0] - x, b.handler[1] - y));
  const r = Math.min(3, 0.4 * near);
  if (r < 0.3) return [];
  const at = (t: number): WorldPoint => [x + r * Math.cos(from + sweep * t), y + r * Math.sin(from + sweep * t)];
  return [
    {
      kind: "path",
      points: [[x, y], ...Array.from({ length: 25 }, (_, i) => at(i / 24))],
      closed: true,
      style: { fill: "tagline", fillOpacity: 0.05 },
    },
    {
      kind: "path",
      points: Array.from({ length: 25 }, (_, i) => at(i / 24)),
      closed: false,
      style: { stroke: "tagline", widthPx: 0.9 },
      title: "Between the tagline crews, seen from the load",
    },
    {
      kind: "text",
      at: at(0.5),
      text: `${write(Math.abs(sweep), "angle")} between taglines`,
      align: "start",
      offsetPx: [6, -4],
      sizePx: 11,
      tone: "tagline",
      halo: true,
      label: { priority: 33 },
    },
  ];
}

/** Each crew as dots behind their hands, in line with the rope, 0.7 m apart. */
function crews(plan: Plan, evaluation: Evaluation): readonly Primitive[] {
  const { yoke } = evaluation.load;
  return plan.rig.taglines.flatMap((t): Primitive[] => {
    const h = asSite(t.handler);
    const long = Math.hypot(h[0] - yoke[0], h[1] - yoke[1]);
    if (long === 0) return [];
    const [ux, uy] = [(h[0] - yoke[0]) / long, (h[1] - yoke[1]) / long];
    return Array.from(
      { length: Math.min(12, t.people) },
      (_, i): Primitive => ({
        kind: "circle",
        at: [h[0] + ux * 0.7 * (i + 0.7), h[1] + uy * 0.7 * (i + 0.7)],
        radiusPx: 3,
        style: { stroke: "tagline", fill: "paper", widthPx: 1.2 },
      }),
    );
  });
}
