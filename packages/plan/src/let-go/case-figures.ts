import { add, type LetGo, norm, type RiggingForce, type SiteVector, utilisations, ZERO } from "@gantline/engine";
import { sheavePull } from "../rig/sheave-pull.ts";
import { PERSON_KINDS } from "../rig/sum-load.ts";
import type { SolvedPlan } from "../solve-plan.ts";
import { ALL_POINTS, peakBeamForce, peakParts } from "./beam-peaks.ts";
import type { FollowedCut, Pass } from "./follow-cut.ts";
import { tagHandsHoldN, tetherHandsHoldN } from "./hands-hold.ts";
import type { Band, Hit, LetGoChoices, LetGoFigures, LineForce, NearestWay, PointPeak } from "./let-go-plan-types.ts";
import { tipOf, YOKE } from "./let-go-system.ts";
import { BELOW, floorOf, nameOfSolid, structureOfStop } from "./load-stops.ts";
import { partPeaks } from "./part-peaks.ts";

const bandOf = <T>(runs: readonly T[], of: (run: T) => number): Band => {
  const values = runs.map(of);
  return { low: Math.min(...values), entered: values[0] ?? 0, high: Math.max(...values) };
};
const scaled = ({ low, entered, high }: Band, by: number): Band => ({
  low: low * by,
  entered: entered * by,
  high: high * by,
});

/** Every figure of what was followed, each over all runs; ways without that of the pulley's mass, which is not followed to the end. */
export function figuresOf(
  situation: SolvedPlan,
  followed: FollowedCut,
  choices: LetGoChoices,
  pass: Pass,
): LetGoFigures {
  const { plan, geometry, rating } = situation;
  const runs = followed.runs.map(({ run }) => run);
  const felt = (followed.heavy ? [...runs, followed.heavy.run] : runs).map((run): Felt => {
    const points = pointForces(situation, run);
    const tip = points.reduce((sum, p) => add(sum, p.forceN), ZERO);
    return { run, points, tip, tipN: norm(tip) };
  });
  const forceRuns = felt.map(({ run }) => run);
  const worst = felt.reduce((a, b) => (b.tipN > a.tipN ? b : a));
  const { points } = worst;
  const [entered = worst.run] = runs;
  const {
    aerial: { device },
  } = plan;
  const { posed } = geometry;
  // A loose pass watches nothing: parts as they are when the whole is highest.
  const partsOf = (what: string, atPeakN: SiteVector): SiteVector =>
    pass === "fine" ? peakParts(posed, forceRuns, what) : atPeakN;
  const beamOf = (what: string, atPeakN: SiteVector) => peakBeamForce(posed, atPeakN, partsOf(what, atPeakN));
  const inParts = (p: PointForces): PointForces => ({ ...p, forceN: partsOf(`point/${p.point.id}`, p.forceN) });
  const uses = utilisations(device, posed, points, rating);
  const lines = lineForces(situation, forceRuns, choices);
  return {
    lines,
    partsN: pass === "fine" ? partPeaks(situation, lines, choices.lost) : {},
    points: points.map(
      ({ point, at, forceN }, i): PointPeak => ({
        pointId: point.id,
        name: point.name,
        at,
        peakN: bandOf(felt, (f) => norm(f.points[i]?.forceN ?? ZERO)),
        forceN,
        inBeam: beamOf(`point/${point.id}`, forceN),
      }),
    ),
    tipN: bandOf(felt, (f) => f.tipN),
    tipBeforeN: norm(tipBefore(situation)),
    tipInBeam: beamOf(ALL_POINTS, worst.tip),
    utilisations:
      pass === "fine"
        ? { ...utilisations(device, posed, points.map(inParts), rating), resultant: uses.resultant }
        : uses,
    person: personForce(situation, forceRuns),
    dropM: bandOf(runs, (run) => run.load.dropM),
    swingM: bandOf(runs, (run) => run.load.swingM),
    nearest: nearestOf(situation, runs),
    hits: hitsOf(situation, runs),
    lowest: runs.reduce((a, b) => (b.load.dropM > a.load.dropM ? b : a), entered).load.lowest,
    farthest: runs.reduce((a, b) => (b.load.swingM > a.load.swingM ? b : a), entered).load.farthest,
  };
}

