import type { Failure } from "../base/outcome.ts";

/** A stretch of a cantilever with one bending stiffness. Stretches join end to end, from the clamped end (0) outward. */
export interface BeamPiece {
  readonly fromM: number;
  readonly toM: number;
  /** EI, N·m², > 0. */
  readonly bendingStiffnessNm2: number;
  /** Own weight square to the beam, N/m; positive bends it down. */
  readonly weightNPerM: number;
  /** Own weight along the beam, N/m; positive toward the clamped end. Counts in second order only. Left out: 0. */
  readonly axialWeightNPerM?: number;
}

/** A load at one station of a cantilever. */
export interface DeflectionLoad {
  readonly stationM: number;
  /** Square to the beam, N; positive bends it down. */
  readonly transverseN: number;
  /** N·m; positive bends the tip down. Left out: 0. */
  readonly momentNm?: number;
  /** Along the undeflected beam, N; positive toward the clamped end. Counts in second order only. Left out: 0. */
  readonly compressionN?: number;
  /**
   * How much the load pushes back for each metre its station sinks, N/m ≥ 0. A rope of tension T to a fixed place at
   * distance ℓ, not far from the beam's line, turns as its end sinks: T/ℓ. Counts in second order only. Left out: 0.
   */
  readonly restoringNPerM?: number;
}

export interface DeflectionAt {
  readonly stationM: number;
  /** m; positive down. */
  readonly deflectionM: number;
  /** rad; positive, the outer part points lower. */
  readonly slopeRad: number;
  /** N·m; positive bends the tip down. */
  readonly momentNm: number;
}

export interface BeamDeflection {
  readonly ok: true;
  readonly tipDeflectionM: number;
  readonly tipSlopeRad: number;
  /** At the ends of all pieces and at every load, from the clamped end outward. */
  readonly stations: readonly DeflectionAt[];
}

/**
 * How far does a stepped cantilever sink under transverse load, and, in second order, under axial load as well?
 *
 * Euler–Bernoulli beam, small slopes, clamped at 0. `order` 1 takes the moments on the straight beam; `order` 2 on the
 * sunk one (P-delta), with axial loads that keep their direction and are otherwise as each load says.
 * Solved stretch by stretch with the power series of EI θ'' = −(V + N θ), which ends by itself in first order and runs
 * to rounding in second: exact for piecewise constant EI and evenly spread weight. Cost: microseconds.
 * Where the axial load would buckle the beam there is no answer: the failure names the station from which outward it does.
 */
export function beamDeflection(
  pieces: readonly BeamPiece[],
  loads: readonly DeflectionLoad[],
  order: 1 | 2 = 1,
): BeamDeflection | Failure<"buckles" | "notABeam"> {
  if (!isBeam(pieces)) {
    return {
      ok: false,
      code: "notABeam",
      where: "pieces",
      hint: "Pieces must join end to end from 0, each with a length and a positive stiffness.",
    };
  }
  const stretches = cut(pieces, loads, order);

  // March from the free tip inward with tip deflection and slope unknown: one run for the loads, one for each unknown.
  let runs: Runs = { loads: { ...AT_REST }, sink: { ...AT_REST, y: 1 }, slope: { ...AT_REST, slope: 1 } };
  const passed: { stationM: number; runs: Runs }[] = [];
  for (const stretch of stretches) {
    runs = {
      loads: inward(enter(runs.loads, stretch, 1), stretch, 1),
      sink: inward(enter(runs.sink, stretch, 0), stretch, 0),
      slope: inward(enter(runs.slope, stretch, 0), stretch, 0),
    };
    passed.push({ stationM: stretch.fromM, runs });
    // The beam outside a clamp here stands as long as the two free shapes cannot both vanish at it (conjugate points).
    if (determinant(runs) <= STANDS) {
      return {
        ok: false,
        code: "buckles",
        where: `${stretch.fromM.toFixed(2)} m from the clamped end`,
        hint: "The load along the beam is beyond what it can carry without buckling.",
      };
    }
  }
  const root = determinant(runs);
  const tipDeflectionM = -(runs.loads.y * runs.slope.slope - runs.slope.y * runs.loads.slope) / root;
  const tipSlopeRad = -(runs.sink.y * runs.loads.slope - runs.loads.y * runs.sink.slope) / root;

  const at = (stationM: number, r: Runs): DeflectionAt => ({
    stationM,
    deflectionM: r.loads.y + tipDeflectionM * r.sink.y + tipSlopeRad * r.slope.y,
    slopeRad: r.loads.slope + tipDeflectionM * r.sink.slope + tipSlopeRad * r.slope.slope,
    momentNm: r.loads.moment + tipDeflectionM * r.sink.moment + tipSlopeRad * r.slope.moment,
  });
  const tipM = pieces.at(-1)?.toM ?? 0;
  const wanted = new Set([0, ...pieces.map((p) => p.toM), ...loads.map((l) => l.stationM)]);
  const stations = passed
    .filter((p) => wanted.has(p.stationM))
    .map((p) => at(p.stationM, p.runs))
    .reverse();
  const tip = {
    stationM: tipM,
    deflectionM: tipDeflectionM,
    slopeRad: tipSlopeRad,
    momentNm: stretches[0]?.moment ?? 0,
  };
  return { ok: true, tipDeflectionM, tipSlopeRad, stations: [...stations, tip] };
}

