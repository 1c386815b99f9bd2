import type { Primitive } from "../primitives.ts";
import { boundsOf, cornersOf } from "../shared/bounds.ts";
import { shortened, type Write } from "../shared/write.ts";
import type { StructureInSection } from "./cut-structures.ts";

/** Seen beyond the plane: thin. */
export function drawSeenStructures(structures: readonly StructureInSection[]): readonly Primitive[] {
  return structures
    .filter((s) => s.cut.length === 0)
    .flatMap((s): Primitive[] => [
      {
        kind: "path",
        points: cornersOf(s.seen),
        closed: true,
        style: {
          stroke: "faint",
          widthPx: 0.8,
          ...(s.before ? { dash: "dashed" } : { fill: "structure", fillOpacity: 0.04 }),
        },
        title: s.name,
      },
      {
        kind: "text",
        at: [(s.seen.minX + s.seen.maxX) / 2, s.seen.maxY],
        text: `${shortened(s.name, 30)}, ${s.before ? "this side of" : "beyond"} the section`,
        align: "middle",
        offsetPx: [0, -6],
        sizePx: 11,
        tone: "faint",
        italic: true,
        halo: true,
        label: { priority: 5 },
      },
    ]);
}

/** Cut by the plane: hatched, with a firm outline. */
export function drawCutStructures(structures: readonly StructureInSection[], write: Write): readonly Primitive[] {
  return structures.flatMap((s) =>
    s.cut.flatMap((outline): Primitive[] => {
      const xs = outline.map((p) => p[0]);
      const middle = (Math.min(...xs) + Math.max(...xs)) / 2;
      const low = Math.min(...outline.map((p) => p[1]));
      return [
        {
          kind: "path",
          points: outline,
          closed: true,
          style: { stroke: "structure", fill: "paper", hatch: "cut", widthPx: 2 },
          title: `${s.name}, cut by the section`,
        },
        {
          kind: "text",
          at: [middle, low + (s.topZM - low) * 0.6],
          text: `${shortened(s.name, 28)}, top ${write(s.topZM, "length")}`,
          align: "middle",
          offsetPx: [0, 4],
          sizePx: 12,
          tone: "structure",
          halo: true,
          weight: "strong",
          label: { priority: 57, area: boundsOf(outline) },
        },
      ];
    }),
  );
}
