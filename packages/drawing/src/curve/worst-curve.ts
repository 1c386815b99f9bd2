import { type Evolution, type Moment, type Status, type When, writeRatio } from "@gantline/plan";
import type { Primitive } from "../primitives.ts";
import { stageAndPercent } from "../shared/moment-text.ts";
import { STATUS_SIGN, STATUS_TONE, statusWords } from "../shared/status-sign.ts";
import { shortened } from "../shared/write.ts";
import { type Axis, axisFor } from "./axis-ticks.ts";
import {
  type Chart,
  type CurveOptions,
  chartField,
  drawField,
  drawNow,
  type Field,
  isStrip,
  ticksFor,
} from "./chart.ts";
import { openParts } from "./open-parts.ts";
import { runsOf } from "./runs-of.ts";
import { momentAt, shareAt } from "./scrub.ts";

export interface WorstCurveOptions extends CurveOptions {
  /** Ratio above which a check is close, from the plan's policy; null: none set. */
  readonly closeRatio: number | null;
}

/** The axis goes no higher than this ratio; what is beyond runs along its top and is written out. */
const HIGHEST_RATIO = 2;
const LEAST_HIGH = 1.15;
/** Leaves room for a word above the limit. */
const LEAST_HIGH_OF_STRIP = 1.3;
const MOST_TICKS = 8;
const MOST_NAMES = 8;
const MOST_NAMES_OF_STRIP = 4;
/** A field lower than this names the highest check alone, px. */
const ROOM_FOR_NAMES_PX = 60;
/** A check that governs for less than this is named in its title alone, px. */
const LEAST_NAMED_PX = 5;
/** A single moment is marked this wide, px. */
const LEAST_STRETCH_PX = 4;

/**
 * How near does the evolution come to its limits, when, and by which check?
 *
 * The worst ratio of each moment; the governing check's name along it; the limit and the close ratio. Stretches that are
 * over or unknown are hatched and say so in a word. Where the worst check has no ratio, the highest that is known is dashed.
 */
export function worstCurve(evolution: Evolution, options: WorstCurveOptions): Chart {
  const known = highestKnown(evolution);
  const ratios = evolution.moments.map((m, i) => m.worst.ratio ?? known[i] ?? 0);
  const strip = isStrip(options.heightPx);
  const high = Math.min(HIGHEST_RATIO, Math.max(strip ? LEAST_HIGH_OF_STRIP : LEAST_HIGH, ...ratios));
  const round = axisFor([0, high], "ratio", options.system, ticksFor(options.heightPx, MOST_TICKS));
  const axis = strip ? cutAt(high, round) : round;
  const field = chartField(evolution, options, axis);
  const subject = subjects(evolution);
  const title = "Worst ratio, % of limit";
  return {
    title,
    description: describe(evolution, subject),
    viewport: field.viewport,
    plot: field.plot,
    primitives: [
      ...drawField(evolution, field, title),
      ...drawStretches(evolution, field),
      ...drawLimits(field, options.closeRatio),
      ...drawKnown(evolution, field, known),
      ...drawRatios(evolution, field, subject),
      ...(hasRoomForNames(field) ? drawNames(evolution, field, subject) : []),
      ...drawPeak(evolution, field, subject),
      ...nowLine(evolution, field, options),
    ],
  };
}

/** A low chart has no room to spare above what is drawn. */
const cutAt = (high: number, axis: Axis): Axis => ({ ...axis, high, ticks: axis.ticks.filter((t) => t.value <= high) });

const hasRoomForNames = ({ plot }: Field): boolean => plot.bottomPx - plot.topPx >= ROOM_FOR_NAMES_PX;

type Subject = (m: Moment) => string;

function subjects(evolution: Evolution): Subject {
  const names = new Map(evolution.ledger.map((c) => [c.id, c.subject]));
  return (m) => names.get(m.worst.checkId ?? "") ?? "No check";
}

/** For each moment the highest ratio of a check that counts; null where none is known. */
function highestKnown(evolution: Evolution): readonly (number | null)[] {
  const counting = new Set(evolution.ledger.filter((c) => c.counts).map((c) => `ratio/${c.id}`));
  const series = evolution.series.filter((s) => counting.has(s.id));
  return evolution.moments.map((_, i) => {
    const values = series.flatMap((s) => s.values[i] ?? []);
    return values.length > 0 ? Math.max(...values) : null;
  });
}

