import {
  add,
  type LetGo,
  letGo,
  norm,
  type RiggingForce,
  type SiteVector,
  STANDARD_GRAVITY_MS2,
  type Touch,
  utilisations,
  ZERO,
} from "@gantline/engine";
import type { When } from "../evolve/evolution-types.ts";
import { amount } from "../judge.ts";
import { sheavePull } from "../rig/sheave-pull.ts";
import { PERSON_KINDS } from "../rig/sum-load.ts";
import type { Situation } from "../situation.ts";
import type { Phrase } from "../units/quantity.ts";
import { ALL_POINTS, peakBeamForce, peakParts } from "./beam-peaks.ts";
import { caseSystem, ridesLight } from "./case-system.ts";
import { tagHandsHoldN, tetherHandsHoldN } from "./hands-hold.ts";
import type {
  Band,
  Hit,
  LetGoCase,
  LetGoChoices,
  LetGoFigures,
  LineForce,
  NearestWay,
  PointPeak,
  SlippingBrake,
} from "./let-go-plan-types.ts";
import { boxOf, tipOf, YOKE } from "./let-go-system.ts";
import { floorBelowM, floorOf, structureOfStop } from "./load-stops.ts";
import { partPeaks } from "./part-peaks.ts";
import { DAMPING_RATIO, endsOfRange, reckonedRange } from "./reckoned-range.ts";

/** Error allowed in a step and time followed, for figures that are judged; peaks come in the first swing. */
const FINE = { tolerance: 1e-5, durationS: 8, mostSamples: 60 } as const;
/** How long a sweep follows a cut, s: of a main line, and of any other. */
export const LET_GO_SWEEP_S = { main: 2.5, other: 5 } as const;
/**
 * For the many of a sweep: peaks within a part in a hundred of the fine ones, held by a test. Looser would not be quicker:
 * the energy book would stay open, and the motion be followed again.
 */
const LOOSE = { tolerance: 3e-5, durationS: LET_GO_SWEEP_S.other, mostSamples: 2 } as const;
/** The same where a main line goes: the blow comes within the first second or two, before the load has swung. */
const LOOSE_BLOW = { ...LOOSE, durationS: LET_GO_SWEEP_S.main } as const;
/** The same where a main line goes that leaves the other up to a metre of slack: it is taut after half a second at most. */
const LOOSE_SLACK = { ...LOOSE, durationS: LET_GO_SWEEP_S.main + 0.5 } as const;
/** With the tether's pulley at its mass: while the blow lasts. */
const HEAVY = { tolerance: 1e-4, durationS: 2.5, mostSamples: 2 } as const;
/** As many samples as a curve of the fine pass takes. */
const SHOWN = { mostSamples: 240 } as const;
const REPLAY = { tolerance: 1e-5, durationS: 20, mostSamples: 240 } as const;
/** Who reaches what is below faster than this has fallen, m/s: as from 0.2 m. Planning choice, no source. */
export const FALL_MS = 2;

/** What the load comes to lie on. */
export const BELOW = "what is below";
/** A line that never pulls harder holds nothing, N. */
const PULLS_N = 1;

export interface CaseOptions extends LetGoChoices {
  /** `fine`: with its band. `ends`: softest and stiffest, loosely, for a sweep. `loose`: one run. */
  readonly pass?: "fine" | "ends" | "loose";
  /** With the damped motion, for a replay. */
  readonly replay?: boolean;
}

