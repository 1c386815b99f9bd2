import { type Band, DAMPING_RATIO, type LetGoCase, type Quantity, type UnitSystem, writeAmount } from "@gantline/plan";
import { axisFor } from "../curve/axis-ticks.ts";
import { type Chart, chartField, drawField, drawNow, type Field, ticksFor } from "../curve/chart.ts";
import type { Primitive, Style, WorldPoint } from "../primitives.ts";
import { acrossTicks } from "./across-ticks.ts";
import { motionEndS } from "./replayed.ts";

export interface MotionCurveOptions {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly system: UnitSystem;
  /** Draws the line that says which time is shown, s after the line went. */
  readonly nowS?: number;
}

const MOST_TICKS = 5;
const MOST_TIMES = 8;

/** One line of a chart over time, as it is replayed and as it is judged. */
export interface Trace {
  readonly name: string;
  readonly tag: string;
  readonly style: Style & { readonly stroke: NonNullable<Style["stroke"]> };
  /** With damping, as replayed. */
  readonly values: readonly number[];
  /** As entered and without damping, as the figures are. */
  readonly judged: readonly number[];
  /** What the range of the ropes' stiffness lets its highest be, or its lowest. */
  readonly band: Band | null;
  /** What counts of it: how high, how low, or how far from nothing it goes, with its sign. Left out: how high. */
  readonly end?: "lowest" | "farthest";
}

export interface Words {
  readonly title: string;
  readonly quantity: Quantity;
  readonly now: (atS: number) => string;
  /** What may not be passed; left out or null: none is known. */
  readonly limit?: TimeLimit | null;
}

/** A limit across a chart. */
export interface TimeLimit {
  readonly value: number;
  readonly name: string;
}

/** A limit is drawn as long as it is no more than so many times what the lines reach; beyond that it is written. */
const LIMIT_IN_SIGHT = 3;

/** The index that counts of a line. */
const endOf = ({ judged, end }: Trace): number => {
  const size = (v: number): number => (end === "lowest" ? -v : end === "farthest" ? Math.abs(v) : v);
  return judged.reduce((best, v, k) => (size(v) > size(judged[best] ?? v) ? k : best), 0);
};

/** What the thin line is; of a fall there is one motion only. */
const thinOf = ({ outcome }: LetGoCase): string =>
  outcome === "falls"
    ? "until it is down, without damping, as replayed"
    : `thin: damped, ${Math.round(100 * DAMPING_RATIO)} % of critical, as replayed`;

