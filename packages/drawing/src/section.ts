import { asSite, norm } from "@gantline/engine";
import { type Evaluation, type Plan, poseAt, stageWay, type TravelCase, type When } from "@gantline/plan";
import type { Bounds, Drawing, Handle, WorldPoint } from "./primitives.ts";
import { cutStructures, type StructureInSection } from "./section/cut-structures.ts";
import { drawDimensions } from "./section/draw-dimensions.ts";
import { drawForces } from "./section/draw-forces.ts";
import { drawGround } from "./section/draw-ground.ts";
import { drawLadder } from "./section/draw-ladder.ts";
import { drawPowerLines } from "./section/draw-power-lines.ts";
import { drawCutStructures, drawSeenStructures } from "./section/draw-structures.ts";
import { drawVehicle } from "./section/draw-vehicle.ts";
import { groundProfile } from "./section/ground-profile.ts";
import { type DrawnSection, sectionFrame } from "./section/section-frame.ts";
import { boundsOf, cornersOf } from "./shared/bounds.ts";
import { drawClearances } from "./shared/draw-clearances.ts";
import { drawLetOut } from "./shared/draw-let-out.ts";
import { drawLoad } from "./shared/draw-load.ts";
import { drawMarked } from "./shared/draw-marked.ts";
import { drawPlaces } from "./shared/draw-places.ts";
import { drawHandlers, drawRopes, ropeKey } from "./shared/draw-ropes.ts";
import { drawStatus } from "./shared/draw-status.ts";
import { drawSwept } from "./shared/draw-swept.ts";
import { drawTether } from "./shared/draw-tether.ts";
import { drawUnsolved } from "./shared/draw-unsolved.ts";
import { drawWay, wayHandles } from "./shared/draw-way.ts";
import { forceScaleNPerM } from "./shared/force-scale.ts";
import { momentText } from "./shared/moment-text.ts";
import { CASE_TEXT, feltAt, shownCase } from "./shared/shown-forces.ts";
import { statusWords } from "./shared/status-sign.ts";
import type { ViewOptions } from "./shared/view-options.ts";
import { type Write, writer } from "./shared/write.ts";

export interface SectionOptions extends ViewOptions {
  /** Which forces to show; left out, the case that bears hardest on the tip. */
  readonly forceCase?: TravelCase;
  /** False leaves off the figures of the pose: lengths, heights, elevation. */
  readonly measures?: boolean;
}

/** Width to height of a usual sheet: structures are shown whole while they fit it. */
const SHEET_SHAPE = 1.45;
/** A gap deeper than this share of the drawing's height runs off the sheet. */
const DEEPEST_SHARE = 0.35;
/** A thing this far off the plane is said to be, m. */
const OFF_PLANE_M = 1;

/**
 * What does the vertical plane through the ladder show?
 * World points are [level distance from the turntable's centre along the ladder's bearing, height on the site], m.
 * Where the statics could not be solved the ropes' forces are left off; all else is drawn.
 */
export function drawSection(plan: Plan, evaluation: Evaluation, options: SectionOptions): Drawing {
  const { system, forceCase, evolution, letOut, marked = null, swept = [], measures = true } = options;
  const bare = evolution !== undefined && plan.rig.load.parts.length === 0;
  const write = writer(system);
  const frame = sectionFrame(plan);
  const structures = cutStructures(plan, evaluation, frame);
  const bounds = sectionBounds(plan, evaluation, frame, structures, evolution);
  const wide = bounds.maxX - bounds.minX;
  const travel = shownCase(evaluation, forceCase);
  const felt = feltAt(evaluation, travel);
  const scale = forceScaleNPerM(felt ? norm(felt.resultantN) : 0, Math.min(wide, bounds.maxY - bounds.minY), system);
  const aside = (p: Parameters<DrawnSection["before"]>[0]): string => {
    const off = frame.before(p);
    return Math.abs(off) < OFF_PLANE_M ? "" : `, ${write(Math.abs(off), "length")} ${off > 0 ? "this side" : "beyond"}`;
  };
  return {
    id: "section",
    title: "Section along the ladder",
    bounds,
    primitives: [
      ...drawSwept(swept, frame.toSection),
      ...drawSeenStructures(structures),
      ...drawPowerLines(plan, evaluation, frame, write, "beyond"),
      ...drawGround(groundProfile(plan, frame, bounds.minX - wide, bounds.maxX + wide), write),
      ...drawCutStructures(structures, write),
      ...drawPowerLines(plan, evaluation, frame, write, "near"),
      ...drawVehicle(plan, evaluation, frame),
      ...drawLadder(plan, evaluation, frame),
      ...(measures ? drawDimensions(plan, evaluation, frame, bounds, write) : []),
      ...drawPlaces(plan, frame.toSection, aside),
      ...drawWay(plan, evolution, frame.toSection),
      ...drawLoad(evaluation, frame.toSection, write, bare),
      ...drawRopes(evaluation, travel, frame.toSection, write, true),
      ...drawTether(evaluation, frame.toSection),
      ...drawHandlers(plan, evaluation, frame.toSection, aside),
      ...drawUnsolved(plan, evaluation, frame.toSection, system, bare),
      ...(felt && travel ? drawForces(evaluation, felt, travel, frame, scale, write) : []),
      ...drawLetOut(plan, letOut, frame.toSection, write),
      ...drawClearances(evaluation, frame.toSection, write, bare),
      ...drawStatus(evaluation, frame.toSection, bare, marked),
      ...drawMarked(marked, frame.toSection, bare),
    ],
    handles: sectionHandles(plan, evaluation, frame, write, evolution),
    description: describe(plan, evaluation, write) + momentText(plan, evolution),
    forceScaleNPerM: scale,
    forceCaseText: felt && travel ? CASE_TEXT[travel] : null,
    key: ropeKey(evaluation),
    wind: null,
  };
}

