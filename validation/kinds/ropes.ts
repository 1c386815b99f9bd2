import {
  asSite,
  type Network,
  type NetworkAnswer,
  pullsToHold,
  type SiteVector,
  site,
  solveNetwork,
} from "@gantline/engine";
import { type Inputs, listIn, numberIn, numbersIn, radians } from "../validation-case.ts";
import type { Way } from "../way.ts";

/** So stiff that a rope's stretch does not show in the figures compared. */
const STIFF_N_PER_N = 1e8;

/** An answer of the network solver; a typed failure fails the case. */
export function solved(network: Network): NetworkAnswer {
  const solution = solveNetwork(network);
  if (!solution.ok) throw new Error(`${solution.code} at ${solution.where}: ${solution.hint}`);
  return solution;
}

const force = (answer: NetworkAnswer, node: string): SiteVector =>
  asSite(answer.forcesOnFixedN[node] ?? [Number.NaN, 0, 0]);
const tension = (answer: NetworkAnswer, line: string, segment = 0): number =>
  answer.lines[line]?.tensionsN[segment] ?? Number.NaN;

/** One rope over a fixed sheave, its two parts an angle apart. */
export function pulleyLoad(inputs: Inputs): readonly Way[] {
  const angle = radians(
    "deflectionDeg" in inputs ? 180 - numberIn(inputs, "deflectionDeg") : numberIn(inputs, "angleBetweenDeg"),
  );
  const pull = "linePull" in inputs ? numberIn(inputs, "linePull") : 1;
  const answer = solved({
    nodes: {
      a: { position: [0, 0, -10] },
      sheave: { position: [0, 0, 0] },
      b: { position: [12 * Math.sin(angle), 0, -12 * Math.cos(angle)] },
    },
    lines: { rope: { through: ["a", "sheave", "b"], tensionN: pull } },
  });
  const load = Math.hypot(...force(answer, "sheave"));
  return [{ way: "network", values: { factor: load / pull, load } }];
}

/** The ropes of a case, as directions from the node they meet at: a point to go through, or an angle in the x–z plane. */
const directionsIn = (inputs: Inputs): readonly SiteVector[] =>
  listIn(inputs, "ropes").map((rope) => {
    if ("toward" in rope) {
      const [x = 0, y = 0, z = 0] = numbersIn(rope, "toward");
      return site(x, y, z);
    }
    const angle = radians(numberIn(rope, "aboveHorizontalDeg"));
    return site(numberIn(rope, "side") * Math.cos(angle), 0, Math.sin(angle));
  });

/** A load where ropes of known direction meet. */
export function ropesAtANode(inputs: Inputs): readonly Way[] {
  const load =
    "massKg" in inputs ? numberIn(inputs, "massKg") * numberIn(inputs, "gravityMS2") : numberIn(inputs, "load");
  const directions = directionsIn(inputs);
  const forceN = site(0, 0, -load);
  const ends = directions.map((d) => asSite(d.map((c) => (10 * c) / Math.hypot(...d)) as never));
  const answer = solved({
    nodes: {
      node: { position: [0, 0, 0], free: true, forceN },
      ...Object.fromEntries(ends.map((e, i) => [`end${i}`, { position: e }])),
    },
    lines: Object.fromEntries(
      ends.map((_, i) => [
        `rope${i}`,
        { through: ["node", `end${i}`], lengthM: 10, axialStiffnessN: STIFF_N_PER_N * load },
      ]),
    ),
  });
  const [main = site(0, 0, 0), ...hands] = ends;
  const held = pullsToHold(
    site(0, 0, 0),
    [{ toward: main, share: 1 }],
    hands.map((toward) => ({ toward, tensionN: null })),
    forceN,
  );
  const named = (tensions: readonly number[]) => Object.fromEntries(tensions.map((t, i) => [`T${i + 1}`, t]));
  return [
    { way: "network", values: named(ends.map((_, i) => tension(answer, `rope${i}`))) },
    { way: "held", values: named([held.mainN, ...held.handsN]) },
  ];
}

/** A mass on springs that only pull, of given unstretched length. */
export function springsAtANode(inputs: Inputs): readonly Way[] {
  const anchors = inputs.anchorsM as readonly (readonly [number, number, number])[];
  const [x = 0, y = 0, z = 0] = numbersIn(inputs, "forceN");
  const lengths = numbersIn(inputs, "lengthM");
  const stiffness = numbersIn(inputs, "axialStiffnessN");
  const answer = solved({
    nodes: {
      load: { position: [0.3, 0.2, 5], free: true, massKg: numberIn(inputs, "massKg"), forceN: [x, y, z] },
      ...Object.fromEntries(anchors.map((position, i) => [`anchor${i}`, { position }])),
    },
    lines: Object.fromEntries(
      anchors.map((_, i) => [
        `rope${i}`,
        {
          through: ["load", `anchor${i}`],
          lengthM: lengths[i] ?? Number.NaN,
          axialStiffnessN: stiffness[i] ?? Number.NaN,
        },
      ]),
    ),
  });
  const [px = Number.NaN, py = Number.NaN, pz = Number.NaN] = answer.nodes.load?.position ?? [];
  return [
    {
      way: "network",
      values: {
        x: px,
        y: py,
        z: pz,
        ...Object.fromEntries(anchors.map((_, i) => [`T${i + 1}`, tension(answer, `rope${i}`)])),
      },
    },
  ];
}