/** Lines over the time since a line went, full as judged and thin as replayed, each with its highest, or its lowest, ringed. */
export function timeChart(one: LetGoCase, traces: readonly Trace[], words: Words, options: MotionCurveOptions): Chart {
  const { heightPx, system, nowS } = options;
  const thin = thinOf(one);
  const endS = Math.max(motionEndS(one), one.undamped?.timesS.at(-1) ?? 0);
  const reached = traces.flatMap(({ values, judged, band }) => [0, ...values, ...judged, ...(band ? [band.high] : [])]);
  const { limit = null } = words;
  const shownLimit = limit && limit.value <= LIMIT_IN_SIGHT * Math.max(...reached.map(Math.abs)) ? limit : null;
  const axis = axisFor(
    shownLimit ? [...reached, shownLimit.value] : reached,
    words.quantity,
    system,
    ticksFor(heightPx, MOST_TICKS),
  );
  const field = chartField({ stages: [] }, options, axis);
  const share = (atS: number): number => (endS > 0 ? Math.min(1, Math.max(0, atS / endS)) : 0);
  const along = (timesS: readonly number[] | undefined, values: readonly number[]): readonly WorldPoint[] =>
    values.map((value, i) => field.point(share(timesS?.[i] ?? 0), value));
  const write = (value: number): string => writeAmount({ value, quantity: words.quantity }, system);
  const title = `${words.title}, ${axis.unit}`;
  const says = traces.map((trace) => {
    const { name, judged, values, band } = trace;
    return [
      `${name} ${ENDS[trace.end ?? "highest"]} as entered ${write(judged[endOf(trace)] ?? 0)}`,
      ...(band ? [`(${write(band.low)} to ${write(band.high)})`] : []),
      `without damping, at the end ${write(values.at(-1) ?? 0)}`,
    ].join(" ");
  });
  return {
    title,
    description: `${words.title} over ${writeTime(endS, system)}, ${thin}: ${says.join("; ")}.${limit ? ` ${limit.name}: ${write(limit.value)}.` : ""}`,
    viewport: field.viewport,
    plot: field.plot,
    primitives: [
      ...drawField({ stages: [] }, field, title),
      ...timeTicks(field, endS, system),
      ...traces.flatMap(({ band, style, name }): Primitive[] =>
        band === null
          ? []
          : [
              {
                kind: "path",
                points: [
                  [0, band.low],
                  [1, band.low],
                  [1, band.high],
                  [0, band.high],
                ].map(([at = 0, value = 0]) => field.point(at, value)),
                closed: true,
                style: { fill: style.stroke, fillOpacity: 0.1 },
                title: `${name}: at most ${write(band.low)} to ${write(band.high)}`,
              },
            ],
      ),
      ...traces.flatMap(({ values, judged, style, name }): Primitive[] => [
        {
          kind: "path",
          points: along(one.motion?.timesS, values),
          closed: false,
          style: { stroke: style.stroke, widthPx: THIN_PX },
          title: `${name}, ${thin}`,
        },
        {
          kind: "path",
          points: along(one.undamped?.timesS, judged),
          closed: false,
          style,
          title: `${name}, as entered, without damping`,
        },
      ]),
      ...(limit ? drawLimit(field, limit, shownLimit !== null, write) : []),
      ...traces.flatMap((trace): Primitive[] => {
        const { judged, tag, style } = trace;
        const k = endOf(trace);
        const atS = one.undamped?.timesS[k] ?? 0;
        const at = field.point(share(atS), judged[k] ?? 0);
        const late = at[0] > (field.plot.leftPx + field.plot.rightPx) / 2;
        return [
          { kind: "mark", at, shape: "ring", sizePx: 8, style: { stroke: style.stroke, fill: "paper", widthPx: 1.6 } },
          {
            kind: "text",
            at,
            text: `${tag === "" ? "" : `${tag} `}${write(judged[k] ?? 0)}`,
            align: late ? "end" : "start",
            offsetPx: [late ? -9 : 9, -4],
            sizePx: 12,
            weight: "strong",
            tone: style.stroke,
            halo: true,
            label: { priority: 80, keep: true },
          },
        ];
      }),
      {
        kind: "text",
        at: field.sheet(field.plot.rightPx, field.plot.bottomPx - 5),
        text: thin,
        align: "end",
        sizePx: 11,
        tone: "faint",
        halo: true,
      },
      ...(nowS === undefined ? [] : drawTime(field, share(nowS), words.now(nowS))),
    ],
  };
}

/** The limit's line with its name; where it is out of sight, that alone. */
function drawLimit(
  field: Field,
  limit: TimeLimit,
  inSight: boolean,
  write: (v: number) => string,
): readonly Primitive[] {
  const { plot, sheet } = field;
  const text = `${limit.name}, ${write(limit.value)}`;
  const at = inSight ? field.point(0, limit.value) : sheet(plot.leftPx, plot.topPx);
  return [
    ...(inSight
      ? [
          {
            kind: "path",
            points: [at, field.point(1, limit.value)],
            closed: false,
            style: { stroke: "over", widthPx: 2 },
            title: text,
          } as const,
        ]
      : []),
    {
      kind: "text",
      at,
      text: inSight ? text : `${text}: above the chart`,
      align: "start",
      offsetPx: [6, inSight ? -4 : 12],
      sizePx: 12,
      tone: "over",
      weight: "strong",
      halo: true,
      label: { priority: 78 },
    },
  ];
}

/** What counts of a line, in words. */
const ENDS = { highest: "at its highest", lowest: "at its lowest", farthest: "at its greatest" } as const;

const THIN_PX = 0.9;

const writeTime = (value: number, system: UnitSystem): string => writeAmount({ value, quantity: "time" }, system);

/** The line at the time that is shown; what the chart says then stands over it, at its right end. */
const drawTime = (field: Field, at: number, says: string): readonly Primitive[] => [
  ...drawNow(field, at, says).filter(({ kind }) => kind !== "text"),
  {
    kind: "text",
    at: field.sheet(field.plot.rightPx, field.headPx - 5),
    text: says,
    align: "end",
    sizePx: 12,
    tone: "accent",
    weight: "strong",
    halo: true,
  },
];

/** Times under the chart, in seconds. */
const timeTicks = (field: Field, endS: number, system: UnitSystem): readonly Primitive[] =>
  endS > 0
    ? acrossTicks(
        field,
        axisFor([0, endS], "time", system, MOST_TIMES)
          .ticks.filter(({ value }) => value <= endS)
          .map(({ value, text }) => ({ at: value / endS, text: `${text}\u202fs` })),
      )
    : [];
