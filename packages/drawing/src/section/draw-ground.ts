import type { Primitive, WorldPoint } from "../primitives.ts";
import { shortened, type Write } from "../shared/write.ts";
import type { GroundProfile, GroundStretch } from "./ground-profile.ts";

/** The ground with earth hanging under it, and what is drawn on it: parking with its fall, water, a gap, ground to keep off. */
export function drawGround(profile: GroundProfile, write: Write): readonly Primitive[] {
  return [
    {
      kind: "path",
      points: profile.line,
      closed: false,
      style: { stroke: "earth", hatch: "earth", widthPx: 1.8 },
      title: "Ground",
    },
    ...profile.stretches.flatMap((stretch) => drawStretch(stretch, write)),
  ];
}

function drawStretch(s: GroundStretch, write: Write): readonly Primitive[] {
  const middle: WorldPoint = [(s.from[0] + s.to[0]) / 2, (s.from[1] + s.to[1]) / 2];
  const name = shortened(s.name, 34);
  const below = (text: string, tone: "earth" | "water" | "hazard"): Primitive => ({
    kind: "text",
    at: middle,
    text,
    align: "middle",
    offsetPx: [0, 25],
    sizePx: 11,
    tone,
    italic: tone === "water",
    halo: true,
    label: { priority: 12 },
  });
  const line = (
    points: readonly WorldPoint[],
    widthPx: number,
    tone: "earth" | "water" | "hazard",
    dash?: "dashed",
  ): Primitive => ({
    kind: "path",
    points,
    closed: false,
    style: { stroke: tone, widthPx, ...(dash ? { dash } : {}) },
    title: s.name,
  });
  switch (s.kind) {
    case "parking":
      return [line([s.from, s.to], 3.2, "earth"), below(`${name}, ${fallText(s.riseRad, write)}`, "earth")];
    case "water":
      return [...waterMark(s), below(`${name}, water at ${write(s.from[1], "length")}`, "water")];
    case "gap":
      return [below(`${name}: gap, ${write(s.from[1], "length")}`, "hazard")];
    case "keepOut":
      return [
        line(
          [
            [s.from[0], s.from[1]],
            [s.to[0], s.to[1]],
          ],
          4,
          "hazard",
          "dashed",
        ),
        below(`${name}: keep off`, "hazard"),
      ];
  }
}

/** "level along the section", or the fall in degrees and as a slope. */
function fallText(riseRad: number, write: Write): string {
  const slope = Math.abs(Math.tan(riseRad));
  if (slope < 0.0005) return "level along the section";
  return `${riseRad > 0 ? "rises" : "falls"} ${write(Math.abs(riseRad), "angle")} (1:${Math.round(1 / slope)}) along the section`;
}

/** The surface, with three shortening strokes under its middle. */
function waterMark(s: GroundStretch): readonly Primitive[] {
  const long = s.to[0] - s.from[0];
  const x = (s.from[0] + s.to[0]) / 2;
  const y = s.from[1];
  const strokes = [0.24, 0.14, 0.06].map((half, i): readonly [WorldPoint, WorldPoint] => [
    [x - half * long, y - 0.12 * (i + 1)],
    [x + half * long, y - 0.12 * (i + 1)],
  ]);
  return [
    { kind: "path", points: [s.from, s.to], closed: false, style: { stroke: "water", widthPx: 2 }, title: s.name },
    { kind: "strokes", lines: strokes, style: { stroke: "water", widthPx: 0.9 } },
    {
      kind: "mark",
      at: [x, y],
      shape: "triangleDown",
      sizePx: 8,
      offsetPx: [0, -5],
      style: { stroke: "water", fill: "paper", widthPx: 1 },
    },
  ];
}
