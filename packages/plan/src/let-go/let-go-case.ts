import { letGo } from "@gantline/engine";
import type { When } from "../evolve/evolution-types.ts";
import { amount } from "../judge.ts";
import type { SolvedPlan } from "../solve-plan.ts";
import type { Phrase, Quantity } from "../units/quantity.ts";
import { figuresOf } from "./case-figures.ts";
import { caseMotion } from "./case-motion.ts";
import { caseSystem } from "./case-system.ts";
import { fallMotion, freeFallMotion } from "./fall-motion.ts";
import { followCut, LONGEST_S, type Pass } from "./follow-cut.ts";
import type { Band, LetGoCase, LetGoChoices, LetGoFigures, SlippingBrake } from "./let-go-plan-types.ts";
import { comesDown, type FollowedRun, fallen, loadFreeFall, SLIPPED_M, slippedM } from "./load-falls.ts";
import { BELOW } from "./load-stops.ts";
import { DAMPING_RATIO, endsOfRange, reckonedRange } from "./reckoned-range.ts";
import { tipGive } from "./tip-give.ts";

const REPLAY = { tolerance: 1e-5, durationS: 20, mostSamples: 240, sampleForces: true } as const;
/** A line that never pulls harder holds nothing, N. */
const PULLS_N = 1;

export interface CaseOptions extends LetGoChoices {
  /** Left out: `fine`. */
  readonly pass?: Pass;
  /** With the damped motion, for a replay. */
  readonly replay?: boolean;
  /** The tip gives as the ladder's sections do, where `tip` is not given. Left out: it is stiff. */
  readonly tipGives?: boolean;
}

/** What happens in a solved situation when these lines go, all at once? None: only what `lost` takes away. */
export function letGoCase(
  situation: SolvedPlan,
  when: When | null,
  cut: readonly string[],
  { pass = "fine", replay = false, tipGives = false, ...given }: CaseOptions = {},
): LetGoCase {
  const { plan, state } = situation;
  const give = tipGives && given.tip === undefined ? tipGive(plan) : null;
  const tip = give && !("says" in give) ? { tip: give } : {};
  const choices = withoutTether(situation, cut, { ...given, ...tip });
  const free = loadFreeFall(situation);
  const empty = {
    when,
    cut,
    yoke: situation.load.yoke,
    holds: [],
    slipUnknown: [],
    figures: null,
    motion: null,
    undamped: null,
    settled: null,
    fall: null,
    roomM: free.heightM,
  };
  const unknown = (says: Phrase): LetGoCase => ({ ...empty, outcome: "unknown", says });
  const fallsFree = (): LetGoCase => ({
    ...empty,
    ...fallen(situation, free),
    ...(replay ? freeFallMotion(situation, free) : {}),
  });
  if (give && "says" in give) return unknown([give.says]);
  const ranges =
    pass === "fine"
      ? reckonedRange(situation, choices)
      : pass === "loose"
        ? [choices]
        : endsOfRange(situation, choices, { bothWays: pass === "ends" });
  const built = ranges.map((range) => caseSystem(situation, range, cut, { fine: pass === "fine" }));
  const lacking = built.find((b) => !b.ok);
  if (lacking && !lacking.ok) return unknown(lacking.says);
  const systems = built.flatMap((b) => (b.ok ? [b] : []));
  const first = systems[0];
  if (!first) return unknown(["Nothing is known of the ropes."]);
  const left = state?.mains.filter((m) => !cut.includes(m.laid.line.id)) ?? [];
  const belays =
    state?.tags.filter((t) => given.belays?.[t.laid.line.id] !== undefined && !cut.includes(t.laid.line.id)) ?? [];
  const names = [...left, ...belays].map((l) => l.laid.line.name);
  if (names.length === 0) return fallsFree();
  const goes = cut.filter((id) => id in first.system.lines);
  if (goes.length === 0 && !choices.lost?.length) return unchanged(empty, names);
  const slipping = systems.flatMap((s) => s.slipping).filter((s) => !cut.includes(s.lineId));
  if (slipping.length > 0) {
    const says = slippingSays(plan, slipping);
    const isHeld = [...left, ...belays].some((l) => !slipping.some((s) => s.lineId === l.laid.line.id));
    if (isHeld) return unknown(says);
    const down = fallsFree();
    return { ...down, says: [...says, " ", ...down.says] };
  }
  const slipUnknown = first.slipUnknown.filter((id) => !cut.includes(id));
  const followed = followCut({ situation, cut, goes, ranges, systems, pass, replay });
  if (!followed.ok) {
    if (followed.code === "nothing-holds") return fallsFree();
    return unknown(["What happens could not be followed: ", followed.hint]);
  }
  const { runs, heavy } = followed;
  const all = heavy ? [...runs, heavy] : runs;
  const down = comesDown(situation, all);
  if (down)
    return {
      ...empty,
      slipUnknown,
      ...fallen(situation, down.fall, names),
      ...(replay ? fallMotion(situation, down.of, goes, down.timeS) : {}),
    };
  const slips = runs.find((r) => r.slips);
  if (slips) {
    const { topSpeedMS: speedMS } = slips.run.load;
    const still = { ...free, speedMS, slippedM: slippedM(slips.system, slips.run), timeS: null, strikes: null };
    const { says, ...rest } = fallen(situation, still, names);
    return {
      ...empty,
      slipUnknown,
      ...rest,
      says: [...says, " It still does after ", amount(LONGEST_S, "time"), "."],
      ...(replay ? fallMotion(situation, slips, goes, slips.run.timeS) : {}),
    };
  }
  const figures = figuresOf(situation, followed, choices, pass);
  // A line that has lost a redirect may hang slack throughout.
  const pulling = (id: string): boolean => runs.some(({ run }) => (run.lines[id]?.peakN ?? 0) > PULLS_N);
  const holds = [...left, ...belays].flatMap(({ laid: { line } }) => (pulling(line.id) ? [line.name] : []));
  return {
    ...empty,
    outcome: "held",
    says: heldSays(figures, holds, slipUnknown.length > 0),
    holds,
    slipUnknown,
    figures,
    ...(replay ? motionsOf(situation, runs[0], goes, choices) : {}),
  };
}