/** Deflection (m) and slope (rad) between the stations of an answer, by the cubic through both ends; 0 at the clamp, the tip's beyond the tip. */
export function deflectionAt(
  answer: BeamDeflection,
  stationM: number,
): { readonly deflectionM: number; readonly slopeRad: number } {
  const { stations } = answer;
  const i = stations.findIndex((s) => s.stationM >= stationM);
  const b = i < 0 ? stations.at(-1) : stations[i];
  const a = i > 0 ? stations[i - 1] : b;
  if (!a || !b) return { deflectionM: 0, slopeRad: 0 };
  const h = b.stationM - a.stationM;
  if (h <= 0) return { deflectionM: b.deflectionM, slopeRad: b.slopeRad };
  const t = (stationM - a.stationM) / h;
  const rise = b.deflectionM - a.deflectionM;
  const c = h * a.slopeRad;
  const d = 3 * rise - 2 * c - h * b.slopeRad;
  const e = c + h * b.slopeRad - 2 * rise;
  return { deflectionM: a.deflectionM + t * (c + t * (d + t * e)), slopeRad: (c + t * (2 * d + 3 * t * e)) / h };
}

/** What holds at one station: deflection, slope, moment, shear. */
interface BeamState {
  readonly y: number;
  readonly slope: number;
  readonly moment: number;
  readonly shear: number;
}

interface Runs {
  readonly loads: BeamState;
  readonly sink: BeamState;
  readonly slope: BeamState;
}

const AT_REST: BeamState = { y: 0, slope: 0, moment: 0, shear: 0 };

/** The determinant is 1 at a free tip and 0 where the beam outside a clamp buckles; below this it is as good as buckled. */
const STANDS = 1e-6;
const determinant = (r: Runs): number => r.sink.y * r.slope.slope - r.slope.y * r.sink.slope;

/** A short stretch of one piece and what enters at its outer end. */
interface Stretch {
  readonly fromM: number;
  readonly lengthM: number;
  readonly stiffness: number;
  readonly weight: number;
  readonly axialWeight: number;
  /** Compression just inside the outer end, N. */
  readonly compression: number;
  readonly transverse: number;
  readonly moment: number;
  readonly restoring: number;
}

