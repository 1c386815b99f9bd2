import {
  add,
  addScaled,
  bearingVector,
  extrudedOutline,
  jackFeet,
  ladderSolid,
  movedSolid,
  type Outline,
  orientedBox,
  outlineCrossesItself,
  type PosedAerial,
  parapetSolids,
  platformSolid,
  polygonArea,
  riggingPointAt,
  type SiteVector,
  type Solid,
  site,
  tidyOutline,
  UP,
  vehiclePoint,
  vehicleSolid,
} from "@gantline/engine";
import type { Geometry } from "./evaluation.ts";
import { knownReach } from "./known-reach.ts";
import type { Plan } from "./schema/plan.ts";
import type { Load } from "./schema/rig.ts";
import type { Structure } from "./schema/scene.ts";

/** Outlines of less area than this enclose nothing, m². */
const LEAST_AREA_M2 = 1e-4;

const sound = new WeakMap<Outline, boolean>();

/** Does an outline enclose something and not cross itself? Kept by its identity, as a plan's parts never change in place. */
export function soundOutline(outline: Outline): boolean {
  const known = sound.get(outline);
  if (known !== undefined) return known;
  const found =
    tidyOutline(outline).length >= 3 && polygonArea(outline) >= LEAST_AREA_M2 && !outlineCrossesItself(outline);
  sound.set(outline, found);
  return found;
}

/** Everything that stands on the site, in the site frame, with the ladder as posed (or as sunk under load). */
export function placeGeometry(plan: Plan, posed: PosedAerial, unloadedTip: SiteVector): Geometry {
  const { device, place } = plan.aerial;
  const usedPoints = new Set(plan.rig.mainLines.map((l) => l.tip.pointId));
  const usedAnchors = new Set(
    plan.rig.mainLines
      .flatMap((l) => [...l.redirects.map((r) => r.anchorage), l.brake.anchorage])
      .flatMap((a) => (a.on === "vehicle" ? [a.anchorId] : [])),
  );
  const { frontM, rearM, leftM, rightM } = device.outline;
  const corner = (forwardM: number, right: number): SiteVector =>
    vehiclePoint(place, { forwardM, rightM: right, upM: 0 });
  const names = new Map(device.jacks.map((j) => [j.id, j.name]));
  return {
    posed,
    unloadedTip,
    riggingPoints: device.riggingPoints.map((p) => ({
      id: p.id,
      name: p.name,
      at: riggingPointAt(posed, p),
      used: usedPoints.has(p.id),
    })),
    ladder: ladderSolid(device, posed),
    platform: platformSolid(device, posed),
    vehicle: [corner(frontM, -leftM), corner(frontM, rightM), corner(-rearM, rightM), corner(-rearM, -leftM)],
    vehicleSolid: vehicleSolid(device, place),
    jacks: jackFeet(device, place, knownReach(plan)).map((f) => ({
      id: f.id,
      name: names.get(f.id) ?? f.id,
      at: f.position,
    })),
    anchors: device.anchors.map((a) => ({
      id: a.id,
      name: a.name,
      at: vehiclePoint(place, a),
      used: usedAnchors.has(a.id),
    })),
    structures: placeStructures(plan),
  };
}

/** The structures of a scene as solids; those whose outline encloses nothing are left out. */
export const placeStructures = ({ scene }: Plan): Geometry["structures"] =>
  scene.structures
    .filter((s) => soundOutline(s.outline))
    .map((s) => ({ id: s.id, name: s.name, solids: structureSolids(s) }));

const built = new WeakMap<Structure, readonly Solid[]>();

/** A structure as solids: its body, then its parapets. Kept by the structure's identity, as a plan's parts never change in place. */
function structureSolids(structure: Structure): readonly Solid[] {
  const known = built.get(structure);
  if (known) return known;
  const { outline, baseZM, topZM, parapetHeightM, parapetThicknessM } = structure;
  const body = extrudedOutline(outline, baseZM, topZM);
  const solids =
    parapetHeightM > 0 ? [body, ...parapetSolids(outline, parapetThicknessM, topZM, topZM + parapetHeightM)] : [body];
  built.set(structure, solids);
  return solids;
}

/** The load's box below a yoke, level, turned to its bearing, and the points where the bridle meets it. */
export function placeLoad(
  plan: Plan,
  yoke: SiteVector,
): { readonly box: Solid; readonly bridleFeet: readonly SiteVector[] } {
  const { box, bridleFeet } = loadShape(plan.rig.load);
  return { box: movedSolid(box, yoke), bridleFeet: bridleFeet.map((foot) => add(foot, yoke)) };
}

interface LoadShape {
  readonly bridle: Load["bridle"];
  readonly box: Solid;
  readonly bridleFeet: readonly SiteVector[];
}

/** Of each load's box, as last hung from its bridle: from moment to moment the load only goes elsewhere. */
const lastShape = new WeakMap<Load["box"], LoadShape>();

/** The load with its yoke at the origin. */
function loadShape({ box, bridle }: Load): LoadShape {
  const known = lastShape.get(box);
  if (known?.bridle === bridle) return known;
  const along = bearingVector(box.bearingRad);
  const across = bearingVector(box.bearingRad + Math.PI / 2);
  const top = site(0, 0, -bridle.heightM);
  const foot = (k: number): SiteVector => {
    if (bridle.legs === 1) return top;
    const angle = Math.PI / bridle.legs + (2 * Math.PI * k) / bridle.legs;
    const reach = bridle.spreadM;
    return addScaled(
      addScaled(top, along, reach * Math.cos(angle)),
      across,
      Math.min(reach, box.widthM / 2) * Math.sin(angle),
    );
  };
  const shape: LoadShape = {
    bridle,
    box: orientedBox(
      site(0, 0, -bridle.heightM - box.heightM / 2),
      [along, across, UP],
      [box.lengthM / 2, box.widthM / 2, box.heightM / 2],
    ),
    bridleFeet: Array.from({ length: bridle.legs }, (_, k) => foot(k)),
  };
  lastShape.set(box, shape);
  return shape;
}