/** Where the tether goes nothing pulls its pulley: the ropes it kinks are at once straight. */
export function withoutTether({ state }: SolvedPlan, cut: readonly string[], choices: LetGoChoices): LetGoChoices {
  const tether = state?.tether;
  if (!tether || !cut.includes(tether.laid.line.id)) return choices;
  const lost = (state?.mains ?? [])
    .filter((m) => m.nodes.some((n) => n.kind === "rider"))
    .map((m) => ({ lineId: m.laid.line.id, placeId: "rider" }));
  return { ...choices, rider: "stays", lost: [...(choices.lost ?? []), ...lost] };
}

function unchanged(empty: Omit<LetGoCase, "outcome" | "says">, holds: readonly string[]): LetGoCase {
  return { ...empty, outcome: "held", says: ["It carries nothing here: nothing moves."], holds };
}

/** Before anything goes: no balance to begin from. */
function slippingSays({ rig }: SolvedPlan["plan"], slipping: readonly SlippingBrake[]): Phrase {
  const [worst = slipping[0]] = [...slipping].sort((a, b) => b.holdsN / b.slipsAtN - a.holdsN / a.slipsAtN);
  if (!worst) return [];
  const name = [...rig.mainLines, ...rig.taglines].find((l) => l.id === worst.lineId)?.name ?? worst.lineId;
  return [
    `The brake of ${name} slips under the load as it hangs: it holds `,
    amount(worst.holdsN, "force"),
    " and slips at ",
    amount(worst.slipsAtN, "force"),
    ".",
  ];
}

function heldSays(figures: LetGoFigures, names: readonly string[], slipUnknown: boolean): Phrase {
  const { tipN, dropM, swingM, hits, nearest, lines } = figures;
  const hit = hits[0];
  const against = nearest.find((n) => n.distanceM === 0 && n.what !== BELOW);
  const slipM = Math.max(0, ...lines.map((l) => l.slippedM));
  return [
    names.length === 0 ? "No rope pulls at it: " : `${names.join(" and ")} ${names.length === 1 ? "holds" : "hold"}: `,
    ...fromTo(tipN, "force"),
    " at the tip, ",
    ...fromTo(dropM, "length"),
    " down, ",
    ...fromTo(swingM, "length"),
    " aside",
    ...(slipM > SLIPPED_M ? ["; ", amount(slipM, "length"), " of rope runs through its brake"] : []),
    ...(hit ? [`; it hits ${hit.what} at `, amount(hit.speedMS, "speed")] : []),
    ...(!hit && against ? [`; on its way it runs against ${against.what}`] : []),
    slipUnknown ? "; with its brake held fast, as its slip is not known." : ".",
  ];
}

/** Ends of a band nearer to each other than this part of it are told as one. */
const SAME = 0.005;

const fromTo = ({ low, high }: Band, quantity: Quantity): Phrase =>
  high - low <= SAME * Math.abs(high)
    ? [amount(high, quantity)]
    : [amount(low, quantity), " to ", amount(high, quantity)];

/** The motion as entered, the damped one to rest, and how that ends. */
function motionsOf(
  situation: SolvedPlan,
  entered: FollowedRun | undefined,
  cut: readonly string[],
  choices: LetGoChoices,
): Pick<LetGoCase, "undamped" | "motion" | "settled"> {
  if (!entered) return { undamped: null, motion: null, settled: null };
  const undamped = caseMotion(situation, entered.system, entered.run.motion);
  const [rides = choices] = reckonedRange(situation, choices);
  const damped = caseSystem(situation, { ...rides, dampingRatio: DAMPING_RATIO }, cut, { fine: false });
  const followed = damped.ok ? letGo(damped.system, cut, REPLAY) : null;
  if (!followed?.ok) return { undamped, motion: null, settled: null };
  const { motion, ended, timeS, load } = followed;
  const tensionsN = Object.fromEntries(Object.entries(motion.tensionsN).map(([id, all]) => [id, all.at(-1) ?? 0]));
  return {
    undamped,
    motion: caseMotion(situation, entered.system, motion),
    settled: { atRest: ended === "rest", timeS, yoke: load.last, tensionsN },
  };
}
