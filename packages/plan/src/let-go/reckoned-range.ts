import type { SolvedPlan } from "../solve-plan.ts";
import type { LetGoChoices } from "./let-go-plan-types.ts";

/**
 * Share of critical damping of a loaded kernmantle rope: 0.1 to 0.3, from memory, of low confidence. Never in a figure that
 * a check is judged by; in the low end of a band and in replays.
 */
export const DAMPING_RATIO = 0.1;

/**
 * The stiffest a rope is reckoned to be over its dynamic stiffness as entered. The standard equation of impact force was
 * found up to 30 % low at high mass and fall factor (Weber, rescue symposium, 2002, abstract); after a fall into slack the
 * force goes as the root of the stiffness: 1.3² = 1.69.
 */
export const STIFFEST = 1.69;

/** Softest where no static stiffness is entered: static and impact tests differ about twofold (EN 1891 limits, derived). */
const SOFTEST = 0.5;

/**
 * The softest the main lines are reckoned to be over their dynamic stiffness as entered: static EA over dynamic EA of the rope
 * for which that is least, never above 1.
 */
function softest({ laid }: SolvedPlan): number {
  const ratios = laid.mains.map(({ rope }) => {
    const [slow, quick] = [rope?.staticStiffnessN ?? null, rope?.dynamicStiffnessN ?? null];
    return slow === null || quick === null ? SOFTEST : slow / quick;
  });
  return Math.min(1, ...ratios);
}

/** Between as entered and stiffest: hands may hold in there what they cannot at either end. */
const BETWEEN = Math.sqrt(STIFFEST);

/**
 * The choices over which a figure's band is taken, the first being the rig as entered.
 *
 * Softest with damping and without, for the drop; one between, and stiffest, without; at rest both ends as after a lower too,
 * since friction can act either way. Stiffness drops out of the peak where nothing is slack: then the band is that
 * of the damping and of the friction.
 */
export function reckonedRange(situation: SolvedPlan, base: LetGoChoices): readonly LetGoChoices[] {
  const rides = riding(situation, base);
  const soft = softest(situation);
  return [
    rides,
    { ...rides, stiffnessFactor: soft, dampingRatio: DAMPING_RATIO },
    ...[soft, BETWEEN, STIFFEST].map((stiffnessFactor) => ({ ...rides, stiffnessFactor })),
    ...loweredToo(situation, base, [soft, STIFFEST]).map((more) => ({ ...rides, ...more })),
  ];
}

/** Where a tether pulls, its pulley rides. */
const riding = ({ state }: SolvedPlan, base: LetGoChoices): LetGoChoices =>
  state?.tether?.pulled === true && base.rider === undefined ? { ...base, rider: "moves" } : base;

/** At rest the sheaves may hold as after a lower. */
const loweredToo = (
  { plan }: SolvedPlan,
  { ran }: LetGoChoices,
  stiffnesses: readonly number[],
): readonly LetGoChoices[] =>
  plan.rig.load.motion === "rest" && ran === undefined
    ? stiffnesses.map((stiffnessFactor) => ({ stiffnessFactor, ran: "lower" }))
    : [];

/**
 * The ends of the same range without damping, for many cases: forces are highest and ways longest at an end, but for hands that
 * let go in between. At rest stiffest as after a lower too, where forces are asked for and not only which case has the highest.
 */
export function endsOfRange(
  situation: SolvedPlan,
  base: LetGoChoices,
  { bothWays = true }: { readonly bothWays?: boolean } = {},
): readonly LetGoChoices[] {
  const rides = riding(situation, base);
  const lowered = bothWays ? loweredToo(situation, base, [STIFFEST]) : [];
  return [
    ...[softest(situation), STIFFEST].map((stiffnessFactor): LetGoChoices => ({ ...rides, stiffnessFactor })),
    ...lowered.map((more) => ({ ...rides, ...more })),
  ];
}

/** For maps of many cases, the tether's pulley where it is: the same ends, and softest with damping, for the low end. */
export const extremesOf = (situation: SolvedPlan, base: LetGoChoices): readonly LetGoChoices[] => [
  { ...base, stiffnessFactor: softest(situation), dampingRatio: DAMPING_RATIO },
  ...endsOfRange(situation, { ...base, rider: base.rider ?? "stays" }),
];