/** What happens in a solved situation when these lines go, all at once? None: only what `lost` takes away. */
export function letGoCase(
  situation: Situation,
  when: When | null,
  cut: readonly string[],
  { pass = "fine", replay = false, ...given }: CaseOptions = {},
): LetGoCase {
  const { plan, state } = situation;
  const choices = withoutTether(situation, cut, given);
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
  };
  const unknown = (says: Phrase): LetGoCase => ({ ...empty, outcome: "unknown", says });
  const ranges =
    pass === "fine" ? reckonedRange(situation, choices) : pass === "ends" ? endsOfRange(situation, choices) : [choices];
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
  if (names.length === 0) return { ...empty, ...falls(situation, fallBelow(situation)) };
  const goes = cut.filter((id) => id in first.system.lines);
  if (goes.length === 0 && !choices.lost?.length) return unchanged(empty, names);
  const slipping = systems.flatMap((s) => s.slipping).filter((s) => !cut.includes(s.lineId));
  if (slipping.length > 0) {
    const says = slippingSays(plan, slipping);
    const isHeld = [...left, ...belays].some((l) => !slipping.some((s) => s.lineId === l.laid.line.id));
    if (isHeld) return unknown(says);
    const fallen = falls(situation, fallBelow(situation));
    return { ...empty, ...fallen, says: [...says, " ", ...fallen.says] };
  }
  const slipUnknown = first.slipUnknown.filter((id) => !cut.includes(id));
  const mainGoes = state?.mains.some((m) => goes.includes(m.laid.line.id)) === true;
  const slackM = Math.max(0, ...Object.values(choices.slackM ?? {}));
  const loose = !mainGoes || slackM > 1 ? LOOSE : slackM > 0 ? LOOSE_SLACK : LOOSE_BLOW;
  const how = pass === "fine" ? { ...FINE, ...(replay ? SHOWN : {}) } : loose;
  const runs: LetGo[] = [];
  const forceRuns: LetGo[] = [];
  // Its own swing adds to the peaks in the ropes while the blow lasts, above all in the tether.
  const heavy =
    pass === "fine" && ridesLight(first)
      ? caseSystem(situation, ranges[0] ?? choices, cut, { fine: true, heavyPulley: true })
      : null;
  for (const { system, options } of [
    ...systems.map(({ system }, i) => ({ system, options: pass === "ends" ? sooner(how, ranges[0], ranges[i]) : how })),
    ...(heavy?.ok ? [{ system: { ...heavy.system, solids: {} }, options: HEAVY }] : []),
  ]) {
    const followed = letGo(system, goes, options);
    if (!followed.ok) {
      if (followed.code === "nothing-holds") return { ...empty, ...falls(situation, fallBelow(situation)) };
      return unknown(["What happens could not be followed: ", followed.hint]);
    }
    forceRuns.push(followed);
    if (options !== HEAVY) runs.push(followed);
  }
  const hitFloor = forceRuns
    .flatMap((r) => r.touches.filter(isFall))
    .reduce<Touch | null>((a, b) => (a === null || b.speedMS > a.speedMS ? b : a), null);
  if (hitFloor) {
    const fall = { heightM: fallBelow(situation).heightM, speedMS: hitFloor.speedMS };
    return { ...empty, slipUnknown, ...falls(situation, fall, names) };
  }
  const figures = figuresOf(situation, runs, forceRuns, choices, pass);
  // A line that has lost a redirect may hang slack throughout.
  const pulling = (id: string): boolean => runs.some((r) => (r.lines[id]?.peakN ?? 0) > PULLS_N);
  const holds = [...left, ...belays].flatMap(({ laid: { line } }) => (pulling(line.id) ? [line.name] : []));
  return {
    ...empty,
    outcome: "held",
    says: heldSays(figures, holds, slipUnknown.length > 0),
    holds,
    slipUnknown,
    figures,
    ...(replay ? { undamped: runs[0]?.motion ?? null, ...dampedOf(situation, goes, choices) } : {}),
  };
}

/** Stiffer ropes swing the load sooner: as the root of their stiffness. The softest are followed all the time, their slow swing with them. */
function sooner<T extends { readonly durationS: number }>(how: T, softest?: LetGoChoices, own?: LetGoChoices): T {
  const stiffer = (own?.stiffnessFactor ?? 1) / (softest?.stiffnessFactor ?? 1);
  return { ...how, durationS: how.durationS / Math.sqrt(Math.max(1, stiffer)) };
}

/** The load itself comes down on ground, roof or parapet, faster than it may. */
const isFall = ({ node, away, speedMS }: Touch): boolean => node === YOKE && away[2] > FACES_UP && speedMS > FALL_MS;
/** What faces up more than sideways bears what comes down on it: cos 45°. */
const FACES_UP = Math.SQRT1_2;

