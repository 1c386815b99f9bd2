import type { LetGoSystem } from "@gantline/engine";
import type { SolvedPlan } from "../solve-plan.ts";
import { ALL_POINTS, beamWatches } from "./beam-peaks.ts";
import type { LetGoChoices, PlanSystem, SystemUnknown } from "./let-go-plan-types.ts";
import { letGoSystem, RIDER, TIP, tipOf } from "./let-go-system.ts";

export interface CaseSystemOptions {
  /** With what is only measured: solids, and the parts of the forces in beam axes. */
  readonly fine: boolean;
  /** The tether's pulley keeps its mass though it rides a rope. Left out: it does not. */
  readonly heavyPulley?: boolean;
}

/**
 * The rig as it is followed when these lines go.
 *
 * The tether's pulley rides without mass as long as a rope is left for it to ride on: its own swing, of some ten times a
 * second and damped by nothing in the model, is what nearly all steps would be spent on, and its 2 kg are a planning
 * choice. Without a rope it falls, with its mass; on one that is slack it keeps it.
 */
export function caseSystem(
  situation: SolvedPlan,
  choices: LetGoChoices,
  cut: readonly string[],
  { fine, heavyPulley = false }: CaseSystemOptions,
): PlanSystem | SystemUnknown {
  const built = letGoSystem(situation, choices, { withSolids: fine });
  if (!built.ok) return built;
  const system = heavyPulley ? built.system : ridden(built.system, cut);
  return { ...built, system: fine ? { ...system, watch: watchesOf(situation, system) } : system };
}

function ridden(system: LetGoSystem, cut: readonly string[]): LetGoSystem {
  const { [RIDER]: rider, ...nodes } = system.nodes;
  if (rider?.massKg === undefined || !isRidden(system, cut)) return system;
  const { massKg: _mass, forceN: _force, ...place } = rider;
  return {
    ...system,
    nodes: { ...nodes, [RIDER]: { ...place, rides: true } },
    stops: Object.fromEntries(Object.entries(system.stops ?? {}).filter(([, stop]) => !stop.nodes?.includes(RIDER))),
  };
}

/** Does the tether's pulley ride without mass? */
export const ridesLight = ({ system }: PlanSystem): boolean => system.nodes[RIDER]?.rides === true;

/**
 * Is there still a rope that the tether's pulley runs on, and none of them slack from the start? On a slack rope a pulley without
 * mass jumps as that comes taut and goes slack, again and again.
 */
function isRidden({ lines }: LetGoSystem, cut: readonly string[]): boolean {
  const ridden = Object.entries(lines).filter(
    ([id, { through }]) => !cut.includes(id) && through.slice(1, -1).includes(RIDER),
  );
  return ridden.length > 0 && ridden.every(([, { startTensionN }]) => (startTensionN ?? 0) > 0);
}

function watchesOf({ state, geometry }: SolvedPlan, { nodes }: LetGoSystem): NonNullable<LetGoSystem["watch"]> {
  const mains = state?.mains ?? [];
  const givingTip = TIP in nodes ? [TIP] : null;
  const tipsOf = (pointId: string): readonly string[] =>
    mains.flatMap(({ laid: { point, line } }) => {
      const tip = tipOf(line.id);
      return point.id === pointId && tip in nodes ? [tip] : [];
    });
  const points = [...new Set(mains.map((m) => m.laid.point.id))];
  const all = givingTip ?? points.flatMap(tipsOf);
  if (all.length === 0) return {};
  return beamWatches(geometry.posed, {
    [ALL_POINTS]: all,
    ...Object.fromEntries(
      // With a tip that gives both hang from one place: all of it is counted at the first.
      points.flatMap((id, i) => {
        const own = givingTip && i === 0 ? givingTip : tipsOf(id);
        return own.length > 0 ? [[`point/${id}`, own]] : [];
      }),
    ),
  });
}
