import { addScaled, distance, type SiteVector, site } from "@gantline/engine";
import type { Evaluation, LetGoCase, Plan, UnitSystem } from "@gantline/plan";
import { drawPlan } from "../plan-view.ts";
import type { Bounds, Drawing, Primitive, WorldPoint } from "../primitives.ts";
import { sectionFrame } from "../section/section-frame.ts";
import { drawSection } from "../section.ts";
import { boundsOf } from "../shared/bounds.ts";
import { convexHull } from "../shared/convex-hull.ts";
import { forceScaleNPerM } from "../shared/force-scale.ts";
import { ropeLooks } from "../shared/rope-look.ts";
import { type Write, writer } from "../shared/write.ts";
import { caseSays, mostText } from "./case-says.ts";
import { motionEndS, placeAt, replayed } from "./replayed.ts";

export interface LetGoDrawingOptions {
  readonly system: UnitSystem;
  readonly view: Drawing["id"];
  /** So long after the line went, s. Left out: when all has come to rest. */
  readonly atS?: number;
  /** Only the load and its way, large. */
  readonly near?: boolean;
}

type Project = (p: SiteVector) => WorldPoint;

/** Room about the load's way where that alone is shown, m. */
const ABOUT_M = 1.6;
/** What the load keeps farther from than this is not said, m. */
const NEAR_M = 3;
const MOST_NEAR = 2;
/** Words of the plan at rest that are less than this are left off, so that what happens can be read. */
const LEAST_PRIORITY = 57;
/** A place this near to where it began is not marked, m; where the load alone is shown, large, nearer ones are. */
const MOVED_M = 0.3;
const MOVED_NEAR_M = 0.03;

/**
 * What happens when lines go: the load before and at one time after, its way between, the lowest and the farthest place,
 * what it comes near and hits, the lines that went, and the highest force at each rigging point to the scale in the key.
 *
 * @param plan the plan as it is at the moment of the case
 */
export function drawLetGo(plan: Plan, evaluation: Evaluation, one: LetGoCase, options: LetGoDrawingOptions): Drawing {
  const { system, view, near = false } = options;
  const atS = options.atS ?? motionEndS(one);
  const write = writer(system);
  const frame = sectionFrame(plan);
  const project: Project = view === "section" ? frame.toSection : (p) => [p[0], p[1]];
  const shown = replayed(evaluation, one, atS);
  const base =
    view === "section" ? drawSection(plan, shown, { system, measures: false }) : drawPlan(plan, shown, { system });
  const way = (one.motion?.places.yoke ?? []).map(project);
  const bounds = near ? nearBounds(evaluation, shown, way, project) : base.bounds;
  const peakN = Math.max(0, ...(one.figures?.points ?? []).map((p) => p.peakN.high));
  const scale = forceScaleNPerM(
    peakN,
    Math.min(base.bounds.maxX - base.bounds.minX, base.bounds.maxY - base.bounds.minY),
    system,
  );
  return {
    ...base,
    bounds,
    primitives: [
      ...base.primitives.filter(tells),
      ...drawBefore(evaluation, project),
      ...drawGone(evaluation, one, project),
      ...drawLoadWay(one, way, project, write, near ? MOVED_NEAR_M : MOVED_M),
      ...drawFall(one, project, write),
      ...drawNearest(one, project, write, near ? MOST_NEAR : 1),
      ...drawPeaks(one, project, scale, write),
    ],
    handles: [],
    description: caseSays(one, system),
    forceScaleNPerM: scale,
    forceCaseText: peakN > 0 ? "at its highest" : null,
    key: [
      ...base.key,
      ...(way.length > 1 ? [{ style: WAY, text: "way of the load" }] : []),
      { style: BEFORE, text: "load before" },
      { style: GONE, text: "line that goes" },
    ],
    wind: null,
  };
}

/** Is a part of the plan's drawing kept beside what happens? */
const tells = (p: Primitive): boolean =>
  p.kind !== "dimension" && !(p.kind === "text" && p.label && p.label.priority < LEAST_PRIORITY);

const WAY = { stroke: "hazard", widthPx: 2.2, dash: "dotted" } as const;
const BEFORE = { stroke: "load", widthPx: 1.3, dash: "dashed" } as const;
const GONE = { stroke: "over", widthPx: 1.4, dash: "dotted" } as const;

function nearBounds(before: Evaluation, now: Evaluation, way: readonly WorldPoint[], project: Project): Bounds {
  const corners = [...before.load.box.vertices, before.load.yoke, ...now.load.box.vertices, now.load.yoke];
  return boundsOf([...way, ...corners.map(project)], ABOUT_M);
}

const drawBefore = ({ load }: Evaluation, project: Project): readonly Primitive[] => [
  {
    kind: "path",
    points: convexHull(load.box.vertices.map(project)),
    closed: true,
    style: BEFORE,
    title: "Load before",
  },
];

