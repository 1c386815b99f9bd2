import type { Evolution, UnitSystem, When } from "@gantline/plan";
import type { Primitive, Viewport, WorldPoint } from "../primitives.ts";
import { textWidthPx } from "../render/text-width.ts";
import { wrapText } from "../render/wrap-text.ts";
import type { Axis } from "./axis-ticks.ts";

/** A curve over the evolution, ready for `svgTree(chart, chart.viewport)`. */
export interface Chart {
  readonly title: string;
  /** For those who cannot see it. */
  readonly description: string;
  readonly viewport: Viewport;
  /** Back to front; one metre of the viewport is one px. */
  readonly primitives: readonly Primitive[];
  readonly plot: Plot;
}

/** The field the curve is drawn in, px from the upper left corner of the sheet. */
export interface Plot {
  readonly leftPx: number;
  readonly rightPx: number;
  readonly topPx: number;
  readonly bottomPx: number;
}

export interface CurveOptions {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly system: UnitSystem;
  /** Draws the line that says which moment is shown. */
  readonly now?: When | null;
}

/** A chart's field with its scales. */
export interface Field {
  readonly plot: Plot;
  readonly viewport: Viewport;
  /** A place on the chart: how far through the evolution (0 to 1), and a value of the axis. */
  readonly point: (at: number, value: number) => WorldPoint;
  /** A place on the sheet, px right and down, as a world point. */
  readonly sheet: (xPx: number, yPx: number) => WorldPoint;
  readonly axis: Axis;
  /** Room for the title above it, px; 0 on a strip. */
  readonly headPx: number;
  /** The stages' names, each in lines as long as its band is wide. */
  readonly names: readonly (readonly string[])[];
}

/** A lower chart is a strip for the screen: no title and no words under it, stage names in one line. */
const SHEET_FROM_PX = 160;
const HEAD_PX = 18;
const NAME_PX = 11;
const NAME_LINE_PX = 12.5;
const FOOT_PX = 24;
const STRIP_FOOT_PX = 8;
/** Height that a tick's figure takes with the room about it, px. */
const TICK_ROOM_PX = 26;
const LEFT_PX = 46;
const RIGHT_PX = 14;
/** A band narrower than this has room for its number alone, px. */
const ROOM_FOR_NAME_PX = 52;
const MOST_NAME_LINES = 3;

/** What a chart runs over: the stages of an evolution; none where it runs over something else. */
type Staged = Pick<Evolution, "stages">;

export function chartField(evolution: Staged, { widthPx, heightPx }: CurveOptions, axis: Axis): Field {
  const rightPx = Math.max(LEFT_PX + 20, widthPx - RIGHT_PX);
  const strip = isStrip(heightPx);
  const headPx = strip ? 0 : HEAD_PX;
  const bandPx = (rightPx - LEFT_PX) / Math.max(1, evolution.stages.length);
  const names = stageNames(evolution, bandPx, strip ? 1 : MOST_NAME_LINES);
  const topPx = headPx + Math.max(1, ...names.map((n) => n.length)) * NAME_LINE_PX + 6;
  const bottomPx = Math.max(topPx + 20, heightPx - (strip ? STRIP_FOOT_PX : FOOT_PX));
  const plot = { leftPx: LEFT_PX, rightPx, topPx, bottomPx };
  const sheet = (xPx: number, yPx: number): WorldPoint => [xPx, heightPx - yPx];
  const point = (at: number, value: number): WorldPoint => {
    const share = Math.min(1, Math.max(0, (value - axis.low) / (axis.high - axis.low)));
    return sheet(plot.leftPx + at * (plot.rightPx - plot.leftPx), bottomPx - share * (bottomPx - topPx));
  };
  const viewport = { widthPx, heightPx, centre: [widthPx / 2, heightPx / 2], pxPerM: 1 } as const;
  return { plot, axis, sheet, point, viewport, headPx, names };
}

export const isStrip = (heightPx: number): boolean => heightPx < SHEET_FROM_PX;

/** As many ticks as a chart of this height has room for, of `most`. */
export const ticksFor = (heightPx: number, most: number): number =>
  Math.max(2, Math.min(most, Math.floor(heightPx / TICK_ROOM_PX)));

