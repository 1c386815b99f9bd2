import {
  type Band,
  type BeamParts,
  type CaseMotion,
  type Evaluation,
  type LetGoCase,
  type Quantity,
  writeAmount,
} from "@gantline/plan";
import type { Chart } from "../curve/chart.ts";
import { ropeLooks } from "../shared/rope-look.ts";
import { sampledAt, tensionAt } from "./replayed.ts";
import { type MotionCurveOptions, type TimeLimit, type Trace, timeChart } from "./time-chart.ts";

/**
 * What does each line that is left pull at the load from the moment one goes? The full line is as entered and without
 * damping, as the figures are, its highest within the shaded band; the thin one is as replayed, with damping, until all is at rest
 * or it is followed no longer. null: nothing moves, or no line is left that is followed.
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
  if (traces.length === 0) return null;
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
export const dropCurve = (one: LetGoCase, options: MotionCurveOptions): Chart | null =>
  curve(one, options, {
    title: "Drop",
    quantity: "length",
    traces: [
      {
        name: "Load",
        tag: "",
        style: LOAD,
        band: one.figures?.dropM ?? null,
        of: ({ places }) => (places.yoke ?? []).map((p) => one.yoke[2] - p[2]),
      },
    ],
  });

/** How far aside of where it began is the load, on the level? */
export const swingCurve = (one: LetGoCase, options: MotionCurveOptions): Chart | null =>
  curve(one, options, {
    title: "Swing aside",
    quantity: "length",
    traces: [
      {
        name: "Load",
        tag: "",
        style: LOAD,
        band: one.figures?.swingM ?? null,
        of: ({ places }) => (places.yoke ?? []).map((p) => Math.hypot(p[0] - one.yoke[0], p[1] - one.yoke[1])),
      },
    ],
  });

/** How near is the load to what it comes nearest to? 0: it touches. */
export const nearestCurve = (one: LetGoCase, options: MotionCurveOptions): Chart | null =>
  curve(one, options, {
    title: "From the load to",
    quantity: "length",
    traces: nearestOf(one).map(({ what, bandM }, k) => ({
      name: what,
      tag: what,
      style: NEAREST[k] ?? LOAD,
      band: bandM,
      end: "lowest",
      of: ({ nearestM }) => nearestM[what] ?? [],
    })),
  });

/** The few that it comes nearest to; of a fall by its one motion. */
function nearestOf({
  figures,
  undamped,
}: LetGoCase): readonly { readonly what: string; readonly bandM: Band | null }[] {
  const all =
    figures?.nearest ??
    Object.entries(undamped?.nearestM ?? {})
      .sort(([, a], [, b]) => Math.min(...a) - Math.min(...b))
      .map(([what]) => ({ what, bandM: null }));
  return all.slice(0, NEAREST.length);
}

/**
 * What does a rigging point feel: as a whole, along the ladder (pressing it together: positive), square to it (upward) and
 * sideways (to its right); with what it may get as a whole.
 */
export function pointCurve(
  one: LetGoCase,
  { pointId, name }: { readonly pointId: string; readonly name: string },
  options: MotionCurveOptions & { readonly limit?: TimeLimit | null },
): Chart | null {
  const peakN = one.figures?.points.find((p) => p.pointId === pointId)?.peakN ?? null;
  const part = (key: keyof BeamParts) => (motion: CaseMotion) => (motion.pointsN[pointId] ?? []).map((f) => f[key]);
  return curve(one, options, {
    title: `Force at ${name}`,
    quantity: "force",
    limit: options.limit ?? null,
    traces: [
      { name: "Whole", tag: "whole", style: { stroke: "force", widthPx: 2.4 }, band: peakN, of: part("resultantN") },
      ...PARTS.map(({ key, word, dash }) => ({
        name: word,
        tag: word,
        style: { stroke: "ink", widthPx: 1.6, dash } as const,
        band: null,
        end: "farthest" as const,
        of: part(key),
      })),
    ],
  });
}

const LOAD = { stroke: "load", widthPx: 2.2 } as const;
/** What the load may come near, each in its own dashes. */
const NEAREST = [
  { stroke: "hazard", widthPx: 2.2 },
  { stroke: "ink", widthPx: 1.8, dash: "dashed" },
  { stroke: "ink", widthPx: 1.6, dash: "dotted" },
] as const;
const PARTS = [
  { key: "compressionN", word: "along", dash: "dashed" },
  { key: "normalN", word: "square", dash: "dotted" },
  { key: "lateralN", word: "sideways", dash: "chain" },
] as const;

interface Told {
  readonly title: string;
  readonly quantity: Quantity;
  readonly limit?: TimeLimit | null;
  readonly traces: readonly (Omit<Trace, "values" | "judged"> & {
    readonly of: (motion: CaseMotion) => readonly number[];
  })[];
}

/** Lines that are worked out the same way of both motions; null: nothing moves, or of none is anything known. */
function curve(
  one: LetGoCase,
  options: MotionCurveOptions,
  { title, quantity, limit = null, traces }: Told,
): Chart | null {
  const { motion, undamped } = one;
  if (motion === null || undamped === null || motion.timesS.length < 2) return null;
  const drawn = traces
    .map(({ of, ...trace }): Trace => ({ ...trace, values: of(motion), judged: of(undamped) }))
    .filter(({ values, judged }) => values.length > 0 && judged.length > 0);
  if (drawn.length === 0) return null;
  const now = (atS: number): string =>
    drawn
      .map(({ tag, values }) => {
        const value = sampledAt(motion, values, atS);
        const text = writeAmount(value === null ? null : { value, quantity }, options.system);
        return tag === "" ? text : `${tag} ${text}`;
      })
      .join(", ");
  return timeChart(one, drawn, { title, quantity, now, limit }, options);
}
