import { add, clearance, distance, hangAtHeight, type SiteVector, site, swing, swingArc, ZERO } from "@gantline/engine";
import { assess } from "./assess.ts";
import type { Geometry, LetOut } from "./evaluation.ts";
import { placeLoad } from "./place-geometry.ts";
import { type RigState, sheaveOf } from "./rig/rig-state.ts";
import type { Plan } from "./schema/plan.ts";

/** A line that pulls less than this part of the load's weight lets nothing swing worth telling. */
const LEAST_PULL = 1e-3;
/** Places along the swing at which clearance is measured. */
const PLACES = 9;

/**
 * What would happen if one tagline or the tether were let go, with the load where the plan has it?
 *
 * The load swings as a simple pendulum about the middle of its tip sheaves, from where it is held, through where it would
 * hang without that line, as far to the other side; the other lines keep their pulls. Clearance is that of the load's box
 * to structures and ladder at places along the way.
 */
export function letOuts(plan: Plan): readonly LetOut[] {
  const { state, geometry, load } = assess(plan);
  if (state === null || load.weightN === null) return [];
  const weightN = load.weightN;
  const hands = [
    ...state.tags.map((t) => ({
      id: t.laid.line.id,
      name: t.laid.line.name,
      toward: t.laid.handsAt,
      tensionN: t.tensionN,
    })),
    ...(state.tether
      ? [
          {
            id: state.tether.laid.line.id,
            name: state.tether.laid.line.name,
            toward: state.tether.pulleyAt,
            tensionN: state.tether.tensionN,
          },
        ]
      : []),
  ];
  return hands
    .filter((h) => h.tensionN > LEAST_PULL * weightN)
    .flatMap((h) => {
      const others = hands.filter((o) => o !== h);
      const found = letOut(state, others, weightN, load.windN ?? ZERO);
      return found === null
        ? []
        : [{ lineId: h.id, name: h.name, ...found.figures, ...nearestOnTheWay(plan, geometry, found.figures.arc) }];
    });
}

function letOut(
  state: RigState,
  others: readonly { toward: SiteVector; tensionN: number }[],
  weightN: number,
  windN: SiteVector,
) {
  const total = state.mains.reduce((sum, m) => sum + (m.tensionsN.raise[0] ?? 0), 0);
  if (!(total > 0)) return null;
  const mains = state.mains.map((m) => ({ toward: sheaveOf(m), share: (m.tensionsN.raise[0] ?? 0) / total }));
  const ropeM = state.mains.reduce(
    (sum, m) => sum + ((m.tensionsN.raise[0] ?? 0) / total) * distance(sheaveOf(m), state.yoke),
    0,
  );
  const rests = hangAtHeight(state.yoke, mains, others, add(site(0, 0, -weightN - state.ropesAtYokeN), windN));
  if (!rests.ok) return null;
  const top = mains.reduce((sum, m) => sum + m.share * m.toward[2], 0);
  const rest = site(rests.at[0], rests.at[1], top - ropeM);
  const swings = swing({ held: state.yoke, rest, ropeM, weightN });
  if (!swings.ok) return null;
  return {
    figures: {
      angleRad: swings.amplitudeRad,
      amplitudeM: swings.amplitudeM,
      periodS: swings.periodS,
      tensionRatio: weightN > 0 ? swings.mostTensionN / weightN : 1,
      farAt: swings.farthest,
      arc: swingArc(swings, PLACES),
    },
  };
}

function nearestOnTheWay(
  plan: Plan,
  geometry: Geometry,
  arc: readonly SiteVector[],
): Pick<LetOut, "clearanceM" | "nearestTo"> {
  const things = [
    ...geometry.structures.flatMap((s) => s.solids.map((solid) => ({ name: s.name, solid }))),
    { name: "Ladder", solid: geometry.ladder },
    ...(geometry.platform ? [{ name: "Platform", solid: geometry.platform }] : []),
  ];
  let nearest: { clearanceM: number; nearestTo: string } | null = null;
  for (const place of arc) {
    const { box } = placeLoad(plan, place);
    for (const { name, solid } of things) {
      const { distanceM } = clearance(box, solid);
      if (nearest === null || distanceM < nearest.clearanceM) nearest = { clearanceM: distanceM, nearestTo: name };
    }
  }
  return nearest ?? { clearanceM: null, nearestTo: null };
}