/** Title, stage bands with their names, and the axis with its lines. */
export function drawField(evolution: Staged, field: Field, title: string): readonly Primitive[] {
  const { plot, axis, sheet, point, headPx, names } = field;
  const bandPx = (plot.rightPx - plot.leftPx) / Math.max(1, evolution.stages.length);
  const x = (i: number): number => plot.leftPx + i * bandPx;
  const bands = names.flatMap((_, i) =>
    i % 2 === 1
      ? []
      : [
          [
            sheet(x(i), headPx + 4),
            sheet(x(i + 1), headPx + 4),
            sheet(x(i + 1), plot.bottomPx),
            sheet(x(i), plot.bottomPx),
          ],
        ],
  );
  const frame = [
    [sheet(plot.leftPx, plot.topPx), sheet(plot.leftPx, plot.bottomPx)],
    [sheet(plot.leftPx, plot.bottomPx), sheet(plot.rightPx, plot.bottomPx)],
  ] as const;
  return [
    ...(bands.length > 0
      ? [{ kind: "paths", parts: bands, closed: true, style: { fill: "faint", fillOpacity: 0.07 } } as const]
      : []),
    {
      kind: "strokes",
      lines: axis.ticks.map(({ value }) => [point(0, value), point(1, value)]),
      style: { stroke: "grid", widthPx: 0.8 },
    },
    { kind: "strokes", lines: frame, style: { stroke: "ink", widthPx: 1 } },
    headPx > 0
      ? text(sheet(plot.leftPx, headPx - 5), title, { strong: true })
      : text(sheet(plot.leftPx, nameLinePx(0, 0)), shortUnit(axis), {
          align: "end",
          offsetPx: [-6, -3],
          sizePx: NAME_PX,
        }),
    ...axis.ticks.map(({ value, text: figure }) => text(point(0, value), figure, { align: "end", offsetPx: [-6, 4] })),
    ...names.flatMap((lines, i) =>
      lines.map((line, k) => text(sheet(x(i) + 4, nameLinePx(headPx, k)), line, { sizePx: NAME_PX })),
    ),
  ];
}

/** Base line of a line of the stages' names, px. */
const nameLinePx = (headPx: number, line: number): number => headPx + 4 + (line + 0.85) * NAME_LINE_PX;

/** The unit where there is no title to name it: it stands beside the stages' names, over the figures. */
const shortUnit = ({ unit }: Axis): string => (unit.startsWith("%") ? "%" : unit);

/** "3 Up beside the wall" in lines as long as a band is wide; the number alone where there is no room. */
const stageNames = (evolution: Staged, bandPx: number, most: number): readonly (readonly string[])[] =>
  evolution.stages.map(({ stage }, i) =>
    bandPx < ROOM_FOR_NAME_PX
      ? [`${i + 1}`]
      : wrapText(`${i + 1}  ${stage.name}`, bandPx - 8, most, (t) => textWidthPx(t, NAME_PX, false, false)),
  );

/** The line at the moment that is shown, and what the curve says there. */
export function drawNow(field: Field, at: number, says: string): readonly Primitive[] {
  const { plot, sheet, point, axis, headPx } = field;
  const [x] = point(at, axis.low);
  const late = x > (plot.leftPx + plot.rightPx) / 2;
  return [
    {
      kind: "path",
      points: [sheet(x, plot.topPx - 4), sheet(x, plot.bottomPx + 6)],
      closed: false,
      style: { stroke: "accent", widthPx: 1.8 },
      title: says,
    },
    {
      kind: "mark",
      at: sheet(x, plot.topPx - 4),
      shape: "triangleDown",
      sizePx: 9,
      style: { stroke: "accent", fill: "accent" },
    },
    ...(headPx > 0
      ? [
          text(sheet(x, plot.bottomPx), says, {
            align: late ? "end" : "start",
            offsetPx: [late ? -5 : 5, 17],
            tone: "accent",
            strong: true,
          }),
        ]
      : []),
  ];
}

interface TextLook {
  readonly align?: "start" | "middle" | "end";
  readonly offsetPx?: readonly [number, number];
  readonly sizePx?: number;
  readonly strong?: boolean;
  readonly tone?: "ink" | "accent";
}

const text = (at: WorldPoint, words: string, look: TextLook = {}): Primitive => ({
  kind: "text",
  at,
  text: words,
  align: look.align ?? "start",
  offsetPx: look.offsetPx ?? [0, 0],
  sizePx: look.sizePx ?? 12,
  tone: look.tone ?? "ink",
  ...(look.strong ? { weight: "strong" as const } : {}),
  halo: true,
});
