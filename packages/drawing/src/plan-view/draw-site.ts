import { polygonArea } from "@gantline/engine";
import type { Evaluation, GroundArea, Plan } from "@gantline/plan";
import type { Primitive, Style, Tone, WorldPoint } from "../primitives.ts";
import { boundsOf } from "../shared/bounds.ts";
import { shortened, type Write } from "../shared/write.ts";

/** Parapets narrower than this on the ground are one line, m. */
const THIN_M = 0.05;

/** Ground and what stands on it, seen from above: parking, water, gaps, ground to keep off, roofs with their parapets. */
export function drawSite(plan: Plan, evaluation: Evaluation, write: Write): readonly Primitive[] {
  const { scene } = plan;
  return [
    ...scene.parking.flatMap((p) =>
      area(
        p.outline,
        p.name,
        `${shortened(p.name, 30)}${fall(p.slopeRad, write)}`,
        { stroke: "earth", hatch: "parking", widthPx: 1.1, dash: "chain" },
        "earth",
      ),
    ),
    ...scene.areas.flatMap(drawArea),
    ...roofs(plan, evaluation, write),
  ];
}

function drawArea({ kind, name, outline }: GroundArea): readonly Primitive[] {
  const short = shortened(name, 30);
  switch (kind) {
    case "water":
      return area(
        outline,
        name,
        short,
        { stroke: "water", fill: "water", fillOpacity: 0.07, hatch: "water", widthPx: 1.4 },
        "water",
      );
    case "gap":
      return area(outline, name, `${short}: gap`, { stroke: "hazard", hatch: "gap", widthPx: 1.4 }, "hazard");
    case "keepOut":
      return area(
        outline,
        name,
        `${short}: keep off`,
        { stroke: "hazard", hatch: "keepOut", widthPx: 1.2, dash: "dashed" },
        "hazard",
      );
  }
}

/** Lowest tops first, so that what stands on a roof is drawn on it. */
function roofs(plan: Plan, evaluation: Evaluation, write: Write): readonly Primitive[] {
  const solids = new Map(evaluation.geometry.structures.map((s) => [s.id, s.solids]));
  return [...plan.scene.structures]
    .sort((a, b) => a.topZM - b.topZM)
    .flatMap((s, k): Primitive[] => {
      const parapets = (solids.get(s.id) ?? []).slice(1);
      const inner = parapets.flatMap((p): (readonly [WorldPoint, WorldPoint])[] => {
        const cap = p.faces.find((f) => f.normal[2] > 0.5)?.loop ?? [];
        const [, , c, d] = cap;
        return cap.length === 4 && c && d && s.parapetThicknessM > THIN_M
          ? [
              [
                [c[0], c[1]],
                [d[0], d[1]],
              ],
            ]
          : [];
      });
      return [
        {
          kind: "path",
          points: s.outline,
          closed: true,
          style: { stroke: "structure", fill: "paper", hatch: k % 2 ? "roofOther" : "roof", widthPx: 2 },
          title: s.name,
        },
        ...(inner.length > 0
          ? [
              {
                kind: "strokes",
                lines: inner,
                style: { stroke: "structure", widthPx: 0.9 },
                title: `${s.name}, parapet`,
              } as const,
            ]
          : []),
        nameAt(s.outline, `${shortened(s.name, 28)}, top ${write(s.topZM, "length")}`, "structure", 57, true),
      ];
    });
}

function area(
  outline: readonly WorldPoint[],
  title: string,
  text: string,
  style: Style,
  tone: Tone,
): readonly Primitive[] {
  return [
    { kind: "path", points: outline, closed: true, style, title },
    nameAt(outline, text, tone, polygonArea(outline) > 1 ? 14 : 8, false),
  ];
}

function nameAt(
  outline: readonly WorldPoint[],
  text: string,
  tone: Tone,
  priority: number,
  strong: boolean,
): Primitive {
  const b = boundsOf(outline);
  return {
    kind: "text",
    at: [(b.minX + b.maxX) / 2, (b.minY + b.maxY) / 2],
    text,
    align: "middle",
    offsetPx: [0, 4],
    sizePx: strong ? 12 : 11,
    tone,
    halo: true,
    ...(strong ? { weight: "strong" as const } : {}),
    ...(tone === "water" ? { italic: true } : {}),
    label: { priority, area: b },
  };
}

const fall = (slopeRad: number, write: Write): string =>
  slopeRad < 0.0005 ? ", level" : `, falls ${write(slopeRad, "angle")}`;

/** Wires as chain lines with their voltage, and a dashed line to each side at the distance to keep. */
export function drawWires(plan: Plan, evaluation: Evaluation, write: Write): readonly Primitive[] {
  return plan.scene.powerLines.flatMap((power): Primitive[] => {
    const points = power.wire.map((p): WorldPoint => [p[0], p[1]]);
    const keep =
      evaluation.clearances.find((c) => c.kind === "power" && c.id.endsWith(`/${power.id}`))?.requiredM ?? null;
    const voltage = power.voltageKv === null ? "voltage unknown" : write(power.voltageKv, "voltage");
    const lowest = Math.min(...power.wire.map((p) => p[2]));
    const sides = keep === null ? [] : points.slice(1).flatMap((q, i) => alongside(points[i] as WorldPoint, q, keep));
    const side = sides[0];
    const middle = points[Math.floor((points.length - 1) / 2)] as WorldPoint;
    const next = points[Math.floor((points.length - 1) / 2) + 1] ?? middle;
    return [
      {
        kind: "path",
        points,
        closed: false,
        style: { stroke: "hazard", widthPx: 1.8, dash: "chain" },
        title: `${power.name}, ${voltage}`,
      },
      ...(sides.length > 0
        ? [
            {
              kind: "strokes",
              lines: sides,
              style: { stroke: "hazard", widthPx: 0.8, dash: "dashed" },
              title: `Keep ${write(keep, "length")} from ${power.name}`,
            } as const,
          ]
        : []),
      ...points.map(
        (at): Primitive => ({ kind: "mark", at, shape: "cross", sizePx: 7, style: { stroke: "hazard", widthPx: 1.6 } }),
      ),
      {
        kind: "text",
        at: [(middle[0] + next[0]) / 2, (middle[1] + next[1]) / 2],
        text: `Live wire, ${voltage}, lowest ${write(lowest, "length")} up`,
        align: "start",
        offsetPx: [8, -8],
        sizePx: 12,
        weight: "strong",
        tone: "hazard",
        halo: true,
        label: { priority: 70, keep: true },
      },
      ...(side && keep !== null
        ? [
            {
              kind: "text",
              at: side[1],
              text: `keep ${write(keep, "length")} away`,
              align: "start",
              offsetPx: [8, 4],
              sizePx: 11,
              tone: "hazard",
              halo: true,
              label: { priority: 40 },
            } as const,
          ]
        : []),
    ];
  });
}

/** The two lines parallel to a segment at a distance. */
function alongside(p: WorldPoint, q: WorldPoint, byM: number): readonly (readonly [WorldPoint, WorldPoint])[] {
  const long = Math.hypot(q[0] - p[0], q[1] - p[1]);
  if (long === 0) return [];
  const [nx, ny] = [(-(q[1] - p[1]) / long) * byM, ((q[0] - p[0]) / long) * byM];
  return [
    [
      [p[0] + nx, p[1] + ny],
      [q[0] + nx, q[1] + ny],
    ],
    [
      [p[0] - nx, p[1] - ny],
      [q[0] - nx, q[1] - ny],
    ],
  ];
}
