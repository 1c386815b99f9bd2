import { bearingVector, type SiteVector, STANDARD_GRAVITY_MS2, scale } from "@gantline/engine";
import type { Plan } from "../schema/plan.ts";

export interface LoadSum {
  /** null: a part's mass is not known, or nothing is on the ropes. */
  readonly massKg: number | null;
  readonly weightN: number | null;
  readonly persons: number;
  /** Names of the parts whose mass is not known. */
  readonly unweighed: readonly string[];
  /** Wind on the load, N; null: gust or drag area not known. */
  readonly windN: SiteVector | null;
}

/** Parts of a load that are people. */
export const PERSON_KINDS: ReadonlySet<string> = new Set(["casualty", "attendant", "rescuer"]);

/**
 * Stagnation pressure of wind over v², Pa per (m/s)²: half the density of air at 15 °C and sea level (1.225 kg/m³).
 * Source: ASCE 7, velocity pressure in SI, as quoted in crane practice; from a secondary source.
 */
export const WIND_PRESSURE_PA_PER_MS2 = 0.613;

/** What hangs from the yoke: mass, weight, people, and the push of the wind (q = 0.613 v², times drag area). */
export function sumLoad(plan: Plan): LoadSum {
  const { load } = plan.rig;
  const unweighed = load.parts.filter((p) => p.massKg === null).map((p) => p.name);
  const total = load.parts.reduce((sum, p) => sum + (p.massKg ?? 0), 0);
  const massKg = unweighed.length > 0 || total <= 0 ? null : total;
  const { gustMS, fromBearingRad } = plan.scene.wind;
  const push =
    gustMS === null || load.dragAreaM2 === null ? null : WIND_PRESSURE_PA_PER_MS2 * gustMS ** 2 * load.dragAreaM2;
  return {
    massKg,
    weightN: massKg === null ? null : massKg * STANDARD_GRAVITY_MS2,
    persons: load.parts.filter((p) => PERSON_KINDS.has(p.kind)).length,
    unweighed,
    windN: push === null ? null : scale(bearingVector(fromBearingRad), -push),
  };
}
