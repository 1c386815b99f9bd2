import type { SiteVector } from "@gantline/engine";
import { letOuts, type Plan } from "@gantline/plan";
import type { Primitive, WorldPoint } from "../primitives.ts";
import type { Write } from "./write.ts";

/** The swing a line's letting go would set off: a dotted arc of the yoke to its far point, how far, how long, and what it comes near. */
export function drawLetOut(
  plan: Plan,
  lineId: string | null | undefined,
  project: (p: SiteVector) => WorldPoint,
  write: Write,
): readonly Primitive[] {
  const swing = lineId == null ? undefined : letOuts(plan).find((l) => l.lineId === lineId);
  if (!swing) return [];
  const far = project(swing.farAt);
  const touches = swing.clearanceM !== null && swing.clearanceM <= 0;
  const near =
    swing.clearanceM === null || swing.nearestTo === null
      ? []
      : [touches ? `strikes ${swing.nearestTo}` : `${write(swing.clearanceM, "length")} from ${swing.nearestTo}`];
  const wide = `${write(swing.amplitudeM, "length")} each side of plumb`;
  return [
    {
      kind: "path",
      points: swing.arc.map(project),
      closed: false,
      style: { stroke: "hazard", widthPx: 2.2, dash: "dotted" },
      title: `Swing if ${swing.name} is let go, ${write(swing.periodS, "time")} there and back`,
    },
    {
      kind: "mark",
      at: far,
      shape: "diamond",
      sizePx: 9,
      style: { stroke: "hazard", fill: "paper", widthPx: 1.6 },
      title: "Far end of the swing",
    },
    {
      kind: "text",
      at: far,
      text: `${swing.name} let go: ${[...near, wide].join(", ")}`,
      align: "start",
      offsetPx: [12, 6],
      sizePx: 12,
      weight: "strong",
      tone: "hazard",
      ...(touches ? { sign: "cross" as const } : {}),
      halo: true,
      label: { priority: 91, keep: true },
    },
  ];
}
