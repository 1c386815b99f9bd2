import {
  asSite,
  type Catenary,
  type CatenaryFailure,
  catenary,
  catenaryOfTension,
  doublePendulumPeriods,
  type Network,
  site,
  swing,
} from "@gantline/engine";
import { type Inputs, numberIn, numbersIn, radians } from "../validation-case.ts";
import type { Way } from "../way.ts";
import { solved } from "./ropes.ts";

const GRAVITY_MS2 = 9.80665;

function hung(found: Catenary | CatenaryFailure): Catenary {
  if (!found.ok) throw new Error(`${found.code}: ${found.hint}`);
  return found;
}

/** A rope of given length between two places: by itself, and as a line of a network between two fixed nodes. */
export function hangingRope(inputs: Inputs): readonly Way[] {
  const [lengthM, axialStiffnessN, weightNM] = [
    numberIn(inputs, "lengthM"),
    numberIn(inputs, "axialStiffnessN"),
    numberIn(inputs, "weightNM"),
  ];
  const far = site(numberIn(inputs, "levelM"), 0, numberIn(inputs, "riseM"));
  const rope = hung(catenary({ lengthM, axialStiffnessN, weightNM }, site(0, 0, 0), far));
  const { forcesOnFixedN } = solved({
    nodes: { a: { position: [0, 0, 0] }, b: { position: far } },
    lines: {
      rope: { through: ["a", "b"], lengthM, axialStiffnessN, linearMassKgM: weightNM / GRAVITY_MS2, sag: true },
    },
  });
  const pulls = (onA: readonly number[] = [], onB: readonly number[] = []) => ({
    H: onA[0] ?? Number.NaN,
    VA: onA[2] ?? Number.NaN,
    VB: -(onB[2] ?? Number.NaN),
  });
  return [
    { way: "catenary", values: { ...pulls(rope.forceOnAN, rope.forceOnBN), sag: rope.sagM } },
    { way: "network", values: { ...pulls(forcesOnFixedN.a, forcesOnFixedN.b), sag: rope.sagM } },
  ];
}

/** A level rope that does not stretch, pulled with a given tension at either end. */
export function pulledRope(inputs: Inputs): readonly Way[] {
  const rope = { axialStiffnessN: null, weightNM: numberIn(inputs, "weightNM") };
  const far = site(numberIn(inputs, "levelM"), 0, 0);
  return (["A", "B"] as const).map((end) => {
    const found = hung(catenaryOfTension(rope, site(0, 0, 0), far, end, numberIn(inputs, "tensionN")));
    return { way: `held at ${end}`, values: { sag: found.sagM, H: found.forceOnAN[0] } };
  });
}

/**
 * One rope over two spans and a free pulley between them, which hangs from a stiff hanger: no loss, so that both parts pull
 * alike at the pulley. How hard is found from how much rope there is. And each span by itself, with half of the rope.
 */
export function spansOverAPulley(inputs: Inputs): readonly Way[] {
  const [spanM, ropeM, axialStiffnessN, weightNM] = [
    numberIn(inputs, "spanM"),
    numberIn(inputs, "ropeM"),
    numberIn(inputs, "axialStiffnessN"),
    numberIn(inputs, "weightNM"),
  ];
  const hang = (tensionN: number) => {
    const part = { tensionN, axialStiffnessN, linearMassKgM: weightNM / GRAVITY_MS2, sag: true };
    return solved({
      nodes: {
        a: { position: [0, 0, 0] },
        pulley: { position: [spanM + 1, 2, -3], free: true },
        b: { position: [2 * spanM, 0, 0] },
        top: { position: [spanM, 0, numberIn(inputs, "hangerM")] },
      },
      lines: {
        left: { ...part, through: ["pulley", "a"] },
        right: { ...part, through: ["pulley", "b"] },
        hanger: { through: ["pulley", "top"], lengthM: numberIn(inputs, "hangerM"), axialStiffnessN: 1e12 },
      },
    });
  };
  const rope = ({ lines }: ReturnType<typeof hang>) =>
    (lines.left?.unstretchedM ?? 0) + (lines.right?.unstretchedM ?? 0);
  let [low, high] = [weightNM * spanM, 100 * weightNM * spanM];
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (rope(hang(middle)) > ropeM) low = middle;
    else high = middle;
  }
  const found = hang(low);
  const at = (node: string) => asSite(found.nodes[node]?.position ?? [Number.NaN, 0, 0]);
  const sagOf = (line: "left" | "right", end: "a" | "b") =>
    hung(
      catenary(
        { lengthM: found.lines[line]?.unstretchedM ?? Number.NaN, axialStiffnessN, weightNM },
        at("pulley"),
        at(end),
      ),
    ).sagM;
  const half = hung(catenary({ lengthM: ropeM / 2, axialStiffnessN, weightNM }, site(0, 0, 0), site(spanM, 0, 0)));
  return [
    {
      way: "network",
      values: {
        sagLeft: sagOf("left", "a"),
        sagRight: sagOf("right", "b"),
        H: found.forcesOnFixedN.a?.[0] ?? Number.NaN,
        Tmax: low,
      },
    },
    {
      way: "catenary",
      values: {
        sagLeft: half.sagM,
        sagRight: half.sagM,
        H: half.forceOnAN[0],
        Tmax: Math.max(Math.hypot(...half.forceOnAN), Math.hypot(...half.forceOnBN)),
      },
    },
  ];
}

