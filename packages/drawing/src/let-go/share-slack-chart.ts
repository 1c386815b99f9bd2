import { type ShareSlackCell, type ShareSlackMap, type UnitSystem, writeAmount, writeRatio } from "@gantline/plan";
import { contours } from "d3-contour";
import { axisFor } from "../curve/axis-ticks.ts";
import { type Chart, chartField, drawField, type Field } from "../curve/chart.ts";
import type { Primitive, WorldPoint } from "../primitives.ts";
import { textWidthPx } from "../render/text-width.ts";
import { writer } from "../shared/write.ts";
import { figureContours } from "../stand-map/figure-contours.ts";
import { acrossTicks } from "./across-ticks.ts";
import { mostText } from "./case-says.ts";

export interface ShareSlackOptions {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly system: UnitSystem;
  /** What the tip may feel, N, and what says so; left out or null: no limit is known, and none is drawn. */
  readonly limit?: { readonly forceN: number; readonly name: string } | null;
}

const MOST_LEVELS = 9;
const MOST_TICKS = 6;
const HERE_PX = 13;
const HERE_ASIDE_PX = 13;
const HERE_OVER_PX = 20;

/**
 * How hard does it bear on the tip when the line with more of the load goes, over how the load is shared and how much rope
 * runs in the survivor? Contours of the highest force, what is over the limit hatched and named, this plan's point marked.
 */
export function shareSlackChart(map: ShareSlackMap, options: ShareSlackOptions): Chart {
  const { system, limit = null, heightPx } = options;
  const { shares, slacksM, cells, here } = map;
  const write = (value: number | null): string =>
    writeAmount(value === null ? null : { value, quantity: "force" }, system);
  const axis = axisFor([0, ...slacksM], "length", system, heightPx < 260 ? 4 : MOST_TICKS);
  const [leastShare, mostShare] = [shares[0] ?? 0, shares.at(-1) ?? 1];
  const field = chartField({ stages: [] }, options, { ...axis, high: slacksM.at(-1) ?? axis.high });
  const across = (share: number): number =>
    mostShare > leastShare ? (share - leastShare) / (mostShare - leastShare) : 0;
  const values = Float64Array.from(
    slacksM.flatMap((_, row) => shares.map((_, column) => cells[column]?.[row]?.tipN?.high ?? Number.NaN)),
  );
  const known = values.filter((n) => !Number.isNaN(n));
  const [least, most] = [Math.min(...known), Math.max(...known)];
  const levels = axisFor([least, most], "force", system, MOST_LEVELS)
    .ticks.map(({ value }) => value)
    .filter((level) => level > least && level < most);
  /** A place between the grid's values, counted from the first, on the chart. */
  const place = ([x, y]: readonly [number, number]): WorldPoint =>
    field.point(across(between(shares, x)), between(slacksM, y));
  const grid = { columns: shares.length, rows: slacksM.length, cellM: 1, westM: -0.5, southM: -0.5 };
  const title = `Slack in the other line, ${axis.unit}`;
  const limitLine = limit === null ? [] : figureContours(grid, values, [limit.forceN]).flatMap(({ lines }) => lines);
  const dot = field.point(across(here.share), Math.min(here.slackM, slacksM.at(-1) ?? here.slackM));
  return {
    title,
    description: describe(map, limit, write, system),
    viewport: field.viewport,
    plot: field.plot,
    primitives: [
      ...(limit === null ? [] : drawOver(values, grid, limit.forceN, place)),
      ...drawField(
        { stages: [] },
        { ...field, axis: { ...axis, ticks: axis.ticks.filter(({ value }) => value <= (slacksM.at(-1) ?? 0) + 1e-9) } },
        title,
      ),
      ...acrossTicks(
        field,
        [0.5, 0.6, 0.7, 0.8, 0.9, 1]
          .filter((share) => share >= leastShare - 1e-9 && share <= mostShare + 1e-9)
          .map((share) => ({ at: across(share), text: writeRatio(share) })),
      ),
      ...figureContours(grid, values, levels).flatMap(({ level, lines }) =>
        drawContour(
          lines.map((l) => l.map((p) => place([p[0], p[1]]))),
          write(level),
        ),
      ),
      ...limitLine.map(
        (line): Primitive => ({
          kind: "path",
          points: line.map((p) => place([p[0], p[1]])),
          closed: false,
          style: { stroke: "over", widthPx: 3 },
          title: limit?.name ?? "",
        }),
      ),
      ...(limit === null || known.length === 0
        ? []
        : nameLimit(
            limitLine.map((l) => l.map((p) => place([p[0], p[1]]))),
            `${limit.name}, ${write(limit.forceN)}`,
            limit.forceN < least,
            limit.forceN > most,
            field,
          )),
      ...unheldMarks(map, place),
      ...landingMarks(map, place),
      {
        kind: "mark",
        at: dot,
        shape: "ring",
        sizePx: 15,
        style: { stroke: "ink", fill: "paper", widthPx: 2.6 },
        title: "This plan",
      },
      { kind: "circle", at: dot, radiusPx: 2.6, style: { fill: "ink" } },
      ...ifHeldNote(map, field),
      hereWords(`this plan: ${cellText(here, system)}`, dot, field.plot, across(here.share)),
    ],
  };
}