/** Where the evolution is over or unknown: hatched over the height of the field, with a sign and the word. */
function drawStretches(evolution: Evolution, field: Field): readonly Primitive[] {
  const { moments } = evolution;
  const statuses = statusesOf(evolution);
  return runsOf(statuses, (a, b) => a === b).flatMap(([first, last]): readonly Primitive[] => {
    const status = statuses[first];
    if (status !== "over" && status !== "unknown") return [];
    return stretch(field, status, edge(moments, first, -1), edge(moments, last, 1));
  });
}

const statusesOf = ({ moments }: Evolution): readonly Status[] => moments.map((m) => m.worst.status);

/** Half way to the neighbouring moment, which is of another status. */
function edge(moments: readonly Moment[], i: number, side: 1 | -1): number {
  const at = (moments[i] as Moment).at;
  return (at + (moments[i + side]?.at ?? at)) / 2;
}

function stretch(field: Field, status: Status, from: number, to: number): readonly Primitive[] {
  const { plot, point, sheet, axis } = field;
  const [x0] = point(from, axis.low);
  const [x1] = point(to, axis.low);
  const wider = Math.max(0, LEAST_STRETCH_PX - (x1 - x0)) / 2;
  const [left, right] = [x0 - wider, x1 + wider];
  const tone = STATUS_TONE[status];
  const box = [
    sheet(left, plot.topPx),
    sheet(right, plot.topPx),
    sheet(right, plot.bottomPx),
    sheet(left, plot.bottomPx),
  ];
  const middle = sheet((left + right) / 2, plot.topPx);
  return [
    { kind: "path", points: box, closed: true, style: { fill: tone, fillOpacity: 0.08 }, title: status },
    {
      kind: "path",
      points: box,
      closed: true,
      style: { stroke: tone, hatch: status === "over" ? "cut" : "roofOther", widthPx: 0.8 },
    },
    {
      kind: "text",
      at: middle,
      text: status,
      align: "middle",
      offsetPx: [0, 14],
      sizePx: 12,
      weight: "strong",
      tone,
      sign: STATUS_SIGN[status],
      halo: true,
      label: { priority: 90, keep: true },
    },
  ];
}

function drawLimits(field: Field, closeRatio: number | null): readonly Primitive[] {
  const line = (ratio: number, tone: "over" | "close", words: string): readonly Primitive[] => [
    {
      kind: "path",
      points: [field.point(0, ratio), field.point(1, ratio)],
      closed: false,
      style: { stroke: tone, widthPx: 1.3, ...(tone === "close" ? { dash: "dashed" as const } : {}) },
      title: words,
    },
    ...(hasRoomForNames(field)
      ? [
          {
            kind: "text",
            at: field.point(1, ratio),
            text: words,
            align: "end",
            offsetPx: [-4, tone === "over" ? -4 : 12],
            sizePx: 11,
            tone,
            halo: true,
            label: { priority: 70, keep: true },
          } as const,
        ]
      : []),
  ];
  return [
    ...(closeRatio === null ? [] : line(closeRatio, "close", `close from ${writeRatio(closeRatio)}`)),
    ...line(1, "over", "limit"),
  ];
}

/** Where the worst check has no ratio, the highest of those that have one. */
function drawKnown(evolution: Evolution, field: Field, known: readonly (number | null)[]): readonly Primitive[] {
  const { moments } = evolution;
  const shown = moments.map((m, i) => (m.worst.ratio === null ? (known[i] ?? null) : null));
  const parts = openParts(moments, shown, field);
  return parts.length === 0
    ? []
    : [
        {
          kind: "paths",
          parts,
          closed: false,
          style: { stroke: "ink", widthPx: 1.2, dash: "dashed" },
          title: "Highest ratio that is known",
        },
      ];
}

/** The line itself, a piece for each check that governs. */
function drawRatios(evolution: Evolution, field: Field, subject: Subject): readonly Primitive[] {
  const { moments } = evolution;
  const governed = runsOf(moments, (a, b) => a.worst.checkId === b.worst.checkId);
  return governed.flatMap(([first, last]): Primitive[] => {
    const shown = moments.map((m, i) => (i >= first && i <= last + 1 ? m.worst.ratio : null));
    const parts = openParts(moments, shown, field);
    const title = subject(moments[first] as Moment);
    return parts.length === 0
      ? []
      : [{ kind: "paths", parts, closed: false, style: { stroke: "ink", widthPx: 2.2 }, title }];
  });
}

