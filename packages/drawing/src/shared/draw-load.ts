import { add, type SiteVector, subtract } from "@gantline/engine";
import type { Evaluation } from "@gantline/plan";
import type { Primitive, WorldPoint } from "../primitives.ts";
import { convexHull } from "./convex-hull.ts";
import type { Write } from "./write.ts";

type Project = (p: SiteVector) => WorldPoint;

/**
 * The load as it hangs: yoke, bridle legs, its box with how many persons; and, where nothing holds it in the wanted place, that place too.
 * @param bare a moment with nothing on the ropes: the yoke alone
 */
export function drawLoad(evaluation: Evaluation, project: Project, write: Write, bare: boolean): readonly Primitive[] {
  const { load, holding } = evaluation;
  const yoke = project(load.yoke);
  if (bare) return [yokeMark(yoke), nothingText(yoke)];
  const box = load.box.vertices.map(project);
  const outline = convexHull(box);
  const legs = load.bridleFeet.map((foot): readonly [WorldPoint, WorldPoint] => [yoke, project(foot)]);
  const persons = load.persons === 0 ? "no person" : load.persons === 1 ? "1 person" : `${load.persons} persons`;
  const low = outline.reduce((a, b) => (b[1] < a[1] ? b : a), yoke);
  const centre: WorldPoint = [box.reduce((s, p) => s + p[0], 0) / Math.max(1, box.length), low[1]];
  return [
    ...(holding.state === "drifts" ? drawDrift(evaluation, project) : []),
    {
      kind: "path",
      points: outline,
      closed: true,
      style: { stroke: "load", fill: "paper", widthPx: 1.8 },
      title: "Load",
    },
    { kind: "path", points: outline, closed: true, style: { fill: "load", fillOpacity: 0.16 } },
    { kind: "strokes", lines: legs, style: { stroke: "load", widthPx: 1.3 }, title: "Bridle" },
    yokeMark(yoke),
    {
      kind: "text",
      at: centre,
      text: `Load: ${persons}, ${load.massKg === null ? "mass unknown" : write(load.massKg, "mass")}`,
      align: "middle",
      offsetPx: [0, 17],
      sizePx: 12,
      weight: "strong",
      tone: "load",
      halo: true,
      label: { priority: 65, keep: true },
    },
  ];
}

const yokeMark = (at: WorldPoint): Primitive => ({
  kind: "mark",
  at,
  shape: "diamond",
  sizePx: 9,
  style: { stroke: "load", fill: "paper", widthPx: 1.8 },
  title: "Yoke",
});

const nothingText = (at: WorldPoint): Primitive => ({
  kind: "text",
  at,
  text: "nothing on the ropes",
  align: "start",
  offsetPx: [12, 4],
  sizePx: 12,
  weight: "strong",
  tone: "load",
  halo: true,
  label: { priority: 82, keep: true },
});

/** Where the load was wanted: its box, dashed, and an arrow from there to where it goes. */
function drawDrift(evaluation: Evaluation, project: Project): readonly Primitive[] {
  const { load } = evaluation;
  const by = subtract(load.wanted, load.yoke);
  const wanted = convexHull(load.box.vertices.map((v) => project(add(v, by))));
  const from = project(load.wanted);
  return [
    {
      kind: "path",
      points: wanted,
      closed: true,
      style: { stroke: "over", widthPx: 1.5, dash: "dashed" },
      title: "Where the load is wanted",
    },
    { kind: "arrow", from, to: project(load.yoke), tone: "over", widthPx: 1.8, dash: "dashed" },
    {
      kind: "text",
      at: from,
      text: "wanted here, not held",
      align: "start",
      offsetPx: [12, 4],
      sizePx: 12,
      weight: "strong",
      tone: "over",
      sign: "cross",
      halo: true,
      label: { priority: 90, keep: true },
    },
  ];
}