/** What is said of this plan, right of its point, or as far left of that as the plot makes it; as small as it has to be. */
function hereWords(text: string, at: WorldPoint, plot: Chart["plot"], across: number): Primitive {
  const roomPx = plot.rightPx - plot.leftPx;
  const sizePx = Math.min(HERE_PX, (HERE_PX * roomPx) / textWidthPx(text, HERE_PX, true, false));
  const leftPx = Math.min(HERE_ASIDE_PX, (1 - across) * roomPx - textWidthPx(text, sizePx, true, false));
  const isBeside = leftPx === HERE_ASIDE_PX;
  return {
    kind: "text",
    at,
    text,
    align: "start",
    offsetPx: [leftPx, isBeside ? -11 : -HERE_OVER_PX],
    sizePx,
    weight: "strong",
    tone: "ink",
    halo: true,
    label: { priority: 98, keep: true },
  };
}

/** That a brake is only taken to hold fast, over the map's right end: it is so of all of it. */
const ifHeldNote = (map: ShareSlackMap, { sheet, plot, headPx }: Field): readonly Primitive[] =>
  map.slipUnknown.length === 0
    ? []
    : [
        {
          kind: "text",
          at: sheet(plot.rightPx, headPx - 5),
          text: IF_HELD,
          align: "end",
          sizePx: 12,
          tone: "unknown",
          italic: true,
        },
      ];

/** The value at a place between those of a list, by the places' numbers; beyond its ends the ends. */
function between(list: readonly number[], place: number): number {
  const at = Math.min(list.length - 1, Math.max(0, place));
  const k = Math.min(Math.max(0, list.length - 2), Math.floor(at));
  const [a, b] = [list[k] ?? 0, list[k + 1] ?? list[k] ?? 0];
  return a + (b - a) * (at - k);
}

/** What is over the limit, hatched. */
function drawOver(
  values: Float64Array,
  { columns, rows }: { readonly columns: number; readonly rows: number },
  limitN: number,
  place: (p: readonly [number, number]) => WorldPoint,
): readonly Primitive[] {
  if (columns < 2 || rows < 2) return [];
  const areas = contours().size([columns, rows]).thresholds([limitN])([...values]);
  const parts = areas.flatMap(({ coordinates }) =>
    coordinates.flatMap((rings) =>
      rings.map((ring, k) =>
        turned(
          ring.slice(0, -1).map(([x = 0, y = 0]) => place([x - 0.5, y - 0.5])),
          k === 0,
        ),
      ),
    ),
  );
  return parts.length === 0
    ? []
    : [
        {
          kind: "paths",
          parts,
          closed: true,
          style: { hatch: "leanRight", hatchTone: "over", fill: "over", fillOpacity: 0.1 },
          title: "Over the limit",
        },
      ];
}

/** The ring turning anticlockwise, or clockwise for a hole. */
function turned(ring: readonly WorldPoint[], anticlockwise: boolean): readonly WorldPoint[] {
  const twice = ring.reduce((sum, [x, y], i) => {
    const [nx, ny] = ring[(i + 1) % ring.length] ?? [x, y];
    return sum + x * ny - nx * y;
  }, 0);
  return twice > 0 === anticlockwise ? ring : [...ring].reverse();
}

function drawContour(lines: readonly (readonly WorldPoint[])[], text: string): readonly Primitive[] {
  return lines.flatMap((points): Primitive[] => {
    const middle = points[Math.floor(points.length / 2)];
    return [
      { kind: "path", points, closed: false, style: { stroke: "accent", widthPx: 1.2 }, title: text },
      ...(middle
        ? [
            {
              kind: "text",
              at: middle,
              text,
              align: "middle",
              offsetPx: [0, 4],
              sizePx: 11,
              tone: "accent",
              halo: true,
              label: { priority: 40 },
            } as const,
          ]
        : []),
    ];
  });
}

