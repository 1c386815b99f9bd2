import {
  dampingOfRatio,
  type LetGo,
  type LetGoLine,
  type LetGoOptions,
  type LetGoSystem,
  letGo,
  type Triple,
} from "@gantline/engine";
import { type Inputs, numberIn, radians } from "../validation-case.ts";
import type { Way } from "../way.ts";

const GRAVITY_MS2 = 9.80665;
/** Ropes of pendulums hardly stretch, N. */
const STIFF_N = 1e6;

function followed(system: LetGoSystem, cut: string | readonly string[], options: LetGoOptions): LetGo {
  const found = letGo(system, cut, options);
  if (!found.ok) throw new Error(`${found.code} at ${found.where}: ${found.hint}`);
  return found;
}

const given = (inputs: Inputs, name: string): number => (name in inputs ? numberIn(inputs, name) : 0);

/** One of two plumb lines goes: the one left runs straight up, or over a sheave without loss and down again. */
export function ropeLetsGo(inputs: Inputs): readonly Way[] {
  const [massKg, axialStiffnessN, lengthM] = [
    numberIn(inputs, "massKg"),
    numberIn(inputs, "axialStiffnessN"),
    numberIn(inputs, "lengthM"),
  ];
  const [share, slackM, ratio] = [given(inputs, "share"), given(inputs, "slackM"), given(inputs, "dampingRatio")];
  const weight = massKg * GRAVITY_MS2;
  const stiffness = axialStiffnessN / lengthM;
  const way = lengthM + (share * weight) / stiffness - slackM;
  const dampingNsM = dampingOfRatio(ratio, axialStiffnessN, lengthM, massKg);
  const line = { axialStiffnessN, lengthM, dampingNsM };
  const ways: Readonly<Record<string, { readonly heightM: number; readonly through: LetGoLine["through"] }>> = {
    "straight up": { heightM: way, through: ["load", "top"] },
    "over a sheave": { heightM: 0.6 * way, through: ["load", "top", "foot"] },
  };
  // A fall of more than the rope's length begins above what holds it.
  const possible = Object.entries(ways).filter(([, { through }]) => way > 0 || through.length === 2);
  return possible.map(([name, { heightM, through }]) => {
    const system: LetGoSystem = {
      nodes: {
        load: { positionM: [0, 0, 0], massKg },
        top: { positionM: [0, 0, heightM] },
        foot: { positionM: [0, 0, 2 * heightM - way] },
      },
      lines: {
        stays: { through, ...line },
        goes: { through: ["load", "top"], axialStiffnessN: null, startTensionN: (1 - share) * weight },
      },
      load: "load",
    };
    const { lines, load } = followed(system, "goes", { tolerance: 1e-9, durationS: 3 });
    const stretchN = stiffness * (load.dropM - slackM) + share * weight;
    return {
      way: name,
      values: {
        stretch: stretchN,
        ratio: stretchN / weight,
        drop: load.dropM,
        period: 2 * lines.stays!.atS,
        total: lines.stays!.peakN,
        totalKn: lines.stays!.peakN / 1000,
      },
    };
  });
}

/** The fall of the standard equation: f times the rope's length, free, then held. */
export function impactForce(inputs: Inputs): readonly Way[] {
  const lengthM = 2.6;
  return ropeLetsGo({
    massKg: numberIn(inputs, "massKg"),
    axialStiffnessN: 1000 * numberIn(inputs, "axialStiffnessKn"),
    lengthM,
    slackM: lengthM * numberIn(inputs, "fallFactor"),
  });
}

/** A load falls on a rope that hardly stretches and whose brake slips. */
export function brakeSlips(inputs: Inputs): readonly Way[] {
  const system: LetGoSystem = {
    nodes: {
      load: { positionM: [0, 0, 0], massKg: numberIn(inputs, "massKg") },
      top: { positionM: [0, 0, 3 - numberIn(inputs, "fallM")] },
    },
    lines: {
      rope: {
        through: ["load", "top"],
        axialStiffnessN: 1e9,
        lengthM: 3,
        holding: { kind: "brake", slipsAtN: numberIn(inputs, "slipsAtN") },
      },
    },
    load: "load",
  };
  const { lines } = followed(system, [], { tolerance: 1e-8, durationS: 0.8 });
  return [{ way: "let go", values: { slip: lines.rope!.paidOutM } }];
}

/**
 * Two loads on one rope over a sheave without loss, the heavier held up by another: that one goes. What the rope carries, and
 * how fast they gain speed, once its own quiver has died down.
 */
export function loadsOverASheave(inputs: Inputs): readonly Way[] {
  const [heavierKg, lighterKg, gravityMS2] = [
    numberIn(inputs, "heavierKg"),
    numberIn(inputs, "lighterKg"),
    numberIn(inputs, "gravityMS2"),
  ];
  const durationS = 1;
  const lengthM = 20;
  const system: LetGoSystem = {
    nodes: {
      heavier: { positionM: [0, 0, -8], massKg: heavierKg },
      lighter: { positionM: [0, 0, -12], massKg: lighterKg },
      sheave: { positionM: [0, 0, 0] },
    },
    lines: {
      rope: {
        through: ["heavier", "sheave", "lighter"],
        axialStiffnessN: STIFF_N,
        startTensionN: lighterKg * gravityMS2,
        dampingNsM: dampingOfRatio(0.5, STIFF_N, lengthM, lighterKg),
      },
      holds: {
        through: ["heavier", "sheave"],
        axialStiffnessN: null,
        startTensionN: (heavierKg - lighterKg) * gravityMS2,
      },
    },
    load: "heavier",
    gravityMS2,
  };
  const { load, motion } = followed(system, "holds", { tolerance: 1e-9, durationS, mostSamples: 2 });
  const tension = motion.tensionsN.rope?.at(-1) ?? Number.NaN;
  return [{ way: "let go", values: { acceleration: (2 * load.dropM) / durationS ** 2, tension } }];
}