/** Where the tether goes nothing pulls its pulley: the ropes it kinks are at once straight. */
function withoutTether({ state }: Situation, cut: readonly string[], choices: LetGoChoices): LetGoChoices {
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
function slippingSays({ rig }: Situation["plan"], slipping: readonly SlippingBrake[]): Phrase {
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

/** Free fall of the load's box to what is below it. */
function fallBelow({ plan, load }: Situation): { heightM: number; speedMS: number } {
  const box = boxOf(plan, load.yoke);
  const heightM = Math.max(0, box.middle[2] - box.half[2] - floorBelowM(plan, box));
  return { heightM, speedMS: Math.sqrt(2 * STANDARD_GRAVITY_MS2 * heightM) };
}

/** @param holding what still holds, but not before the load is down */
function falls(
  { sum }: Situation,
  fall: { heightM: number; speedMS: number },
  holding: readonly string[] = [],
): Pick<LetGoCase, "outcome" | "says" | "fall"> {
  const who = sum.persons > 0 ? (sum.persons === 1 ? "a person falls" : "people fall") : "the load falls";
  const what = holding.length > 0 ? `${holding.join(" and ")} not in time` : "Nothing";
  return {
    outcome: "falls",
    says: [`${what}: ${who} `, amount(fall.heightM, "length"), ", hitting at ", amount(fall.speedMS, "speed"), "."],
    fall,
  };
}

function heldSays(figures: LetGoFigures, names: readonly string[], slipUnknown: boolean): Phrase {
  const hit = figures.hits[0];
  const against = figures.nearest.find((n) => n.distanceM === 0 && n.what !== BELOW);
  return [
    `${names.join(" and ")} ${names.length === 1 ? "holds" : "hold"}: `,
    amount(figures.tipN.high, "force"),
    " at the tip, ",
    amount(figures.dropM.high, "length"),
    " down, ",
    amount(figures.swingM.high, "length"),
    " aside",
    ...(hit ? [`; it hits ${hit.what} at `, amount(hit.speedMS, "speed")] : []),
    ...(!hit && against ? [`; on its way it runs against ${against.what}`] : []),
    slipUnknown ? "; with its brake held fast, as its slip is not known." : ".",
  ];
}

/** The damped motion to rest, and how it ends. */
function dampedOf(
  situation: Situation,
  cut: readonly string[],
  choices: LetGoChoices,
): Pick<LetGoCase, "motion" | "settled"> {
  const [rides = choices] = reckonedRange(situation, choices);
  const damped = caseSystem(situation, { ...rides, dampingRatio: DAMPING_RATIO }, cut, { fine: false });
  const followed = damped.ok ? letGo(damped.system, cut, REPLAY) : null;
  if (!followed?.ok) return { motion: null, settled: null };
  const { motion, ended, timeS, load } = followed;
  const tensionsN = Object.fromEntries(Object.entries(motion.tensionsN).map(([id, all]) => [id, all.at(-1) ?? 0]));
  return { motion, settled: { atRest: ended === "rest", timeS, yoke: load.last, tensionsN } };
}

const bandOf = <T>(runs: readonly T[], of: (run: T) => number): Band => {
  const values = runs.map(of);
  return { low: Math.min(...values), entered: values[0] ?? 0, high: Math.max(...values) };
};
const scaled = ({ low, entered, high }: Band, by: number): Band => ({
  low: low * by,
  entered: entered * by,
  high: high * by,
});

function figuresOf(
  situation: Situation,
  runs: readonly LetGo[],
  forceRuns: readonly LetGo[],
  choices: LetGoChoices,
  pass: NonNullable<CaseOptions["pass"]>,
): LetGoFigures {
  const { plan, geometry, rating } = situation;
  const forcesOf = (run: LetGo): readonly PointForces[] => pointForces(situation, run);
  const tipOfRun = (run: LetGo): SiteVector => forcesOf(run).reduce((sum, p) => add(sum, p.forceN), ZERO);
  const worst = forceRuns.reduce((a, b) => (norm(tipOfRun(b)) > norm(tipOfRun(a)) ? b : a));
  const points = forcesOf(worst);
  const [entered = worst] = runs;
  const {
    aerial: { device },
  } = plan;
  const { posed } = geometry;
  // A loose pass watches nothing: parts as they are when the whole is highest.
  const partsOf = (what: string, atPeakN: SiteVector): SiteVector =>
    pass === "fine" ? peakParts(posed, forceRuns, what) : atPeakN;
  const beamOf = (what: string, atPeakN: SiteVector) => peakBeamForce(posed, atPeakN, partsOf(what, atPeakN));
  const inParts = (p: PointForces): PointForces => ({ ...p, forceN: partsOf(`point/${p.point.id}`, p.forceN) });
  const { resultant } = utilisations(device, posed, points, rating);
  const lines = lineForces(situation, forceRuns, choices);
  return {
    lines,
    partsN: pass === "fine" ? partPeaks(situation, lines, choices.lost) : {},
    points: points.map(
      ({ point, at, forceN }, i): PointPeak => ({
        pointId: point.id,
        name: point.name,
        at,
        peakN: bandOf(forceRuns, (run) => norm(forcesOf(run)[i]?.forceN ?? ZERO)),
        forceN,
        inBeam: beamOf(`point/${point.id}`, forceN),
      }),
    ),
    tipN: bandOf(forceRuns, (run) => norm(tipOfRun(run))),
    tipBeforeN: norm(tipBefore(situation)),
    tipInBeam: beamOf(ALL_POINTS, tipOfRun(worst)),
    utilisations: { ...utilisations(device, posed, points.map(inParts), rating), resultant },
    person: personForce(situation, forceRuns),
    dropM: bandOf(runs, (run) => run.load.dropM),
    swingM: bandOf(runs, (run) => run.load.swingM),
    nearest: nearestOf(situation, runs),
    hits: hitsOf(situation, runs),
    lowest: runs.reduce((a, b) => (b.load.dropM > a.load.dropM ? b : a), entered).load.lowest,
    farthest: runs.reduce((a, b) => (b.load.swingM > a.load.swingM ? b : a), entered).load.farthest,
  };
}

interface PointForces extends RiggingForce {
  readonly at: SiteVector;
}

/** Each rigging point's force, N; where two lines hang from one, the peaks of both as at one moment. */
function pointForces({ state }: Situation, run: LetGo): readonly PointForces[] {
  const mains = state?.mains ?? [];
  const shared = run.nodes.tip?.forceN;
  return [...new Set(mains.map((m) => m.laid.point))].map((point, i) => {
    const own = mains.filter((m) => m.laid.point === point);
    const forceN = own.reduce((sum, m) => add(sum, run.nodes[tipOf(m.laid.line.id)]?.forceN ?? ZERO), ZERO);
    // With a tip that gives both hang from one place: all of it is counted at the first.
    return { point, at: own[0]?.laid.pointAt ?? ZERO, forceN: shared && i === 0 ? shared : forceN };
  });
}

function tipBefore({ state, plan }: Situation): SiteVector {
  const ran = plan.rig.load.motion === "lower" ? "lower" : "raise";
  return (state?.mains ?? []).reduce((sum, m) => add(sum, sheavePull(m.nodes, m.tensionsN[ran], 1)), ZERO);
}

function lineForces(
  { plan, state }: Situation,
  runs: readonly LetGo[],
  { belays = {} }: LetGoChoices,
): readonly LineForce[] {
  const all = [
    ...(state?.mains ?? []).map((m) => ({
      line: m.laid.line,
      role: "main" as const,
      beforeN: m.tensionsN.raise[0] ?? 0,
      handsHoldN: null,
    })),
    ...(state?.tags ?? []).map(({ laid: { line }, tensionN }) => ({
      line,
      role: "tagline" as const,
      beforeN: tensionN,
      handsHoldN: line.drive === "length" || belays[line.id] ? null : tagHandsHoldN(plan, line),
    })),
    ...(state?.tether ? [state.tether] : []).map(({ laid: { line }, tensionN }) => ({
      line,
      role: "tether" as const,
      beforeN: tensionN,
      handsHoldN: line.drive === "length" ? null : tetherHandsHoldN(plan, line),
    })),
  ];
  return all.flatMap(({ line, role, beforeN, handsHoldN }): LineForce[] => {
    const own = runs.filter((run) => run.lines[line.id] !== undefined);
    if (own.length < runs.length) return [];
    const segments = (run: LetGo): readonly number[] => run.lines[line.id]?.segmentPeaksN ?? [];
    return [
      {
        lineId: line.id,
        name: line.name,
        role,
        peakN: bandOf(runs, (run) => Math.max(0, ...segments(run))),
        atEndN: bandOf(runs, (run) => segments(run).at(-1) ?? 0),
        segmentsN: segments(own[0] as LetGo).map((_, k) => Math.max(...own.map((run) => segments(run)[k] ?? 0))),
        beforeN,
        handsHoldN,
        wentSlack: own.some((run) => run.lines[line.id]?.wasSlack),
        letGo: own.some((run) => (run.lines[line.id]?.letGoAtS ?? null) !== null),
        slippedM: Math.max(0, ...own.map((run) => run.lines[line.id]?.paidOutM ?? 0)),
      },
    ];
  });
}

/** All peaks at the load as at one moment and one way, times the part that the heaviest person is of it: never too little. */
function personForce({ plan, sum }: Situation, runs: readonly LetGo[]): LetGoFigures["person"] {
  const people = plan.rig.load.parts.filter((p) => PERSON_KINDS.has(p.kind));
  const heaviest = people.reduce((a, b) => ((b.massKg ?? 0) > (a?.massKg ?? -1) ? b : a), people[0]);
  if (!heaviest || sum.massKg === null) return null;
  const pulls = bandOf(runs, (run) => Object.values(run.lines).reduce((total, line) => total + line.peakN, 0));
  return { name: heaviest.name, peakN: scaled(pulls, (heaviest.massKg ?? 0) / sum.massKg) };
}

function nearestOf({ geometry }: Situation, runs: readonly LetGo[]): readonly NearestWay[] {
  const names = new Map(geometry.structures.map((s) => [s.id, s.name]));
  const ofRuns = runs.map((run) => {
    const nearest = new Map<string, Omit<NearestWay, "bandM">>();
    for (const [id, { distanceM, atS, load }] of Object.entries(run.approaches)) {
      const what = id === floorOf(YOKE) ? BELOW : nameOf(id, names);
      const known = nearest.get(what);
      if (!known || distanceM < known.distanceM) nearest.set(what, { what, distanceM, atS, yoke: load });
    }
    return nearest;
  });
  const [entered] = ofRuns;
  return [...(entered?.keys() ?? [])]
    .flatMap((what): NearestWay[] => {
      const own = ofRuns.flatMap((run) => run.get(what) ?? []);
      const [least] = [...own].sort((a, b) => a.distanceM - b.distanceM);
      return least ? [{ ...least, bandM: bandOf(own, (n) => n.distanceM) }] : [];
    })
    .sort((a, b) => a.distanceM - b.distanceM);
}

const nameOf = (id: string, names: ReadonlyMap<string, string>): string =>
  id.startsWith("structure/") ? (names.get(id.split("/")[1] ?? "") ?? id) : id;

/** Slower than this is no hit, m/s. */
const HIT_MS = 0.05;

function hitsOf({ plan }: Situation, runs: readonly LetGo[]): readonly Hit[] {
  const names = new Map(plan.scene.structures.map((s) => [s.id, s.name]));
  const hard = runs.map((run) =>
    run.touches
      .filter((t) => t.node === YOKE && t.speedMS > HIT_MS)
      .map(({ stop, speedMS, atS }) => {
        const structure = structureOfStop(stop);
        return { what: structure === null ? BELOW : (names.get(structure) ?? structure), speedMS, atS };
      }),
  );
  const what = [...new Set(hard.flatMap((hits) => hits.map((h) => h.what)))];
  return what
    .flatMap((name): Hit[] => {
      const hardest = hard.map((hits) => hits.filter((h) => h.what === name).sort((a, b) => b.speedMS - a.speedMS)[0]);
      const [first] = hardest.flatMap((h) => h ?? []).sort((a, b) => b.speedMS - a.speedMS);
      return first ? [{ ...first, bandMS: bandOf(hardest, (h) => h?.speedMS ?? 0) }] : [];
    })
    .sort((a, b) => b.speedMS - a.speedMS);
}