/** A mass on ropes that sag. */
export function saggingRopesAtANode(inputs: Inputs): readonly Way[] {
  const anchors = inputs.anchorsM as readonly (readonly [number, number, number])[];
  const lengths = numbersIn(inputs, "lengthM");
  const stiffness = numbersIn(inputs, "axialStiffnessN");
  const linearMassKgM = numberIn(inputs, "weightNM") / GRAVITY_MS2;
  const network: Network = {
    nodes: {
      load: { position: [0.3, 0.2, 5], free: true, massKg: numberIn(inputs, "massKg") },
      ...Object.fromEntries(anchors.map((position, i) => [`anchor${i}`, { position }])),
    },
    lines: Object.fromEntries(
      anchors.map((_, i) => [
        `rope${i}`,
        {
          through: ["load", `anchor${i}`],
          lengthM: lengths[i] ?? Number.NaN,
          axialStiffnessN: stiffness[i] ?? Number.NaN,
          linearMassKgM,
          sag: true,
        },
      ]),
    ),
  };
  const answer = solved(network);
  const [x, y, z] = asSite(answer.nodes.load?.position ?? [Number.NaN, 0, 0]);
  const ends = anchors.flatMap((_, i) => {
    const line = answer.lines[`rope${i}`];
    return [
      [`T${i + 1}`, line?.tensionsN[0] ?? Number.NaN],
      [`anchor${i + 1}`, line?.tensionAtEndN ?? Number.NaN],
    ] as const;
  });
  return [{ way: "network", values: { x, y, z, ...Object.fromEntries(ends) } }];
}

/** A load let go at an angle from plumb under a place 100 m up. */
function letGo(ropeM: number, amplitudeRad: number, gravityMS2: number) {
  const held = site(ropeM * Math.sin(amplitudeRad), 0, 100 - ropeM * Math.cos(amplitudeRad));
  const found = swing({ held, rest: site(0, 0, 100 - ropeM), ropeM, weightN: 1000, gravityMS2 });
  if (!found.ok) throw new Error(`${found.code}: ${found.hint}`);
  return found;
}

/** The time of a small swing: as such, and as what that of any amplitude comes to. */
export function pendulum(inputs: Inputs): readonly Way[] {
  const gravity = "gravityMS2" in inputs ? numberIn(inputs, "gravityMS2") : GRAVITY_MS2;
  const found = letGo(numberIn(inputs, "ropeM"), 1e-5, gravity);
  return [
    { way: "small", values: { T: found.smallPeriodS } },
    { way: "any amplitude", values: { T: found.periodS } },
  ];
}

export function swingPull(inputs: Inputs): readonly Way[] {
  const found = letGo(12, radians(numberIn(inputs, "amplitudeDeg")), GRAVITY_MS2);
  return [{ way: "swing", values: { factor: found.mostTensionN / 1000 } }];
}

export function doublePendulum(inputs: Inputs): readonly Way[] {
  const [upperM, lowerM, upperMassKg, lowerMassKg] = [
    numberIn(inputs, "upperM"),
    numberIn(inputs, "lowerM"),
    numberIn(inputs, "upperMassKg"),
    numberIn(inputs, "lowerMassKg"),
  ];
  const found = doublePendulumPeriods({ upperM, lowerM, upperMassKg, lowerMassKg });
  return [{ way: "swing", values: { slow: found?.slowS ?? Number.NaN, quick: found?.quickS ?? Number.NaN } }];
}