/** Vehicle, ladder, load, ropes and places, and the structures that stand among them. */
function sectionBounds(
  plan: Plan,
  evaluation: Evaluation,
  frame: DrawnSection,
  structures: readonly StructureInSection[],
  when: When | undefined,
): Bounds {
  const { geometry, load } = evaluation;
  const points = [
    geometry.posed.tip,
    geometry.posed.pivot,
    ...geometry.vehicleSolid.vertices,
    ...(geometry.platform?.vertices ?? []),
    ...geometry.jacks.map((j) => j.at),
    load.yoke,
    ...load.box.vertices,
    ...plan.rig.taglines.map((t) => asSite(t.handler)),
    ...[plan.scene.casualty, plan.scene.destination].flatMap((p) => (p ? [asSite(p.position)] : [])),
    ...(when ? plan.evolution.stages.flatMap((_, i) => stageWay(plan, i)) : []),
  ].map(frame.toSection);
  const near = boundsOf(points);
  const cut = structures.filter((s) => s.cut.length > 0).flatMap((s) => cornersOf(s.seen));
  const wide = near.maxX - near.minX;
  const all = boundsOf([...points, ...cut]);
  const spare = Math.max(0.3 * wide, SHEET_SHAPE * (all.maxY - near.minY) - wide);
  const right = Math.min(all.maxX - near.maxX, spare);
  const left = Math.min(near.minX - all.minX, spare - right);
  const standing = cut.map(([x, y]): WorldPoint => [Math.min(near.maxX + right, Math.max(near.minX - left, x)), y]);
  const deepest = near.minY - DEEPEST_SHARE * (all.maxY - near.minY);
  const ground = groundProfile(plan, frame, near.minX - left, near.maxX + right).line.map(
    ([x, y]): WorldPoint => [x, Math.max(deepest, y)],
  );
  return boundsOf([...points, ...standing, ...ground], 0.6);
}

function sectionHandles(
  plan: Plan,
  evaluation: Evaluation,
  frame: DrawnSection,
  write: Write,
  when: When | undefined,
): readonly Handle[] {
  const { posed } = evaluation.geometry;
  const yoke = frame.toSection(evaluation.load.yoke);
  const wanted = frame.toSection(evaluation.load.wanted);
  const place = ([x, y]: WorldPoint): string => `${write(x, "length")} out, ${write(y, "length")} up`;
  const taglines = plan.rig.taglines.flatMap((t): Handle[] => {
    const at = frame.toSection(asSite(t.handler));
    const inPlane = Math.abs(at[0] - yoke[0]);
    const aside = Math.abs(frame.before(asSite(t.handler)) - frame.before(evaluation.load.yoke));
    return inPlane >= aside ? [{ id: `tagline:${t.id}`, at, label: `${t.name}, hands`, valueText: place(at) }] : [];
  });
  return [
    ...(when && poseAt(plan, when) === null
      ? []
      : [
          {
            id: "tip",
            at: frame.toSection(posed.tip),
            label: "Ladder tip",
            valueText: `${write(posed.elevationRad, "angle")}, ${write(posed.lengthM, "length")}`,
          },
        ]),
    ...(plan.rig.load.drive === "position" && !when
      ? [{ id: "load", at: wanted, label: "Load, at the yoke", valueText: place(wanted) }]
      : []),
    ...wayHandles(plan, when, frame.toSection, place),
    ...taglines,
  ];
}

function describe(plan: Plan, evaluation: Evaluation, write: Write): string {
  const { posed } = evaluation.geometry;
  const worst = evaluation.ledger.find((c) => c.id === evaluation.worst.checkId);
  const finding = worst ? ` Worst check: ${worst.subject}, ${statusWords(worst)}.` : "";
  const held =
    evaluation.holding.state === "held"
      ? ""
      : evaluation.holding.state === "drifts"
        ? " The load is not held where it is wanted."
        : " The forces could not be worked out.";
  return (
    `Section along the ladder of ${plan.aerial.device.name}: elevation ${write(posed.elevationRad, "angle")}, length ${write(posed.lengthM, "length")}, ` +
    `tip at ${write(posed.tip[2], "length")}, load's yoke at ${write(evaluation.load.yoke[2], "length")}.${held}${finding}`
  );
}
