import type { Drawing, Handle, Primitive, WorldPoint } from "@gantline/drawing";
import {
  type LetOut,
  type Plan,
  planSectionFrame,
  poseAt,
  stageWay,
  toSection,
  type UnitSystem,
  type When,
  writeAmount,
} from "@gantline/plan";

type SitePlace = readonly [number, number, number];

interface Way {
  /** The plan at the moment that is drawn. */
  readonly plan: Plan;
  readonly when: When | null;
  /** The line whose letting go is to be seen. */
  readonly letOut: LetOut | null;
  readonly system: UnitSystem;
}

/**
 * A drawing of one moment with the load's way through all stages, the way points of the stage that is looked at as things to
 * move, and the swing if a line were let go. Without a moment the drawing stays as it is, but for that swing.
 */
export function withWay(drawing: Drawing, { plan, when, letOut, system }: Way): Drawing {
  const frame = planSectionFrame(plan);
  const seen = (p: SitePlace): WorldPoint => {
    if (drawing.id === "plan") return [p[0], p[1]];
    const { acrossM, upM } = toSection(frame, p);
    return [acrossM, upM];
  };
  const swing = letOut === null ? [] : swingPrimitives(letOut, seen);
  if (when === null)
    return swing.length === 0 ? drawing : { ...drawing, primitives: [...drawing.primitives, ...swing] };
  const write = (value: number) => writeAmount({ value, quantity: "length" }, system);
  const [first, second] = drawing.id === "section" ? ["out", "up"] : ["east", "north"];
  const place = ([x, y]: WorldPoint) => `${write(x)} ${first}, ${write(y)} ${second}`;
  const points = placesOfStage(plan, when.stage).map(({ id, label, at }): Handle => {
    const drawn = seen(at);
    return { id, at: drawn, label, valueText: place(drawn) };
  });
  const fixed = poseAt(plan, when) === null ? ["load", "tip"] : ["load"];
  return {
    ...drawing,
    primitives: [...drawing.primitives, ...wayPrimitives(plan, when.stage, seen), ...swing],
    handles: [...drawing.handles.filter(({ id }) => !fixed.includes(id)), ...points],
  };
}

/** The places of one stage's way that can be moved: where it begins, as the stage or the start that set it, and its own. */
function placesOfStage(plan: Plan, stage: number) {
  const { startM, stages } = plan.evolution;
  const own = (index: number) =>
    (stages[index]?.path ?? []).map((at, point) => ({
      id: `waypoint:${index}:${point}`,
      label: `Stage ${index + 1}, way point ${point + 1}`,
      at: at as SitePlace,
    }));
  let before: ReturnType<typeof own>[number] | undefined;
  for (let index = stage - 1; index >= 0 && before === undefined; index--) before = own(index).at(-1);
  return [before ?? { id: "start", label: "Start of the way", at: startM as SitePlace }, ...own(stage)];
}

function wayPrimitives(plan: Plan, current: number, seen: (p: SitePlace) => WorldPoint): Primitive[] {
  return plan.evolution.stages.flatMap((stage, index): Primitive[] => {
    if (stage.path.length === 0) return [];
    const points = stageWay(plan, index).map(seen);
    const shown = index === current;
    const end = points.at(-1) as WorldPoint;
    return [
      {
        kind: "path",
        points,
        closed: false,
        style: { stroke: "accent", widthPx: shown ? 2.6 : 1.2, ...(shown ? {} : { dash: "dashed" as const }) },
        title: `Way of the yoke in stage ${index + 1}, ${stage.name}`,
      },
      ...points.slice(1).map((at): Primitive => ({ kind: "circle", at, radiusPx: 3, style: { fill: "accent" } })),
      {
        kind: "text",
        at: end,
        text: String(index + 1),
        align: "start",
        offsetPx: [9, -9],
        sizePx: 13,
        tone: "accent",
        weight: "strong",
        halo: true,
        label: { priority: shown ? 60 : 35 },
      },
    ];
  });
}

function swingPrimitives({ name, arc, farAt }: LetOut, seen: (p: SitePlace) => WorldPoint): Primitive[] {
  const points = arc.map((p) => seen([p[0], p[1], p[2]]));
  const end = seen([farAt[0], farAt[1], farAt[2]]);
  return [
    {
      kind: "path",
      points,
      closed: false,
      style: { stroke: "hazard", widthPx: 2.4, dash: "dotted" },
      title: `Swing of the yoke if ${name} is let go`,
    },
    { kind: "mark", at: end, shape: "ring", sizePx: 12, style: { stroke: "hazard", widthPx: 2 } },
    {
      kind: "text",
      at: end,
      text: `${name} let go: swings to here`,
      align: "middle",
      offsetPx: [0, 20],
      sizePx: 13,
      tone: "hazard",
      halo: true,
      label: { priority: 90, keep: true },
    },
  ];
}
