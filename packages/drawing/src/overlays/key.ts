import { type UnitSystem, writeAmount } from "@gantline/plan";
import type { Drawing, KeyEntry, Primitive, Viewport, WorldPoint } from "../primitives.ts";
import { textWidthPx } from "../render/text-width.ts";
import { forceScaleAmounts } from "../shared/force-scale.ts";
import { screenToWorld } from "../viewport.ts";

const ROW_PX = 17;
const SAMPLE_PX = 34;
const TEXT_PX = 12;
const PAD_PX = 8;
/** Half the height of an area's sample, as a part of its width. */
const SAMPLE_HALF = 0.19;

/** What each line is, and to what scale forces are drawn, on a plain field at the upper left. */
export function key(
  drawing: Drawing,
  viewport: Viewport,
  system: UnitSystem,
  leftPx = 40,
  topPx = 30,
  textScale = 1,
): readonly Primitive[] {
  const rows = keyRows(drawing, system);
  if (rows.length === 0) return [];
  const world = (x: number, y: number) => screenToWorld(viewport, [x, y]);
  const rowPx = ROW_PX * textScale;
  const widest = Math.max(...rows.map((row) => textWidthPx(row.text, TEXT_PX * textScale, false, false)));
  const right = leftPx + SAMPLE_PX + 9 + widest + PAD_PX;
  const bottom = topPx + rows.length * rowPx;
  const corners = [
    [leftPx - PAD_PX, topPx - PAD_PX],
    [right, topPx - PAD_PX],
    [right, bottom + PAD_PX],
    [leftPx - PAD_PX, bottom + PAD_PX],
  ] as const;
  const field: Primitive = {
    kind: "path",
    points: corners.map(([x, y]) => world(x, y)),
    closed: true,
    style: { fill: "paper", fillOpacity: 0.88, stroke: "faint", widthPx: 0.6 },
  };
  const lines = rows.flatMap((row, i): Primitive[] => {
    const y = topPx + (i + 0.5) * rowPx;
    const [from, to] = [world(leftPx, y), world(leftPx + SAMPLE_PX, y)];
    return [
      ...sampleOf(row, from, to),
      {
        kind: "text",
        at: world(leftPx + SAMPLE_PX + 9, y),
        text: row.text,
        align: "start",
        offsetPx: [0, 4 * textScale],
        sizePx: TEXT_PX,
        tone: "ink",
      },
    ];
  });
  return [field, ...lines];
}

function sampleOf(row: KeyEntry, from: WorldPoint, to: WorldPoint): readonly Primitive[] {
  if (row.arrow)
    return [{ kind: "arrow", from, to, tone: row.style.stroke ?? "ink", widthPx: row.style.widthPx ?? 1.5 }];
  if (row.area) {
    const [[west, y], [east], half] = [from, to, (to[0] - from[0]) * SAMPLE_HALF];
    const points = [
      [west, y - half],
      [east, y - half],
      [east, y + half],
      [west, y + half],
    ] as const;
    return [{ kind: "path", points, closed: true, style: row.style }];
  }
  const line = (shiftPx: number): Primitive => ({
    kind: "path",
    points: [from, to],
    closed: false,
    style: row.style,
    shiftPx,
  });
  return row.pairPx === undefined ? [line(0)] : [line(row.pairPx / 2), line(-row.pairPx / 2)];
}

function keyRows(drawing: Drawing, system: UnitSystem): readonly KeyEntry[] {
  if (drawing.forceCaseText === null) return drawing.key;
  const { drawn, force } = forceScaleAmounts(drawing.forceScaleNPerM, system);
  const text = `force ${drawing.forceCaseText}: ${drawn} drawn is ${writeAmount(force, system)}`;
  return [...drawing.key, { style: { stroke: "force", widthPx: 2.2 }, arrow: true, text }];
}
