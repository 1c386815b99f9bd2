import { addScaled, type SiteVector } from "@gantline/engine";
import type { AerialForces, Evaluation, TravelCase } from "@gantline/plan";
import type { Primitive, WorldPoint } from "../primitives.ts";
import { ropeLooks } from "../shared/rope-look.ts";
import { forcesAlong, type PlaceForce } from "../shared/shown-forces.ts";
import type { Write } from "../shared/write.ts";
import type { DrawnSection } from "./section-frame.ts";

/** Forces shorter than this share of the largest are not drawn. */
const LEAST_SHARE = 0.02;
/** Arrows this near to each other, with forces this alike, share one label. */
const TOGETHER_M = 0.8;
const ALIKE = 0.04;

/** What the ropes do to the tip, whole and in parts along and square to the ladder, and to every redirect, brake and pair of hands. */
export function drawForces(
  evaluation: Evaluation,
  felt: AerialForces,
  travel: TravelCase,
  frame: DrawnSection,
  scaleNPerM: number,
  write: Write,
): readonly Primitive[] {
  return [
    ...tipForces(evaluation, felt, frame, scaleNPerM, write),
    ...placeForces(evaluation, felt, travel, frame, scaleNPerM, write),
  ];
}

function tipForces(
  evaluation: Evaluation,
  felt: AerialForces,
  frame: DrawnSection,
  scaleNPerM: number,
  write: Write,
): readonly Primitive[] {
  if (felt.points.length === 0) return [];
  const { axes } = evaluation.geometry.posed;
  const { compressionN, normalN, lateralN, resultantN } = felt.inBeam;
  const mean = felt.points.reduce((sum, p) => addScaled(sum, p.at, 1 / felt.points.length), [
    0, 0, 0,
  ] as unknown as SiteVector);
  const from = frame.toSection(mean);
  const end = (v: SiteVector, size: number): WorldPoint => frame.toSection(addScaled(mean, v, size / scaleNPerM));
  const whole = frame.toSection(addScaled(mean, felt.resultantN, 1 / scaleNPerM));
  const along = end(axes.axial, -compressionN);
  const square = end(axes.normal, normalN);
  const part = (to: WorldPoint, text: string): readonly Primitive[] => [
    { kind: "arrow", from, to, tone: "force", widthPx: 1.3, dash: "dashed", title: text },
    {
      kind: "text",
      at: to,
      text,
      align: to[0] <= from[0] ? "end" : "start",
      offsetPx: [to[0] <= from[0] ? -7 : 7, 6],
      sizePx: 11,
      tone: "force",
      halo: true,
      label: { priority: 58 },
    },
  ];
  const enough = (n: number): boolean => Math.abs(n) > LEAST_SHARE * resultantN;
  return [
    ...(enough(compressionN) && enough(normalN)
      ? [
          ...part(along, `${write(Math.abs(compressionN), "force")} along`),
          ...part(square, `${write(Math.abs(normalN), "force")} square`),
        ]
      : []),
    { kind: "arrow", from, to: whole, tone: "force", widthPx: 2.8, title: "Force of the ropes on the tip" },
    {
      kind: "text",
      at: whole,
      text: `${write(resultantN, "force")} on the tip`,
      align: "end",
      offsetPx: [-10, 4],
      sizePx: 12,
      weight: "strong",
      tone: "force",
      halo: true,
      label: { priority: 85, keep: true },
    },
    ...(enough(lateralN) ? [aside(whole, `${write(Math.abs(lateralN), "force")} sideways`)] : []),
  ];
}

/** What of the pull on the tip this section cannot show. */
const aside = (at: WorldPoint, text: string): Primitive => ({
  kind: "text",
  at,
  text,
  align: "end",
  offsetPx: [-10, 18],
  sizePx: 11,
  tone: "force",
  halo: true,
  label: { priority: 59 },
});

function placeForces(
  evaluation: Evaluation,
  felt: AerialForces,
  travel: TravelCase,
  frame: DrawnSection,
  scaleNPerM: number,
  write: Write,
): readonly Primitive[] {
  const looks = ropeLooks(evaluation.lines);
  const least = LEAST_SHARE * felt.inBeam.resultantN;
  const forces = evaluation.lines
    .flatMap((line) => forcesAlong(line, travel))
    .filter((f) => f.role !== "tip" && f.sizeN > least);
  const arrow = (f: PlaceForce): { from: WorldPoint; to: WorldPoint } => ({
    from: frame.toSection(f.at),
    to: frame.toSection(addScaled(f.at, f.forceN, 1 / scaleNPerM)),
  });
  const arrows = forces.map(
    (f): Primitive => ({
      kind: "arrow",
      ...arrow(f),
      tone: "force",
      widthPx: 1.6,
      title: `${f.nodeName}: ${write(f.sizeN, "force")}`,
    }),
  );
  const labelled = forces.filter((f) => f.role === "redirect" || looks.get(f.lineId)?.tone !== "tagline");
  const labels = grouped(labelled, (f) => arrow(f).to).map((group): Primitive => {
    const first = group[0] as PlaceForce;
    const tags = [...new Set(group.map((f) => looks.get(f.lineId)?.tag ?? ""))].join(", ");
    const { from, to } = arrow(first);
    return {
      kind: "text",
      at: to,
      text: `${tags} ${write(first.sizeN, "force")}${group.length > 1 ? " each" : ""}`,
      align: to[0] < from[0] ? "end" : "start",
      offsetPx: [to[0] < from[0] ? -6 : 6, to[1] > from[1] ? -4 : 10],
      sizePx: 11,
      tone: "force",
      halo: true,
      label: { priority: 35 },
    };
  });
  return [...arrows, ...labels];
}

/** Forces whose arrows end close together and are alike in size, brought together in order. */
function grouped(
  forces: readonly PlaceForce[],
  endOf: (f: PlaceForce) => WorldPoint,
): readonly (readonly PlaceForce[])[] {
  const groups: PlaceForce[][] = [];
  for (const force of forces) {
    const [x, y] = endOf(force);
    const home = groups.find(([first]) => {
      if (!first || first.lineId === force.lineId) return false;
      const [fx, fy] = endOf(first);
      return (
        Math.hypot(x - fx, y - fy) < TOGETHER_M &&
        Math.abs(first.sizeN - force.sizeN) <= ALIKE * Math.max(first.sizeN, force.sizeN)
      );
    });
    if (home) home.push(force);
    else groups.push([force]);
  }
  return groups;
}
