import {
  asSite,
  type PosedAerial,
  type RiggingPoint,
  riggingPointAt,
  type SiteVector,
  STANDARD_GRAVITY_MS2,
  vehiclePoint,
} from "@gantline/engine";
import type { GearOf } from "../schema/gear.ts";
import type { Plan } from "../schema/plan.ts";
import type { Anchorage, MainLine, Tagline, Tether } from "../schema/rig.ts";
import { gearOf } from "./gear-of.ts";

/** A place beyond the tip at which a main line turns or ends. */
export interface LaidAnchor {
  readonly id: string;
  readonly name: string;
  readonly at: SiteVector;
  readonly onVehicle: boolean;
}

/** A main line with its references looked up and its fixed places known. */
export interface LaidMain {
  readonly line: MainLine;
  readonly rope: GearOf<"rope"> | null;
  /** Weight of a metre of its rope, N/m; null: not known, and then left out. */
  readonly ropeNM: number | null;
  readonly point: RiggingPoint;
  readonly pointAt: SiteVector;
  /** Redirects in order, then the brake. */
  readonly anchors: readonly LaidAnchor[];
  /** Efficiency of the tip sheave, then of each redirect; null: not known. */
  readonly efficiencies: readonly (number | null)[];
}

export interface LaidTag {
  readonly line: Tagline;
  readonly rope: GearOf<"rope"> | null;
  readonly ropeNM: number | null;
  readonly handsAt: SiteVector;
}

export interface LaidTether {
  readonly line: Tether;
  readonly rope: GearOf<"rope"> | null;
  /** Of one rope of the tackle. */
  readonly ropeNM: number | null;
  /** Of the pulley that rides; null: not known. */
  readonly efficiency: number | null;
}

export interface LaidRig {
  readonly mains: readonly LaidMain[];
  readonly tags: readonly LaidTag[];
  readonly tether: LaidTether | null;
  /** What keeps a line from being laid, as "Main A uses rigging point \"x\", which this vehicle does not have". */
  readonly missing: readonly { readonly where: string; readonly says: string; readonly field: string }[];
  /** Names of the lines whose rope's weight is not known. */
  readonly unweighed: readonly string[];
}

/** Look up what the rig refers to and place it on the site, for the ladder as posed. */
export function layLines(plan: Plan, posed: PosedAerial): LaidRig {
  const missing: LaidRig["missing"][number][] = [];
  const mains: LaidMain[] = [];
  for (const [i, line] of plan.rig.mainLines.entries()) {
    const point = plan.aerial.device.riggingPoints.find((p) => p.id === line.tip.pointId);
    if (!point) {
      missing.push({
        where: line.name,
        says: `uses rigging point "${line.tip.pointId}", which this vehicle does not have`,
        field: `rig.mainLines[${i}].tip.pointId`,
      });
      continue;
    }
    if (point.on === "platform" && plan.aerial.device.platform === null) {
      missing.push({
        where: line.name,
        says: `uses rigging point "${line.tip.pointId}", which is on a platform that this vehicle does not have`,
        field: `rig.mainLines[${i}].tip.pointId`,
      });
      continue;
    }
    const ends = [
      ...line.redirects.map((r, k) => ({
        id: r.id,
        name: r.name,
        anchorage: r.anchorage,
        field: `rig.mainLines[${i}].redirects[${k}].anchorage`,
      })),
      { id: "brake", name: "Brake", anchorage: line.brake.anchorage, field: `rig.mainLines[${i}].brake.anchorage` },
    ];
    const anchors: LaidAnchor[] = [];
    for (const end of ends) {
      const at = anchorageAt(plan, end.anchorage);
      if (at) anchors.push({ id: end.id, name: end.name, at, onVehicle: end.anchorage.on === "vehicle" });
      else
        missing.push({
          where: `${line.name}, ${end.name.toLowerCase()}`,
          says: "is made fast to a vehicle anchor that this vehicle does not have",
          field: end.field,
        });
    }
    if (anchors.length < ends.length) continue;
    mains.push({
      line,
      ...roped(plan, line.rope),
      point,
      pointAt: riggingPointAt(posed, point),
      anchors,
      efficiencies: [line.tip.sheave, ...line.redirects.map((r) => r.sheave)].map(
        (id) => gearOf(plan, "sheave", id)?.efficiency ?? null,
      ),
    });
  }
  const tags = plan.rig.taglines.map((line) => ({
    line,
    ...roped(plan, line.rope),
    handsAt: asSite(line.handler),
  }));
  const tether = layTether(plan, mains, missing);
  const all = [...mains, ...tags, ...(tether ? [tether] : [])];
  return { mains, tags, tether, missing, unweighed: all.flatMap((l) => (l.ropeNM === null ? [l.line.name] : [])) };
}

/** A rope of the cache and what a metre of it weighs. */
function roped(plan: Plan, id: string): { readonly rope: GearOf<"rope"> | null; readonly ropeNM: number | null } {
  const rope = gearOf(plan, "rope", id);
  const massKgM = rope?.linearMassKgM ?? null;
  return { rope, ropeNM: massKgM === null ? null : massKgM * STANDARD_GRAVITY_MS2 };
}

function layTether(plan: Plan, mains: readonly LaidMain[], missing: LaidRig["missing"][number][]): LaidTether | null {
  const line = plan.rig.tether;
  if (line === null) return null;
  if (!line.rides.some((id) => mains.some((m) => m.line.id === id))) {
    missing.push({
      where: line.name,
      says: "rides no main line that is on the load",
      field: "rig.tether.rides",
    });
  }
  return {
    line,
    ...roped(plan, line.rope),
    efficiency: gearOf(plan, "sheave", line.pulley)?.efficiency ?? null,
  };
}

/** Where an anchorage is; null where the vehicle has no such anchor. */
export function anchorageAt(plan: Plan, anchorage: Anchorage): SiteVector | null {
  if (anchorage.on === "ground") return asSite(anchorage.position);
  const found = plan.aerial.device.anchors.find((a) => a.id === anchorage.anchorId);
  return found ? vehiclePoint(plan.aerial.place, found) : null;
}
