import {
  type Band,
  DAMPING_RATIO,
  type Evaluation,
  type LetGoCase,
  type Quantity,
  type UnitSystem,
  writeAmount,
} from "@gantline/plan";
import { axisFor } from "../curve/axis-ticks.ts";
import { type Chart, chartField, drawField, drawNow, type Field, ticksFor } from "../curve/chart.ts";
import type { Primitive, Style, WorldPoint } from "../primitives.ts";
import { ropeLooks } from "../shared/rope-look.ts";
import { acrossTicks } from "./across-ticks.ts";
import { motionEndS, placeAt, tensionAt } from "./replayed.ts";

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
interface Trace {
  readonly name: string;
  readonly tag: string;
  readonly style: Style & { readonly stroke: NonNullable<Style["stroke"]> };
  /** With damping, as replayed. */
  readonly values: readonly number[];
  /** As entered and without damping, as the figures are. */
  readonly judged: readonly number[];
  /** What the range of the ropes' stiffness lets its highest be. */
  readonly band: Band | null;
}

/**
 * What does each line that is left pull at the load from the moment one goes? The full line is as entered and without
 * damping, as the figures are, its highest within the shaded band; the thin one is as replayed, with damping, until all is at rest
 * or it is followed no longer. null: nothing moves.
 */
export function tensionCurve(one: LetGoCase, evaluation: Evaluation, options: MotionCurveOptions): Chart | null {
  const { motion, undamped, figures } = one;
  if (motion === null || undamped === null || motion.timesS.length < 2) return null;
  const looks = ropeLooks(evaluation.lines);
  const traces = evaluation.lines.flatMap((line): Trace[] => {
    const [values, judged] = [motion.tensionsN[line.id], undamped.tensionsN[line.id]];
    const look = looks.get(line.id);
    if (!values || !judged || !look) return [];
    const band = figures?.lines.find((l) => l.lineId === line.id)?.peakN ?? null;
    return [{ name: line.name, tag: look.tag, style: { ...look.style, stroke: look.tone }, values, judged, band }];
  });
  const now = (atS: number): string =>
    evaluation.lines
      .flatMap((line) => {
        const tensionN = tensionAt(motion, line.id, atS);
        return tensionN === null
          ? []
          : [`${looks.get(line.id)?.tag ?? ""} ${writeAmount({ value: tensionN, quantity: "force" }, options.system)}`];
      })
      .join(", ");
  return timeChart(one, traces, { title: "Tension", quantity: "force", now }, options);
}

/** How far below where it began is the load? Above it: negative. Drawn as the tensions are. null: nothing moves. */
export function dropCurve(one: LetGoCase, options: MotionCurveOptions): Chart | null {
  const { motion, undamped, yoke, figures } = one;
  const [places, judged] = [motion?.places.yoke, undamped?.places.yoke];
  if (motion === null || places === undefined || judged === undefined || motion.timesS.length < 2) return null;
  const write = (value: number): string => writeAmount({ value, quantity: "length" }, options.system);
  const drops = (of: typeof places): readonly number[] => of.map((p) => yoke[2] - p[2]);
  return timeChart(
    one,
    [
      {
        name: "Load",
        tag: "",
        style: { stroke: "load", widthPx: 2.2 },
        values: drops(places),
        judged: drops(judged),
        band: figures?.dropM ?? null,
      },
    ],
    {
      title: "Drop",
      quantity: "length",
      now: (atS) => write(yoke[2] - (placeAt(motion, "yoke", atS)?.[2] ?? yoke[2])),
    },
    options,
  );
}

interface Words {
  readonly title: string;
  readonly quantity: Quantity;
  readonly now: (atS: number) => string;
}

/** What the thin line is. */
const THIN = `thin: damped, ${Math.round(100 * DAMPING_RATIO)} % of critical, as replayed`;

function timeChart(one: LetGoCase, traces: readonly Trace[], words: Words, options: MotionCurveOptions): Chart {
  const { heightPx, system, nowS } = options;
  const endS = Math.max(motionEndS(one), one.undamped?.timesS.at(-1) ?? 0);
  const axis = axisFor(
    traces.flatMap(({ values, judged, band }) => [0, ...values, ...judged, ...(band ? [band.high] : [])]),
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
  const says = traces.map(({ name, judged, values, band }) =>
    [
      `${name} at most ${write(Math.max(...judged))}`,
      ...(band ? [`(${write(band.low)} to ${write(band.high)})`] : []),
      `without damping, at the end ${write(values.at(-1) ?? 0)}`,
    ].join(" "),
  );
  return {
    title,
    description: `${words.title} over ${writeTime(endS, system)}, ${THIN}: ${says.join("; ")}.`,
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
          title: `${name}, ${THIN}`,
        },
        {
          kind: "path",
          points: along(one.undamped?.timesS, judged),
          closed: false,
          style,
          title: `${name}, as entered, without damping`,
        },
      ]),
      ...traces.flatMap(({ judged, tag, style }): Primitive[] => {
        const k = judged.indexOf(Math.max(...judged));
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
        text: THIN,
        align: "end",
        sizePx: 11,
        tone: "faint",
        halo: true,
      },
      ...(nowS === undefined ? [] : drawTime(field, share(nowS), words.now(nowS))),
    ],
  };
}

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
