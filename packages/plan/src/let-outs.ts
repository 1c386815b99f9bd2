import { add, distance, hangAtHeight, type SiteVector, site, swing, ZERO } from "@gantline/engine";
import { assess } from "./assess.ts";
import type { LetOut } from "./evaluation.ts";
import { type MainState, type RigState, sheaveOf } from "./rig/rig-state.ts";
import type { Plan } from "./schema/plan.ts";
import type { Situation } from "./situation.ts";
import { nearestOnWay, type OnWay, type SwingWay, wayPlaces } from "./swing-way.ts";

/** A line that pulls less than this part of the load's weight lets nothing swing worth telling. */
const LEAST_PULL = 1e-3;
/** Places of the arc as it is drawn. */
const PLACES = 25;

/** A line in hands that holds the load aside. */
interface Hand {
  readonly id: string;
  readonly name: string;
  readonly toward: SiteVector;
  readonly tensionN: number;
}

/** The swing that letting a line go sets off, before it is held against what stands about. */
export interface HeldSwing
  extends Pick<
    LetOut,
    "angleRad" | "amplitudeM" | "periodS" | "tensionRatio" | "extraTensionN" | "heldOutM" | "dropM"
  > {
  readonly way: SwingWay;
}

/**
 * What would happen if one tagline or the tether were let go, with the load where the plan has it?
 *
 * A simple pendulum of any amplitude (`swing`): the load's mass, in the middle of its box, about the point above where it
 * would hang without that line; the other lines keep their pulls. Where the tether is let go, its pulley no longer holds
 * the returning ropes out: they run straight, and the load drops as much further before it swings. The swing goes as far
 * as all of that height carries it. Clearance is that of the load's box, level, all along its way, to within a centimetre.
 */
export const letOuts = (plan: Plan): readonly LetOut[] => {
  const situation = assess(plan);
  return swingsOf(situation).flatMap(({ lineId, name, swing }) =>
    swing === null ? [] : [toldOf(lineId, name, swing, nearestOnWay(plan, situation.geometry, swing.way))],
  );
};

/** A swing with what it comes near. */
export function toldOf(lineId: string, name: string, { way, ...figures }: HeldSwing, near: OnWay | null): LetOut {
  const { clearanceM, nearestTo } = near ?? { clearanceM: null, nearestTo: null };
  const arc = wayPlaces(way, PLACES);
  return { lineId, name, ...figures, farAt: arc.at(-1) ?? way.heldAt, arc, clearanceM, nearestTo };
}

/** Each line in hands that pulls, and the swing; null: it would begin as high as the tip sheaves, and is none. */
export function swingsOf({
  plan,
  state,
  load,
}: Situation): readonly { readonly lineId: string; readonly name: string; readonly swing: HeldSwing | null }[] {
  const { weightN } = load;
  // A load that stands on the ground does not swing.
  if (state === null || weightN === null || state.groundN !== null) return [];
  const hands = handsOf(state);
  return hands
    .filter((h) => h.tensionN > LEAST_PULL * weightN)
    .map((h) => ({
      lineId: h.id,
      name: h.name,
      swing: heldSwing(plan, state, h, hands, weightN, load.windN ?? ZERO),
    }));
}

const handsOf = ({ tags, tether }: RigState): readonly Hand[] => [
  ...tags.map(({ laid: { line, handsAt }, tensionN }) => ({ id: line.id, name: line.name, toward: handsAt, tensionN })),
  ...(tether
    ? [
        {
          id: tether.laid.line.id,
          name: tether.laid.line.name,
          toward: tether.pulleyAt,
          tensionN: tether.tensionN,
        },
      ]
    : []),
];