interface Hanging {
  readonly positionM: Triple;
  readonly massKg: number;
}

/** Loads one under the other on stiff ropes, at rest where they are put; the rope of each carries what hangs under it. */
function hung(loads: readonly Hanging[], gravityMS2: number, axialStiffnessN = STIFF_N): LetGoSystem {
  const name = (i: number) => (i < 0 ? "top" : `load ${i}`);
  return {
    nodes: {
      top: { positionM: [0, 0, 0] },
      ...Object.fromEntries(loads.map((load, i) => [name(i), load])),
    },
    lines: Object.fromEntries(
      loads.map((_, i) => [
        `rope ${i}`,
        {
          through: [name(i), name(i - 1)],
          axialStiffnessN,
          startTensionN: loads.slice(i).reduce((sum, l) => sum + l.massKg, 0) * gravityMS2,
        },
      ]),
    ),
    load: name(loads.length - 1),
    gravityMS2,
  };
}

/** When the load first hangs plumb under the top, s: found by running it ever nearer to that time. */
function quarterS(system: LetGoSystem, guessS: number): number {
  const asideAt = (durationS: number) =>
    followed(system, [], { tolerance: 1e-10, durationS, mostSamples: 2 }).load.last[0];
  let [before, now] = [0.97 * guessS, 1.02 * guessS];
  let [was, is] = [asideAt(before), asideAt(now)];
  for (let round = 0; round < 5 && Math.abs(now - before) > 1e-9; round++) {
    const next = now - (is * (now - before)) / (is - was);
    [before, was] = [now, is];
    now = next;
    is = asideAt(now);
  }
  return now;
}

/** A time that grows with the square of the amplitude, brought down to none by two that are not small enough. */
const ofSmall = (timeOf: (angle: number) => number): number => (4 * timeOf(0.01) - timeOf(0.02)) / 3;

/** The time of a small swing, by following one. */
export function followedPendulum(inputs: Inputs): readonly Way[] {
  const gravity = "gravityMS2" in inputs ? numberIn(inputs, "gravityMS2") : GRAVITY_MS2;
  const ropeM = numberIn(inputs, "ropeM");
  const T = ofSmall((angle) => {
    const load = { positionM: [ropeM * Math.sin(angle), 0, -ropeM * Math.cos(angle)] as const, massKg: 100 };
    // 6/4 instead of π/2: where it is looked first.
    return 4 * quarterS(hung([load], gravity), 1.5 * Math.sqrt(ropeM / gravity));
  });
  return [{ way: "followed", values: { T } }];
}

/** The pull at the lowest place, by following the swing. */
export function followedSwing(inputs: Inputs): readonly Way[] {
  const angle = radians(numberIn(inputs, "amplitudeDeg"));
  const load = { positionM: [12 * Math.sin(angle), 0, -12 * Math.cos(angle)] as const, massKg: 100 };
  const system = hung([load], GRAVITY_MS2, 4e8);
  const rope = { ...system.lines["rope 0"]!, startTensionN: 100 * GRAVITY_MS2 * Math.cos(angle) };
  const { lines } = followed({ ...system, lines: { "rope 0": rope } }, [], { tolerance: 1e-10, durationS: 3 });
  return [{ way: "followed", values: { factor: lines["rope 0"]!.peakN / (100 * GRAVITY_MS2) } }];
}

/** The two times of a double pendulum, each by following the swing in which both loads come plumb at once. */
export function followedDoublePendulum(inputs: Inputs): readonly Way[] {
  const [upperM, lowerM, upperMassKg, lowerMassKg] = [
    numberIn(inputs, "upperM"),
    numberIn(inputs, "lowerM"),
    numberIn(inputs, "upperMassKg"),
    numberIn(inputs, "lowerMassKg"),
  ];
  // ω⁴ − (1 + m/M)(g/L + g/l) ω² + (1 + m/M) g²/(L l) = 0; in each the lower load needs ω²(L θ₁ + l θ₂) = g θ₂.
  const more = 1 + lowerMassKg / upperMassKg;
  const half = (more * GRAVITY_MS2 * (1 / upperM + 1 / lowerM)) / 2;
  const root = Math.sqrt(half ** 2 - (more * GRAVITY_MS2 ** 2) / (upperM * lowerM));
  const [slow, quick] = [half - root, half + root].map((squared) =>
    ofSmall((lower) => {
      const upper = (lower * (GRAVITY_MS2 - squared * lowerM)) / (squared * upperM);
      const [x, z] = [upperM * Math.sin(upper), -upperM * Math.cos(upper)];
      const loads: readonly Hanging[] = [
        { positionM: [x, 0, z], massKg: upperMassKg },
        { positionM: [x + lowerM * Math.sin(lower), 0, z - lowerM * Math.cos(lower)], massKg: lowerMassKg },
      ];
      return 4 * quarterS(hung(loads, GRAVITY_MS2), 1.5 / Math.sqrt(squared));
    }),
  );
  return [{ way: "followed", values: { slow: slow!, quick: quick! } }];
}