/** The lines that went, where they ran, each with a cross in its part at the load. */
function drawGone(evaluation: Evaluation, { cut }: LetGoCase, project: Project): readonly Primitive[] {
  const looks = ropeLooks(evaluation.lines);
  return evaluation.lines
    .filter(({ id }) => cut.includes(id))
    .flatMap((line): Primitive[] => {
      const points = line.nodes.map(({ at }) => project(at));
      const a: WorldPoint = points[0] ?? [0, 0];
      const b: WorldPoint = points[1] ?? a;
      const at: WorldPoint = [a[0] + (b[0] - a[0]) * CUT_AT, a[1] + (b[1] - a[1]) * CUT_AT];
      return [
        { kind: "path", points, closed: false, style: GONE, title: `${line.name}, as it ran` },
        {
          kind: "mark",
          at,
          shape: "cross",
          sizePx: 15,
          style: { stroke: "over", widthPx: 2.8 },
          title: `${line.name} goes`,
        },
        {
          kind: "text",
          at,
          text: `${looks.get(line.id)?.tag ?? ""} goes`,
          align: "end",
          offsetPx: [-13, 4],
          sizePx: 12,
          weight: "strong",
          tone: "over",
          halo: true,
          label: { priority: 92, keep: true, along: [a, b] },
        },
      ];
    });
}

/** Of the way from the load to the tip. */
const CUT_AT = 0.3;

function drawLoadWay(
  { motion, figures, yoke }: LetGoCase,
  way: readonly WorldPoint[],
  project: Project,
  write: Write,
  movedM: number,
): readonly Primitive[] {
  const last = motion && placeAt(motion, "yoke", Number.POSITIVE_INFINITY);
  const path: readonly Primitive[] =
    way.length > 1 ? [{ kind: "path", points: way, closed: false, style: WAY, title: "Way of the load" }] : [];
  if (!figures) return path;
  const { lowest, farthest, dropM, swingM } = figures;
  const place = (
    at: SiteVector,
    text: string,
    shape: "triangleDown" | "diamond" | "ring",
    down: number,
  ): readonly Primitive[] =>
    distance(at, yoke) < movedM
      ? []
      : [
          {
            kind: "mark",
            at: project(at),
            shape,
            sizePx: 10,
            style: { stroke: "hazard", fill: "paper", widthPx: 1.8 },
            title: text,
          },
          {
            kind: "text",
            at: project(at),
            text,
            align: "start",
            offsetPx: [13, down],
            sizePx: 12,
            weight: "strong",
            tone: "hazard",
            halo: true,
            label: { priority: 84 },
          },
        ];
  return [
    ...path,
    ...(last ? place(last, "at the end", "ring", 2) : []),
    ...place(lowest, `lowest, ${write(dropM.high, "length")} down`, "triangleDown", 16),
    ...place(farthest, `farthest, ${write(swingM.high, "length")} aside`, "diamond", -8),
  ];
}

function drawFall({ fall, yoke }: LetGoCase, project: Project, write: Write): readonly Primitive[] {
  if (fall === null) return [];
  const to = project(site(yoke[0], yoke[1], yoke[2] - fall.heightM));
  const text =
    `${fall.slippedM > 0 ? "not held: comes down" : "nothing holds it: falls"} ${write(fall.heightM, "length")} ` +
    `onto ${fall.onto}, ${write(fall.speedMS, "speed")}`;
  return [
    { kind: "arrow", from: project(yoke), to, tone: "over", widthPx: 3, title: "Nothing holds it" },
    {
      kind: "text",
      at: to,
      text,
      align: "start",
      offsetPx: [14, -4],
      sizePx: 13,
      weight: "strong",
      tone: "over",
      sign: "cross",
      halo: true,
      label: { priority: 96, keep: true },
    },
  ];
}

function drawNearest({ figures }: LetGoCase, project: Project, write: Write, most: number): readonly Primitive[] {
  const near = (figures?.nearest ?? []).filter(({ distanceM }) => distanceM < NEAR_M).slice(0, most);
  return near.flatMap(({ what, distanceM, yoke }, k): Primitive[] => {
    const hit = figures?.hits.find((h) => h.what === what);
    const text = hit
      ? `hits ${what}, ${write(hit.speedMS, "speed")}`
      : distanceM <= 0
        ? `touches ${what}`
        : `${write(distanceM, "length")} from ${what}`;
    const at = project(yoke);
    return [
      {
        kind: "mark",
        at,
        shape: "square",
        sizePx: 8,
        style: { stroke: "hazard", fill: "paper", widthPx: 1.8 },
        title: text,
      },
      {
        kind: "text",
        at,
        text,
        align: "end",
        offsetPx: [-13, 18 + 14 * k],
        sizePx: 12,
        weight: "strong",
        tone: "hazard",
        ...(distanceM <= 0 || hit ? { sign: "cross" as const } : {}),
        halo: true,
        label: { priority: 88 - k },
      },
    ];
  });
}

/** The highest force at each rigging point that feels any. */
function drawPeaks({ figures }: LetGoCase, project: Project, scale: number, write: Write): readonly Primitive[] {
  return (figures?.points ?? [])
    .filter(({ peakN }) => peakN.high > LEAST_N)
    .flatMap((point): Primitive[] => {
      const from = project(point.at);
      const to = project(addScaled(point.at, point.forceN, 1 / scale));
      const text = `at most ${mostText(point.peakN, "force", write)}`;
      return [
        { kind: "arrow", from, to, tone: "force", widthPx: 2.8, title: `${point.name}: ${text}` },
        {
          kind: "text",
          at: to,
          text,
          align: to[0] < from[0] ? "end" : "start",
          offsetPx: [to[0] < from[0] ? -10 : 10, 8],
          sizePx: 12,
          weight: "strong",
          tone: "force",
          halo: true,
          label: { priority: 86, keep: true },
        },
      ];
    });
}

const LEAST_N = 1;
