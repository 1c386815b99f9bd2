import {
  type Evolution,
  type Moment,
  type Series,
  type UnitSystem,
  type When,
  writeAmount,
  writeRatio,
} from "@gantline/plan";
import type { Primitive } from "../primitives.ts";
import { stageAndPercent } from "../shared/moment-text.ts";
import { axisFor } from "./axis-ticks.ts";
import { type Chart, type CurveOptions, chartField, drawField, drawNow, type Field, ticksFor } from "./chart.ts";
import { openParts } from "./open-parts.ts";
import { runsOf } from "./runs-of.ts";
import { momentAt, shareAt } from "./scrub.ts";

const MOST_TICKS = 5;

/**
 * How does one figure run over the whole evolution? In the reader's unit, with its highest and lowest written on it; open
 * where it is not known or does not apply. null: the evolution has no such series.
 */
export function seriesCurve(evolution: Evolution, seriesId: string, options: CurveOptions): Chart | null {
  const series = evolution.series.find((s) => s.id === seriesId);
  if (!series) return null;
  const { system } = options;
  const known = series.values.filter((v) => v !== null);
  const shown = series.quantity === "ratio" ? [...known, 0, 1] : known;
  const axis = axisFor(shown, series.quantity, system, ticksFor(options.heightPx, MOST_TICKS));
  const field = chartField(evolution, options, axis);
  const title = axis.unit === "" ? series.label : `${series.label}, ${axis.unit}`;
  const parts = openParts(evolution.moments, series.values, field);
  return {
    title,
    description: describe(evolution, series, system),
    viewport: field.viewport,
    plot: field.plot,
    primitives: [
      ...drawField(evolution, field, title),
      ...drawNone(evolution, series, field),
      ...(series.quantity === "ratio" ? [limit(field)] : []),
      ...(parts.length > 0
        ? [
            {
              kind: "paths",
              parts,
              closed: false,
              style: { stroke: "ink", widthPx: 2.2 },
              title: series.label,
            } as const,
          ]
        : []),
      ...drawExtremes(evolution, series, field, system),
      ...nowLine(evolution, series, field, options),
    ],
  };
}

const limit = (field: Field): Primitive => ({
  kind: "path",
  points: [field.point(0, 1), field.point(1, 1)],
  closed: false,
  style: { stroke: "over", widthPx: 1.3 },
  title: "limit",
});

/** "none" where a stretch has no value, so that a gap is not taken for zero. */
function drawNone(evolution: Evolution, series: Series, field: Field): readonly Primitive[] {
  const { moments } = evolution;
  const { plot, sheet } = field;
  return runsOf(moments, (a, b) => isKnown(series, moments.indexOf(a)) === isKnown(series, moments.indexOf(b))).flatMap(
    ([first, last]): Primitive[] => {
      if (isKnown(series, first)) return [];
      const middle = ((moments[first]?.at ?? 0) + (moments[last]?.at ?? 0)) / 2;
      const x = plot.leftPx + middle * (plot.rightPx - plot.leftPx);
      return [
        {
          kind: "text",
          at: sheet(x, (plot.topPx + plot.bottomPx) / 2),
          text: "no figure",
          align: "middle",
          sizePx: 11,
          tone: "faint",
          italic: true,
          halo: true,
          label: { priority: 20 },
        },
      ];
    },
  );
}

const isKnown = (series: Series, i: number): boolean => series.values[i] !== null && series.values[i] !== undefined;

interface Extreme {
  readonly moment: Moment;
  readonly value: number;
}

function extremesOf(evolution: Evolution, series: Series): { readonly high: Extreme; readonly low: Extreme } | null {
  const all = evolution.moments.flatMap((moment, i): Extreme[] => {
    const value = series.values[i];
    return value === null || value === undefined ? [] : [{ moment, value }];
  });
  const [first] = all;
  if (!first) return null;
  return {
    high: all.reduce((a, b) => (b.value > a.value ? b : a), first),
    low: all.reduce((a, b) => (b.value < a.value ? b : a), first),
  };
}

const written = (value: number, series: Series, system: UnitSystem): string =>
  series.quantity === "ratio" ? writeRatio(value) : writeAmount({ value, quantity: series.quantity }, system);

function drawExtremes(evolution: Evolution, series: Series, field: Field, system: UnitSystem): readonly Primitive[] {
  const extremes = extremesOf(evolution, series);
  if (!extremes) return [];
  const { high, low } = extremes;
  const mark = ({ moment, value }: Extreme, words: string, down: number): readonly Primitive[] => {
    const at = field.point(moment.at, value);
    return [
      {
        kind: "mark",
        at,
        shape: "ring",
        sizePx: 8,
        style: { stroke: "ink", fill: "paper", widthPx: 1.6 },
        title: words,
      },
      {
        kind: "text",
        at,
        text: `${words} ${written(value, series, system)}`,
        align: moment.at > 0.5 ? "end" : "start",
        offsetPx: [moment.at > 0.5 ? -8 : 8, down],
        sizePx: 12,
        weight: "strong",
        tone: "ink",
        halo: true,
        label: { priority: 80, keep: true },
      },
    ];
  };
  return [...(high.value > low.value ? mark(low, "lowest", 14) : []), ...mark(high, "highest", -8)];
}

/** What a figure is at the solved moment nearest to one: "2.34 kN", or "no figure". */
export function seriesSays(evolution: Evolution, series: Series, when: When, system: UnitSystem): string {
  const moment = momentAt(evolution, when);
  const value = moment ? (series.values[evolution.moments.indexOf(moment)] ?? null) : null;
  return value === null ? "no figure" : written(value, series, system);
}

function nowLine(
  evolution: Evolution,
  series: Series,
  field: Field,
  { now, system }: CurveOptions,
): readonly Primitive[] {
  if (!now || evolution.stages.length === 0) return [];
  const says = `${stageAndPercent(now)}: ${seriesSays(evolution, series, now, system)}`;
  return drawNow(field, shareAt(evolution, now), says);
}

function describe(evolution: Evolution, series: Series, system: UnitSystem): string {
  const extremes = extremesOf(evolution, series);
  if (!extremes) return `${series.label}: no figure at any moment.`;
  const said = ({ moment, value }: Extreme): string =>
    `${written(value, series, system)} in ${stageAndPercent(moment.when)}`;
  return `${series.label} over ${evolution.stages.length} stages: highest ${said(extremes.high)}; lowest ${said(extremes.low)}.`;
}