function heldSwing(
  plan: Plan,
  state: RigState,
  gone: Hand,
  hands: readonly Hand[],
  weightN: number,
  windN: SiteVector,
): HeldSwing | null {
  const total = state.mains.reduce((sum, m) => sum + (m.tensionsN.raise[0] ?? 0), 0);
  if (!(total > 0)) return null;
  const mains = state.mains.map((m) => ({ toward: sheaveOf(m), share: (m.tensionsN.raise[0] ?? 0) / total, of: m }));
  const others = hands.filter((h) => h !== gone);
  const hungN = site(0, 0, -weightN - state.ropesAtYokeN);
  const rests = hangAtHeight(state.yoke, mains, others, add(hungN, windN));
  if (!rests.ok) return null;
  const isTether = gone.id === state.tether?.laid.line.id;
  const mean = (of: (m: (typeof mains)[number]) => number): number =>
    mains.reduce((sum, m) => sum + m.share * of(m), 0);
  const heldOutM = isTether ? mean((m) => heldOutOf(m.of)) : 0;
  const { bridle, box } = plan.rig.load;
  const belowM = bridle.heightM + box.heightM / 2;
  const pivot = site(
    rests.at[0],
    rests.at[1],
    mean((m) => m.toward[2]),
  );
  const ropesM = mean((m) => distance(m.toward, state.yoke)) + heldOutM;
  const ropeM = pivot[2] - restsAtZM(pivot, mains, ropesM) + belowM;
  const held = site(state.yoke[0], state.yoke[1], state.yoke[2] - belowM);
  const [east, north] = [pivot[0] - held[0], pivot[1] - held[1]];
  const asideM = Math.hypot(east, north);
  // All the height there is, with what the load drops until its ropes are taut, carries it on the other side.
  const heldRad = Math.asin(Math.min(1, asideM / ropeM));
  const dropM = Math.max(held[2] - (pivot[2] - ropeM), ropeM * (1 - Math.cos(heldRad)));
  if (!(dropM < ropeM)) return null;
  const farRad = Math.acos(1 - dropM / ropeM);
  const onward = asideM > 0 ? site(east / asideM, north / asideM, 0) : site(0, 0, 0);
  const out = ropeM * Math.sin(farRad);
  const begins = site(pivot[0] - out * onward[0], pivot[1] - out * onward[1], pivot[2] - ropeM * Math.cos(farRad));
  const rest = site(pivot[0], pivot[1], pivot[2] - ropeM);
  const swings = swing({ held: begins, rest, ropeM, weightN });
  if (!swings.ok) return null;
  return {
    angleRad: swings.amplitudeRad,
    amplitudeM: swings.amplitudeM,
    periodS: swings.periodS,
    tensionRatio: weightN > 0 ? swings.mostTensionN / weightN : 1,
    extraTensionN: swings.extraTensionN,
    heldOutM,
    dropM,
    way: { heldAt: state.yoke, pivot, ropeM, belowM, onward, heldRad, farRad },
  };
}

/** How high the yoke rests plumb below the pivot on ropes as long as they are, from sheaves that hang apart, m. */
function restsAtZM(
  pivot: SiteVector,
  mains: readonly { readonly toward: SiteVector; readonly share: number }[],
  ropesM: number,
): number {
  let z = pivot[2] - ropesM;
  for (let round = 0; round < ROUNDS; round++) {
    const at = site(pivot[0], pivot[1], z);
    z += mains.reduce((sum, m) => sum + m.share * distance(m.toward, at), 0) - ropesM;
  }
  return z;
}
/** Each round leaves of the error the share that sheaves stand aside, squared: some thousandths. */
const ROUNDS = 6;

/** How much rope of a main line the tether's pulley holds out of its straight way from tip sheave to first redirect, m. */
function heldOutOf({ nodes }: MainState): number {
  const k = nodes.findIndex((n) => n.kind === "rider");
  const [before, rider, after] = [nodes[k - 1], nodes[k], nodes[k + 1]];
  if (!before || !rider || !after) return 0;
  return distance(before.at, rider.at) + distance(rider.at, after.at) - distance(before.at, after.at);
}