/** The limit's name on its line; where all of the map lies to one side of it, that. */
function nameLimit(
  lines: readonly (readonly WorldPoint[])[],
  name: string,
  allOver: boolean,
  allWithin: boolean,
  { plot, sheet }: Field,
): readonly Primitive[] {
  const longest = lines.reduce<readonly WorldPoint[]>((a, b) => (b.length > a.length ? b : a), []);
  const on = longest[Math.floor(longest.length * 0.7)];
  const text = allOver ? `All of it is over: ${name}` : allWithin ? `None of it is over: ${name}` : name;
  return [
    {
      kind: "text",
      at: on ?? sheet((plot.leftPx + plot.rightPx) / 2, plot.topPx + 14),
      text,
      align: "middle",
      offsetPx: [0, on ? -8 : 4],
      sizePx: 12,
      weight: "strong",
      tone: allWithin ? "ink" : "over",
      halo: true,
      label: { priority: 96, keep: true },
    },
  ];
}

/** What one cell comes to in words: "at most 3.35 kN (2.96 kN to 3.35 kN)", "it falls", "unknown". */
export function cellText({ outcome, tipN }: ShareSlackCell, system: UnitSystem): string {
  if (outcome !== "held") return outcome === "falls" ? "it falls" : "unknown";
  return tipN === null ? "nothing moves" : `at most ${mostText(tipN, "force", writer(system))}`;
}

const MARKS = {
  falls: { shape: "cross", stroke: "over", title: "It falls" },
  unknown: { shape: "question", stroke: "unknown", title: "Not known" },
} as const;

/** Where there is no figure: a cross where it falls, a question mark where it is not known. */
const unheldMarks = (
  { cells }: ShareSlackMap,
  place: (p: readonly [number, number]) => WorldPoint,
): readonly Primitive[] =>
  cells.flatMap((column, x) =>
    column.flatMap(({ outcome }, y): Primitive[] => {
      if (outcome === "held") return [];
      const { shape, stroke, title } = MARKS[outcome];
      return [{ kind: "mark", at: place([x, y]), shape, sizePx: 10, style: { stroke, widthPx: 1.6 }, title }];
    }),
  );

/** Where the load comes down on what is below: less force there is no better. */
const landingMarks = (
  { cells }: ShareSlackMap,
  place: (p: readonly [number, number]) => WorldPoint,
): readonly Primitive[] =>
  cells.flatMap((column, x) =>
    column.flatMap(({ lands, tipN }, y): Primitive[] =>
      lands && tipN !== null
        ? [
            {
              kind: "mark",
              at: place([x, y]),
              shape: "triangleDown",
              sizePx: 10,
              style: { stroke: "over", widthPx: 1.6 },
              title: "The load comes down on what is below",
            },
          ]
        : [],
    ),
  );

/** Held fast for want of their slip force, brakes give an upper figure. */
const IF_HELD = "if no brake slips";
const ifHeld = ({ slipUnknown }: ShareSlackMap): string => (slipUnknown.length > 0 ? ` ${IF_HELD}` : "");

function describe(
  map: ShareSlackMap,
  limit: ShareSlackOptions["limit"],
  write: (value: number | null) => string,
  system: UnitSystem,
): string {
  const { cells, shares, slacksM, here } = map;
  const length = (m: number): string => writeAmount({ value: m, quantity: "length" }, system);
  const say = (cell: ShareSlackCell | undefined): string => (cell ? cellText(cell, system) : "unknown");
  return (
    `Highest force at the tip: ${say(cells[0]?.[0])} at a share of ${writeRatio(shares[0] ?? null)} and ${length(slacksM[0] ?? 0)} slack, ` +
    `${say(cells.at(-1)?.at(-1))} at ${writeRatio(shares.at(-1) ?? null)} and ${length(slacksM.at(-1) ?? 0)}. ` +
    `This plan: ${writeRatio(here.share)}, ${length(here.slackM)}, ${say(here)}${ifHeld(map)}.` +
    `${cells.flat().some((cell) => cell.lands) ? " Where it is marked the load comes down on what is below." : ""}` +
    `${limit ? ` ${limit.name}: ${write(limit.forceN)}.` : " No limit is known."}`
  );
}
