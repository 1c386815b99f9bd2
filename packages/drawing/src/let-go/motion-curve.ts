import { type Evaluation, type LetGoCase, type Quantity, type UnitSystem, writeAmount } from "@gantline/plan";
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

/** One line of a chart over time. */
interface Trace {
  readonly name: string;
  readonly tag: string;
  readonly style: Style & { readonly stroke: NonNullable<Style["stroke"]> };
  readonly values: readonly number[];
}

/** What does each line that is left pull at the load from the moment one goes until all is at rest? null: nothing moves. */
export function tensionCurve(one: LetGoCase, evaluation: Evaluation, options: MotionCurveOptions): Chart | null {
  const { motion } = one;
  if (motion === null || motion.timesS.length < 2) return null;
  const looks = ropeLooks(evaluation.lines);
  const traces = evaluation.lines.flatMap((line): Trace[] => {
    const values = motion.tensionsN[line.id];
    const look = looks.get(line.id);
    return values && look
      ? [{ name: line.name, tag: look.tag, style: { ...look.style, stroke: look.tone }, values }]
      : [];
  });
  const says = traces
    .map(
      ({ name, values }) =>
        `${name} at most ${writeAmount({ value: Math.max(...values), quantity: "force" }, options.system)}`,
    )
    .join("; ");
  const now = (atS: number): string =>
    evaluation.lines
      .flatMap((line) => {
        const tensionN = tensionAt(motion, line.id, atS);
        return tensionN === null
          ? []
          : [`${looks.get(line.id)?.tag ?? ""} ${writeAmount({ value: tensionN, quantity: "force" }, options.system)}`];
      })
      .join(", ");
  return timeChart(one, traces, { title: "Tension", quantity: "force", says, now }, options);
}

/** How far below where it began is the load? Above it: negative. null: nothing moves. */
export function dropCurve(one: LetGoCase, options: MotionCurveOptions): Chart | null {
  const { motion, yoke } = one;
  const places = motion?.places.yoke;
  if (motion === null || places === undefined || motion.timesS.length < 2) return null;
  const values = places.map((p) => yoke[2] - p[2]);
  const write = (value: number): string => writeAmount({ value, quantity: "length" }, options.system);
  return timeChart(
    one,
    [{ name: "Load", tag: "", style: { stroke: "load", widthPx: 2.2 }, values }],
    {
      title: "Drop",
      quantity: "length",
      says: `At most ${write(Math.max(...values))}, at the end ${write(values.at(-1) ?? 0)}`,
      now: (atS) => write(yoke[2] - (placeAt(motion, "yoke", atS)?.[2] ?? yoke[2])),
    },
    options,
  );
}

interface Words {
  readonly title: string;
  readonly quantity: Quantity;
  readonly says: string;
  readonly now: (atS: number) => string;
}

function timeChart(one: LetGoCase, traces: readonly Trace[], words: Words, options: MotionCurveOptions): Chart {
  const { heightPx, system, nowS } = options;
  const timesS = one.motion?.timesS ?? [];
  const endS = motionEndS(one);
  const axis = axisFor(
    traces.flatMap(({ values }) => [0, ...values]),
    words.quantity,
    system,
    ticksFor(heightPx, MOST_TICKS),
  );
  const field = chartField({ stages: [] }, options, axis);
  const share = (atS: number): number => (endS > 0 ? Math.min(1, Math.max(0, atS / endS)) : 0);
  const title = `${words.title}, ${axis.unit}`;
  const lines = traces.map(({ values, ...trace }) => ({
    ...trace,
    points: values.map((value, i): WorldPoint => field.point(share(timesS[i] ?? 0), value)),
    values,
  }));
  return {
    title,
    description: `${words.title} over ${writeTime(endS, system)}: ${words.says}.`,
    viewport: field.viewport,
    plot: field.plot,
    primitives: [
      ...drawField({ stages: [] }, field, title),
      ...timeTicks(field, endS, system),
      ...lines.map(
        ({ points, style, name }): Primitive => ({ kind: "path", points, closed: false, style, title: name }),
      ),
      ...lines.flatMap(({ points, values, tag, style }): Primitive[] => {
        const k = values.indexOf(Math.max(...values));
        const at = points[k];
        if (!at) return [];
        const late = at[0] > (field.plot.leftPx + field.plot.rightPx) / 2;
        const most = writeAmount({ value: values[k] ?? 0, quantity: words.quantity }, system);
        return [
          { kind: "mark", at, shape: "ring", sizePx: 8, style: { stroke: style.stroke, fill: "paper", widthPx: 1.6 } },
          {
            kind: "text",
            at,
            text: `${tag === "" ? "" : `${tag} `}${most}`,
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
      ...(nowS === undefined ? [] : drawTime(field, share(nowS), words.now(nowS))),
    ],
  };
}

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