/** Cut the beam at every load, and so short that no stretch could buckle more than once (length · √(N/EI) ≤ 1). From the tip inward. */
function cut(pieces: readonly BeamPiece[], loads: readonly DeflectionLoad[], order: 1 | 2): readonly Stretch[] {
  const second = order === 2 ? 1 : 0;
  const tipM = pieces.at(-1)?.toM ?? 0;
  const place = (l: DeflectionLoad): number => Math.min(Math.max(l.stationM, 0), tipM);
  const stretches: Stretch[] = [];
  let compression = 0;
  for (const piece of [...pieces].reverse()) {
    const axialWeight = second * (piece.axialWeightNPerM ?? 0);
    const inside = loads.map(place).filter((s) => s > piece.fromM && s < piece.toM);
    const ends = [...new Set([piece.fromM, ...inside, piece.toM])].sort((a, b) => b - a);
    for (let i = 1; i < ends.length; i++) {
      const outer = ends[i - 1] as number;
      const inner = ends[i] as number;
      const here = loads.filter((l) => place(l) === outer);
      const sum = (of: (l: DeflectionLoad) => number | undefined): number =>
        here.reduce((total, l) => total + (of(l) ?? 0), 0);
      compression += second * sum((l) => l.compressionN);
      const largest = Math.max(Math.abs(compression), Math.abs(compression + axialWeight * (outer - inner)));
      const parts = Math.max(1, Math.ceil((outer - inner) * Math.sqrt(largest / piece.bendingStiffnessNm2)));
      const lengthM = (outer - inner) / parts;
      for (let part = 0; part < parts; part++) {
        const first = part === 0;
        stretches.push({
          fromM: part === parts - 1 ? inner : outer - (part + 1) * lengthM,
          lengthM,
          stiffness: piece.bendingStiffnessNm2,
          weight: piece.weightNPerM,
          axialWeight,
          compression,
          transverse: first ? sum((l) => l.transverseN) : 0,
          moment: first ? sum((l) => l.momentNm) : 0,
          restoring: first ? second * sum((l) => l.restoringNPerM) : 0,
        });
        compression += axialWeight * lengthM;
      }
    }
  }
  return stretches;
}

/** Step over the loads at a stretch's outer end. */
function enter(state: BeamState, stretch: Stretch, loaded: 0 | 1): BeamState {
  return {
    ...state,
    moment: state.moment + loaded * stretch.moment,
    shear: state.shear + loaded * stretch.transverse - stretch.restoring * state.y,
  };
}

/**
 * From the outer to the inner end of a stretch. With t inward from the outer end: y' = −θ, EI θ' = −M, M' = V + N θ, V' = w,
 * N' = n. The series θ = Σ b_k (t/h)^k follows from EI θ'' = −(V + N θ).
 */
function inward(state: BeamState, stretch: Stretch, loaded: 0 | 1): BeamState {
  const { lengthM: h, stiffness, axialWeight } = stretch;
  const weight = loaded * stretch.weight;
  const f = (h * h) / stiffness;
  let before = 0; // b_{k−1}
  let now = state.slope; // b_k
  let next = (-state.moment * h) / stiffness; // b_{k+1}
  let slope = now + next;
  let drop = now + next / 2; // Σ b_k/(k+1)
  let turn = next; // Σ k b_k
  for (let k = 0; k < MOST_TERMS; k++) {
    const load = k === 0 ? state.shear : k === 1 ? weight * h : 0;
    const b = (-f * (load + stretch.compression * now + axialWeight * h * before)) / ((k + 2) * (k + 1));
    slope += b;
    drop += b / (k + 3);
    turn += (k + 2) * b;
    before = now;
    now = next;
    next = b;
    if (k > 1 && before === 0 && now === 0 && next === 0) break;
  }
  return { y: state.y - h * drop, slope, moment: (-stiffness * turn) / h, shear: state.shear + weight * h };
}

/** Terms fall as 1/k! on a stretch: forty are far beyond rounding. */
const MOST_TERMS = 40;

function isBeam(pieces: readonly BeamPiece[]): boolean {
  let end = 0;
  for (const piece of pieces) {
    if (piece.fromM !== end || !(piece.toM > end) || !(piece.bendingStiffnessNm2 > 0)) return false;
    end = piece.toM;
  }
  return end > 0;
}
