import { asSite, distance, type SiteVector } from "@gantline/engine";
import { alongWay, type Plan, stageStart, stageWay, type When } from "@gantline/plan";
import type { Handle, Primitive, WorldPoint } from "../primitives.ts";

type Project = (p: SiteVector) => WorldPoint;

/** The yoke's way through all stages in a thin line with their numbers; the stage that is looked at strong, with its way points. */
export function drawWay(plan: Plan, when: When | undefined, project: Project): readonly Primitive[] {
  if (!when) return [];
  const ways = plan.evolution.stages.map((_, i) => (stageMoves(plan, i) ? stageWay(plan, i).map(project) : []));
  const others = ways.filter((way, i) => i !== when.stage && way.length > 1);
  const own = ways[when.stage] ?? [];
  return [
    ...(others.length > 0
      ? [
          {
            kind: "paths",
            parts: others,
            closed: false,
            style: { stroke: "load", widthPx: 0.9, dash: "dashed" },
            title: "Way of the yoke in the other stages",
          } as const,
        ]
      : []),
    ...stageNumbers(ways, when.stage),
    ...(own.length > 1 ? ownWay(plan, own, when.stage) : []),
  ];
}

const stageMoves = (plan: Plan, stage: number): boolean => (plan.evolution.stages[stage]?.path.length ?? 0) > 0;

/** The numbers of the stages that end at a place, side by side; several stages may end at one. */
function stageNumbers(ways: readonly (readonly WorldPoint[])[], shown: number): readonly Primitive[] {
  const ends: { at: WorldPoint; stages: number[] }[] = [];
  for (const [i, way] of ways.entries()) {
    const end = way.at(-1);
    if (!end || way.length < 2) continue;
    const home = ends.find(({ at }) => Math.hypot(at[0] - end[0], at[1] - end[1]) < 0.3);
    if (home) home.stages.push(i);
    else ends.push({ at: end, stages: [i] });
  }
  return ends.flatMap(({ at, stages }): Primitive[] => [
    { kind: "circle", at, radiusPx: 2.6, style: { fill: "load" } },
    {
      kind: "text",
      at,
      text: stages.map((i) => i + 1).join(", "),
      align: "start",
      offsetPx: [8, -6],
      sizePx: 12,
      tone: "load",
      halo: true,
      ...(stages.includes(shown) ? { weight: "strong" as const } : {}),
      label: { priority: stages.includes(shown) ? 62 : 32 },
    },
  ]);
}

function ownWay(plan: Plan, way: readonly WorldPoint[], stage: number): readonly Primitive[] {
  const [beforeLast, last] = [way[way.length - 2] as WorldPoint, way[way.length - 1] as WorldPoint];
  const middle: WorldPoint = [(beforeLast[0] + last[0]) / 2, (beforeLast[1] + last[1]) / 2];
  return [
    {
      kind: "path",
      points: way,
      closed: false,
      style: { stroke: "load", widthPx: 2.2 },
      title: `Way of the yoke in stage ${stage + 1}, ${plan.evolution.stages[stage]?.name ?? ""}`,
    },
    { kind: "arrow", from: beforeLast, to: middle, tone: "load", widthPx: 2.2 },
    ...way.slice(1).map(
      (at, k): Primitive => ({
        kind: "mark",
        at,
        shape: "square",
        sizePx: 8,
        style: { stroke: "load", fill: "paper", widthPx: 1.6 },
        title: wayPointName(stage, k),
      }),
    ),
  ];
}

const wayPointName = (stage: number, point: number): string => `Stage ${stage + 1}, way point ${point + 1}`;

/** A place that can be moved, where it is on the site. */
interface Place {
  readonly handle: Handle;
  readonly at: SiteVector;
}

/**
 * What a hand can move of a stage's way: the place it starts from, as the way point of the stage before (or `start`) that
 * sets it, and its own way points `waypoint:<stage>:<point>`, both counted from 0. Of those that lie behind each other as
 * seen here only one is handed out, so that each can be taken hold of: the stage's own one nearest to the moment shown.
 * The other view, which sees them side by side, has the rest.
 */
export function wayHandles(
  plan: Plan,
  when: When | undefined,
  project: Project,
  place: (at: WorldPoint) => string,
): readonly Handle[] {
  if (!when || !plan.evolution.stages[when.stage]) return [];
  const placeOf = (id: string, label: string, p: SiteVector): Place => {
    const at = project(p);
    return { handle: { id, at, label, valueText: place(at) }, at: p };
  };
  const pointsOf = (stage: number): readonly Place[] =>
    (plan.evolution.stages[stage]?.path ?? []).map((p, k) =>
      placeOf(`waypoint:${stage}:${k}`, wayPointName(stage, k), asSite(p)),
    );
  const before = Array.from({ length: when.stage }, (_, i) => when.stage - 1 - i).find((i) => stageMoves(plan, i));
  const from =
    before === undefined ? placeOf("start", "Start of the way", stageStart(plan, 0)) : pointsOf(before).at(-1);
  const own = pointsOf(when.stage);
  const shown = alongWay(stageWay(plan, when.stage), when.along);
  const nearestFirst = [...own].sort((a, b) => distance(a.at, shown) - distance(b.at, shown));
  const apart: Place[] = [];
  for (const one of [...nearestFirst, ...(from ? [from] : [])])
    if (!apart.some((other) => isBehind(one, other))) apart.push(one);
  return [...(from ? [from] : []), ...own].filter((one) => apart.includes(one)).map(({ handle }) => handle);
}

/** Two places nearer to each other on the drawing than this get in each other's way, where the drawing hides how far apart they are, m. */
const IN_THE_WAY_M = 1;
/** Share of their true distance that is seen of two places one behind the other, at most. */
const SEEN_SHARE = 1 / 3;

function isBehind(a: Place, b: Place): boolean {
  const seenM = Math.hypot(a.handle.at[0] - b.handle.at[0], a.handle.at[1] - b.handle.at[1]);
  return seenM < IN_THE_WAY_M && seenM < SEEN_SHARE * distance(a.at, b.at);
}