/** One run with what the rigging points feel in it, one by one and together, N. */
interface Felt {
  readonly run: LetGo;
  readonly points: readonly PointForces[];
  readonly tip: SiteVector;
  readonly tipN: number;
}

interface PointForces extends RiggingForce {
  readonly at: SiteVector;
}

/** Each rigging point's force, N; where two lines hang from one, the peaks of both as at one moment. */
function pointForces({ state }: SolvedPlan, run: LetGo): readonly PointForces[] {
  const mains = state?.mains ?? [];
  const shared = run.nodes.tip?.forceN;
  return [...new Set(mains.map((m) => m.laid.point))].map((point, i) => {
    const own = mains.filter((m) => m.laid.point === point);
    const forceN = own.reduce((sum, m) => add(sum, run.nodes[tipOf(m.laid.line.id)]?.forceN ?? ZERO), ZERO);
    // With a tip that gives both hang from one place: all of it is counted at the first.
    return { point, at: own[0]?.laid.pointAt ?? ZERO, forceN: shared && i === 0 ? shared : forceN };
  });
}

function tipBefore({ state, plan }: SolvedPlan): SiteVector {
  const ran = plan.rig.load.motion === "lower" ? "lower" : "raise";
  return (state?.mains ?? []).reduce((sum, m) => add(sum, sheavePull(m.nodes, m.tensionsN[ran], 1)), ZERO);
}

function lineForces(
  { plan, state }: SolvedPlan,
  runs: readonly LetGo[],
  { belays = {} }: LetGoChoices,
): readonly LineForce[] {
  const all = [
    ...(state?.mains ?? []).map((m) => ({
      line: m.laid.line,
      role: "main" as const,
      beforeN: m.tensionsN.raise[0] ?? 0,
      handsHoldN: null,
      brake: m.laid.line.brake.device,
    })),
    ...(state?.tags ?? []).map(({ laid: { line }, tensionN }) => ({
      line,
      role: "tagline" as const,
      beforeN: tensionN,
      handsHoldN: line.drive === "length" || belays[line.id] ? null : tagHandsHoldN(plan, line),
      brake: belays[line.id]?.brake ?? null,
    })),
    ...(state?.tether ? [state.tether] : []).map(({ laid: { line }, tensionN }) => ({
      line,
      role: "tether" as const,
      beforeN: tensionN,
      handsHoldN: line.drive === "length" ? null : tetherHandsHoldN(plan, line),
      brake: null,
    })),
  ];
  return all.flatMap(({ line, role, beforeN, handsHoldN, brake }): LineForce[] => {
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
        brake,
        slippedM: brake === null ? 0 : ranM(own.map((run) => run.lines[line.id]?.paidOutM ?? 0)),
      },
    ];
  });
}

/** Less is rounding, m. */
const ROUNDING_M = 1e-6;

function ranM(all: readonly number[]): number {
  const most = Math.max(0, ...all);
  return most < ROUNDING_M ? 0 : most;
}

/** All peaks at the load as at one moment and one way, times the part that the heaviest person is of it: never too little. */
function personForce({ plan, sum }: SolvedPlan, runs: readonly LetGo[]): LetGoFigures["person"] {
  const people = plan.rig.load.parts.filter((p) => PERSON_KINDS.has(p.kind));
  const heaviest = people.reduce((a, b) => ((b.massKg ?? 0) > (a?.massKg ?? -1) ? b : a), people[0]);
  if (!heaviest || sum.massKg === null) return null;
  const pulls = bandOf(runs, (run) => Object.values(run.lines).reduce((total, line) => total + line.peakN, 0));
  return { name: heaviest.name, peakN: scaled(pulls, (heaviest.massKg ?? 0) / sum.massKg) };
}

function nearestOf({ plan }: SolvedPlan, runs: readonly LetGo[]): readonly NearestWay[] {
  const ofRuns = runs.map((run) => {
    const nearest = new Map<string, Omit<NearestWay, "bandM">>();
    for (const [id, { distanceM, atS, load }] of Object.entries(run.approaches)) {
      const what = id === floorOf(YOKE) ? BELOW : nameOfSolid(plan, id);
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

/** Slower than this is no hit, m/s. */
const HIT_MS = 0.05;

function hitsOf({ plan }: SolvedPlan, runs: readonly LetGo[]): readonly Hit[] {
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
