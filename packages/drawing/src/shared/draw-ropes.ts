import { asSite, type SiteVector } from "@gantline/engine";
import type { Evaluation, Plan, RunningLine, TravelCase } from "@gantline/plan";
import type { KeyEntry, Primitive, WorldPoint } from "../primitives.ts";
import { type RopeLook, ropeLooks } from "./rope-look.ts";
import type { Write } from "./write.ts";

type Project = (p: SiteVector) => WorldPoint;

/** Two main lines that run one over the other are drawn this far apart to each side, px. */
const APART_PX = 1.9;
/** The part from the load carries the label while it is drawn at least this share of the longest part. */
const SEEN_SHARE = 0.25;

/** The riding pulley is a node of the tether and of the ropes it rides; `drawTether` draws it once. */
const RIDER = "rider";

/** Every rope in its own line, sheaves as rings, brakes as squares, hands as a ring with a dot; each tagged with its letter and its pull. */
export function drawRopes(
  evaluation: Evaluation,
  travel: TravelCase | null,
  project: Project,
  write: Write,
  sideBySide: boolean,
): readonly Primitive[] {
  const looks = ropeLooks(evaluation.lines);
  const mains = evaluation.lines.filter((l) => l.role === "main").length;
  return evaluation.lines.flatMap((line, k): Primitive[] => {
    const look = looks.get(line.id) as RopeLook;
    const points = line.nodes.map((n) => project(n.at));
    const part = labelledPart(points);
    const pull = travel ? line.tensionsN[travel][part] : undefined;
    const says = line.slack ? "slack" : pull === undefined ? "" : write(pull, "force");
    const title = `${line.name}${says ? `, ${says}` : ""}`;
    const shifts = look.pairPx
      ? [look.pairPx / 2, -look.pairPx / 2]
      : [sideBySide && mains > 1 && line.role === "main" ? (k === 0 ? APART_PX : -APART_PX) : 0];
    const long = line.role === "tether" ? `, ${write(line.pathM, "length")}` : "";
    const a = points[part] ?? [0, 0];
    const b = points[part + 1] ?? a;
    const t = line.role === "main" ? 0.42 + 0.12 * k : 0.55;
    return [
      ...shifts.map(
        (shiftPx): Primitive => ({ kind: "path", points, closed: false, style: look.style, title, shiftPx }),
      ),
      ...line.nodes.flatMap((node, i) =>
        i === 0 || node.id === RIDER
          ? []
          : drawNode(project(node.at), `${line.name}: ${node.name}`, look, i === line.nodes.length - 1, line.role),
      ),
      {
        kind: "text",
        at: [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t],
        text: `${look.tag}${says ? `  ${says}${long}` : ""}`,
        align: line.role === "main" && k === 1 ? "start" : "end",
        offsetPx: [line.role === "main" && k === 1 ? 9 : -9, 4],
        sizePx: 12,
        weight: "strong",
        tone: look.tone,
        halo: true,
        label: { priority: 60, keep: true, along: [a, b] },
      },
    ];
  });
}

/** The part from the load, unless it is seen nearly end on; then the longest. */
function labelledPart(points: readonly WorldPoint[]): number {
  const lengths = points
    .slice(1)
    .map((p, i) => Math.hypot(p[0] - (points[i] as WorldPoint)[0], p[1] - (points[i] as WorldPoint)[1]));
  const longest = Math.max(0, ...lengths);
  return (lengths[0] ?? 0) >= SEEN_SHARE * longest ? 0 : lengths.indexOf(longest);
}

function drawNode(
  at: WorldPoint,
  title: string,
  look: RopeLook,
  last: boolean,
  role: RunningLine["role"],
): readonly Primitive[] {
  const stroke = look.tone;
  if (!last) return [{ kind: "circle", at, radiusPx: 4.5, style: { stroke, fill: "paper", widthPx: 1.6 }, title }];
  if (role === "main")
    return [{ kind: "mark", at, shape: "square", sizePx: 9, style: { stroke, fill: "paper", widthPx: 1.8 }, title }];
  return [
    { kind: "circle", at, radiusPx: 6, style: { stroke, fill: "paper", widthPx: 1.6 }, title },
    { kind: "circle", at, radiusPx: 2, style: { fill: stroke } },
  ];
}

/** Who stands at each tagline: its letter and how many people; drawn even where nothing could be solved. */
export function drawHandlers(
  plan: Plan,
  evaluation: Evaluation,
  project: Project,
  aside: (p: SiteVector) => string,
): readonly Primitive[] {
  const taglines = plan.rig.taglines.map((t) => ({ ...t, role: "tagline" as const }));
  const looks = ropeLooks(taglines);
  const solved = new Set(evaluation.lines.map((l) => l.id));
  return taglines.flatMap((t): Primitive[] => {
    const handler = asSite(t.handler);
    const at = project(handler);
    const look = looks.get(t.id) as RopeLook;
    const hands: Primitive[] = solved.has(t.id)
      ? []
      : [{ kind: "circle", at, radiusPx: 6, style: { stroke: "tagline", fill: "paper", widthPx: 1.6 } }];
    const people = `${t.people} ${t.people === 1 ? "person" : "people"}`;
    return [
      ...hands,
      {
        kind: "text",
        at,
        text: `${look.tag}  ${t.name}, ${people}${aside(handler)}`,
        align: "middle",
        offsetPx: [0, -13],
        sizePx: 12,
        tone: "tagline",
        halo: true,
        label: { priority: 55, keep: true },
      },
    ];
  });
}

/** The key to the ropes. */
export function ropeKey(evaluation: Evaluation): readonly KeyEntry[] {
  const looks = ropeLooks(evaluation.lines);
  return evaluation.lines.map((line) => {
    const look = looks.get(line.id) as RopeLook;
    const pair = look.pairPx === undefined ? {} : { pairPx: look.pairPx };
    return { style: look.style, text: `${look.tag}  ${line.name}`, ...pair };
  });
}