/**
 * A rope over three sheaves that each pass the same part of the tension, whatever their wrap: hung up and down along one
 * plumb line, so that every sheave turns the rope by 180°, for which efficiency is quoted.
 * The lengths are those of the rope without tension; the fixed places are set apart by what the product finds them stretched to.
 */
export function ropePath(inputs: Inputs): readonly Way[] {
  const [toTip = 0, toBase = 0, toOutrigger = 0, toDevice = 0] = numbersIn(inputs, "unstretchedM");
  const stiffness = numberIn(inputs, "axialStiffnessN");
  const efficiency = numberIn(inputs, "efficiency");
  const travel = inputs.motion === "raise" ? "toEnd" : inputs.motion === "lower" ? "toStart" : "none";
  const hang = (base: number, outrigger: number, device: number): NetworkAnswer => {
    const tipZ = 100;
    const baseZ = tipZ - base;
    const outriggerZ = baseZ + outrigger;
    return solved({
      nodes: {
        load: { position: [0, 0, tipZ - toTip], free: true, massKg: numberIn(inputs, "massKg") },
        tip: { position: [0, 0, tipZ] },
        base: { position: [0, 0, baseZ] },
        outrigger: { position: [0, 0, outriggerZ] },
        device: { position: [0, 0, outriggerZ - device] },
      },
      lines: {
        rope: {
          through: ["load", "tip", "base", "outrigger", "device"],
          lengthM: toTip + toBase + toOutrigger + toDevice,
          axialStiffnessN: stiffness,
          efficiency: [efficiency, efficiency, efficiency],
          travel,
        },
      },
    });
  };
  const first = hang(toBase, toOutrigger, toDevice).lines.rope?.tensionsN ?? [];
  const stretched = (length: number, segment: number): number =>
    length * (1 + (first[segment] ?? Number.NaN) / stiffness);
  const rope = hang(stretched(toBase, 1), stretched(toOutrigger, 2), stretched(toDevice, 3)).lines.rope;
  const total = rope?.segmentsM.reduce((sum, l) => sum + l, 0) ?? Number.NaN;
  const stretch = total - (rope?.unstretchedM ?? Number.NaN);
  return [
    {
      way: "network",
      values: { stretch, ...Object.fromEntries((rope?.tensionsN ?? []).map((t, i) => [`T${i + 1}`, t])) },
    },
  ];
}

/** A mass on one hanging rope: how far it stretches. */
export function hangingStretch(inputs: Inputs): readonly Way[] {
  const length = numberIn(inputs, "lengthM");
  const area = (Math.PI / 4) * numberIn(inputs, "diameterM") ** 2;
  const answer = solved({
    nodes: {
      load: { position: [0, 0, -length], free: true, massKg: numberIn(inputs, "massKg") },
      top: { position: [0, 0, 0] },
    },
    lines: {
      rope: { through: ["load", "top"], lengthM: length, axialStiffnessN: numberIn(inputs, "modulusPa") * area },
    },
    gravityMS2: numberIn(inputs, "gravityMS2"),
  });
  return [{ way: "network", values: { stretch: (answer.lines.rope?.segmentsM[0] ?? Number.NaN) - length } }];
}

/**
 * A square frame of pinned bars with a cable along each diagonal, its far top corner pushed level. The product knows no bars that
 * push: the upright one under that corner is a rope that pulls it up as much. The near top corner is free, on three lines.
 */
export function bracedFrame(inputs: Inputs): readonly Way[] {
  const side = numberIn(inputs, "sideM");
  const load = numberIn(inputs, "load");
  const stiff = { axialStiffnessN: STIFF_N_PER_N * load };
  const answer = solved({
    nodes: {
      "1": { position: [0, 0, 0] },
      "2": { position: [0, 0, side], free: true },
      "3": { position: [side, 0, 0] },
      "4": { position: [side, 0, side], free: true, forceN: [load, 0, 0] },
      above: { position: [side, 0, 2 * side] },
    },
    lines: {
      cable14: { through: ["1", "4"], lengthM: Math.SQRT2 * side, ...stiff },
      cable23: { through: ["2", "3"], lengthM: Math.SQRT2 * side, ...stiff },
      bar12: { through: ["1", "2"], lengthM: side, ...stiff },
      bar24: { through: ["2", "4"], lengthM: side, ...stiff },
      bar34: { through: ["4", "above"], lengthM: side, ...stiff },
    },
  });
  const pulls = Object.fromEntries(
    ["cable14", "cable23", "bar12", "bar24"].map((name) => [name, tension(answer, name)]),
  );
  return [{ way: "network", values: { ...pulls, bar34: -tension(answer, "bar34") } }];
}

/** A load in a loop of rope under one fixed sheave, the free end pulled up by hand: four strands at the load, three at the ceiling. */
export function handLift(inputs: Inputs): readonly Way[] {
  const answer = solved({
    nodes: {
      load: { position: [0, 0, 1], free: true, massKg: numberIn(inputs, "massKg") },
      hand: { position: [0, 0, 12] },
      sheave: { position: [0, 0, 11] },
      end: { position: [0, 0, 10] },
    },
    lines: { rope: { through: ["hand", "load", "sheave", "load", "end"], lengthM: 38, axialStiffnessN: 1e6 } },
    gravityMS2: numberIn(inputs, "gravityMS2"),
  });
  return [
    {
      way: "network",
      values: { pull: tension(answer, "rope"), ceiling: -force(answer, "sheave")[2] - force(answer, "end")[2] },
    },
  ];
}