/** The name of each check where it governs, the highest first; those with no room are left to their titles. */
function drawNames(evolution: Evolution, field: Field, subject: Subject): readonly Primitive[] {
  const { moments } = evolution;
  const peak = highestMoment(evolution);
  const runs = runsOf(moments, (a, b) => a.worst.checkId === b.worst.checkId)
    .flatMap(([first, last]) => {
      const own = moments.slice(first, last + 1).filter((m) => m.worst.ratio !== null);
      const top = own.reduce<Moment | null>(
        (best, m) => (best && (best.worst.ratio ?? 0) >= (m.worst.ratio ?? 0) ? best : m),
        null,
      );
      const [from, to] = [field.point(moments[first]?.at ?? 0, 0)[0], field.point(moments[last]?.at ?? 0, 0)[0]];
      return top && top !== peak && to - from >= LEAST_NAMED_PX ? [{ top, from, to }] : [];
    })
    .sort((a, b) => (b.top.worst.ratio ?? 0) - (a.top.worst.ratio ?? 0))
    .slice(0, field.headPx > 0 ? MOST_NAMES : MOST_NAMES_OF_STRIP);
  return runs.map(({ top, from, to }, k): Primitive => {
    const middle = (from + to) / 2;
    const near = moments.filter((m) => m.worst.checkId === top.worst.checkId && m.worst.ratio !== null);
    const anchor = near.reduce((a, b) =>
      Math.abs(field.point(b.at, 0)[0] - middle) < Math.abs(field.point(a.at, 0)[0] - middle) ? b : a,
    );
    return {
      kind: "text",
      at: field.point(anchor.at, anchor.worst.ratio ?? 0),
      text: shortened(subject(top), 40),
      align: "middle",
      offsetPx: [0, 15],
      sizePx: 11,
      tone: "ink",
      halo: true,
      label: { priority: 60 - k },
    };
  });
}

const highestMoment = (evolution: Evolution): Moment | null =>
  evolution.moments.reduce<Moment | null>(
    (best, m) => (m.worst.ratio !== null && (best === null || m.worst.ratio > (best.worst.ratio ?? 0)) ? m : best),
    null,
  );

/** The highest ratio: a ring on the curve, how much and when. */
function drawPeak(evolution: Evolution, field: Field, subject: Subject): readonly Primitive[] {
  const peak = highestMoment(evolution);
  if (!peak) return [];
  const at = field.point(peak.at, peak.worst.ratio ?? 0);
  return [
    {
      kind: "mark",
      at,
      shape: "ring",
      sizePx: 9,
      style: { stroke: "ink", fill: "paper", widthPx: 1.8 },
      title: "Highest",
    },
    {
      kind: "text",
      at,
      text: `${writeRatio(peak.worst.ratio)}  ${shortened(subject(peak), 40)}`,
      align: peak.at > 0.5 ? "end" : "start",
      offsetPx: [peak.at > 0.5 ? -8 : 8, -9],
      sizePx: 12,
      weight: "strong",
      tone: STATUS_TONE[peak.worst.status],
      sign: STATUS_SIGN[peak.worst.status],
      halo: true,
      label: { priority: 95, keep: true },
    },
  ];
}

const STAGE_FAULT_WORDS = {
  over: "over: the stage cannot be carried out as written",
  unknown: "unknown whether the stage can be carried out as written",
} as const;

/** How the solved moment nearest to one stands: "close, 93 %, Sideways pull on the tip", or that its stage cannot be done. */
export function worstSays(evolution: Evolution, when: When): string {
  const moment = momentAt(evolution, when);
  if (!moment) return "unknown";
  const { worst, problems } = moment;
  if (worst.checkId !== null && problems.includes(worst.checkId))
    return STAGE_FAULT_WORDS[worst.status === "over" ? "over" : "unknown"];
  return `${statusWords(worst)}, ${shortened(subjects(evolution)(moment), 40)}`;
}

function nowLine(evolution: Evolution, field: Field, { now }: CurveOptions): readonly Primitive[] {
  if (!now || evolution.stages.length === 0) return [];
  return drawNow(field, shareAt(evolution, now), `${stageAndPercent(now)}: ${worstSays(evolution, now)}`);
}

function describe(evolution: Evolution, subject: Subject): string {
  const peak = highestMoment(evolution);
  const statuses = statusesOf(evolution);
  const stagesThatAre = (status: Status): string => {
    const found = evolution.stages.flatMap((s, i) => {
      const [first, last] = s.moments;
      return statuses.slice(first, last + 1).includes(status) ? [i + 1] : [];
    });
    return found.length === 0 ? "" : ` ${status === "over" ? "Over" : "Unknown"} in stage ${found.join(", ")}.`;
  };
  const highest = peak
    ? `highest ${writeRatio(peak.worst.ratio)}, ${subject(peak)}, ${stageAndPercent(peak.when)}`
    : "no ratio is known";
  return `Worst ratio over ${evolution.stages.length} stages: ${highest}.${stagesThatAre("over")}${stagesThatAre("unknown")}`;
}
