import { STANDARD_GRAVITY_MS2 } from "../../base/constants.ts";
import { asSite, dot, lengthOf, type SiteVector, scale, type Triple } from "../../base/vector.ts";
import type { CompiledFace, CompiledLine, CompiledStop, CompiledSystem, Mover, Rider } from "./compiled-system.ts";
import type { LetGoLine, LetGoNode, LetGoSystem, Stop, StopPlane } from "./let-go-types.ts";
import { chainAsLaid, layChain, ropeChain } from "./rope-chain.ts";
import { setAllGeometry } from "./set-geometry.ts";
import { barredEvents } from "./step-events.ts";

/** A field that is wrong or not known. */
export interface BadField {
  readonly code: "bad-input" | "unknown";
  readonly where: string;
  readonly hint: string;
}

/**
 * Checks a system and turns its names into numbers. Lines in `cut` hold until the start only; of them nothing more is asked
 * than their tension, and that only where something gives. The first field found wanting is returned instead.
 *
 * What is compiled of a system is kept by its identity, as it never changes in place, and is good until it is compiled again.
 */
export function compileSystem(system: LetGoSystem, cut: readonly string[]): CompiledSystem | BadField {
  try {
    return compiled(system, cut);
  } catch (wrong) {
    if (wrong instanceof WrongField) return wrong.field;
    throw wrong;
  }
}

/** Only ever thrown and caught in this file, so that each field can be read where it is used. */
class WrongField extends Error {
  constructor(readonly field: BadField) {
    super(field.hint);
  }
}

function refuse(where: string, expected: string): never {
  throw new WrongField({ code: "bad-input", where, hint: `${where} must be ${expected}.` });
}

function compiled(system: LetGoSystem, cut: readonly string[]): CompiledSystem {
  const frame = frameOf(system);
  const { nodeNames, movers, nodesThatGive, rig } = frame;
  for (const name of cut) if (!(name in system.lines)) refuse("cut", `the names of lines; ${name} is none`);
  rig.positionM.set(frame.positionM);
  for (const m of movers) {
    m.against.clear();
    m.face.fill(0);
    m.beyondM.fill(0);
    m.pinned = -1;
  }
  const lines: CompiledLine[] = [];
  const justBefore: CompiledLine[] = [];
  for (const name of Object.keys(system.lines)) {
    const isCut = cut.includes(name);
    if (isCut && !system.lines[name]!.through.some((node) => nodesThatGive.has(node))) continue;
    const { line, layAgain } = frame.laid.get(name) ?? layLine(system, frame, name, isCut);
    layAgain();
    justBefore.push(line);
    if (!isCut) lines.push(line);
  }
  for (const m of movers) if (m.gives) m.gives.startN = -pullAlong({ ...rig, lines: justBefore }, m, m.gives.along);
  const left = { ...rig, lines };
  const rider = riderOf(system, left);
  const touched = new Set(lines.flatMap(({ through }) => [...through]));
  const held = [...touched].filter((n) => n !== rider?.node && movers[rig.moverOfNode[n]!]?.gives !== null);
  return { ...left, rider, held: Int32Array.from(held), nodeNames };
}

/** All of a system that stays the same whichever of its lines go, and those of its lines that were laid out so far. */
interface Frame {
  readonly nodeNames: readonly string[];
  /** Where all nodes are just before. */
  readonly positionM: Float64Array;
  readonly movers: readonly Mover[];
  readonly nodesThatGive: ReadonlySet<string>;
  readonly riders: ReadonlySet<number>;
  readonly rig: CompiledSystem;
  readonly laid: Map<string, LaidAgain>;
}

/** A line as it is just before, and how it is put back to that. */
interface LaidAgain {
  readonly line: CompiledLine;
  readonly layAgain: () => void;
}

/** Systems that were compiled before: of one plan at one moment each line goes in turn. */
const knownFrames = new WeakMap<LetGoSystem, Frame>();

function frameOf(system: LetGoSystem): Frame {
  const known = knownFrames.get(system);
  if (known) return known;
  const nodeNames = Object.keys(system.nodes);
  const nodes = Object.values(system.nodes);
  const gravityMS2 = number(system.gravityMS2 ?? STANDARD_GRAVITY_MS2, "gravityMS2", 0);
  const stopCount = Object.keys(system.stops ?? {}).length;
  const movers: Mover[] = [];
  const moverOfNode = new Int32Array(nodes.length).fill(-1);
  for (const [i, node] of nodes.entries()) {
    const path = `nodes.${nodeNames[i]}`;
    triple(node.positionM, `${path}.positionM`);
    if (node.massKg === undefined && node.gives) refuse(`${path}.massKg`, "given for a node that gives");
    if (node.massKg !== undefined && node.rides)
      refuse(`${path}.massKg`, "left out of a pulley that rides without mass");
    if (node.massKg === undefined) continue;
    moverOfNode[i] = movers.length;
    movers.push(mover(node, i, movers.length, path, gravityMS2, stopCount));
  }
  const load =
    movers.find((m) => nodeNames[m.node] === system.load) ?? refuse("load", "the name of a node with a mass");
  for (const m of movers)
    if (m.gives && nodes[m.node]!.velocityMS)
      refuse(`nodes.${nodeNames[m.node]}.velocityMS`, "left out of a node that gives");
  if (load.gives) refuse("load", "a node that moves freely");

  const start = new Float64Array(6 * movers.length);
  for (const m of movers) {
    start.set(m.startM, 6 * m.index);
    const velocity = nodes[m.node]!.velocityMS;
    if (velocity) start.set(triple(velocity, `nodes.${nodeNames[m.node]}.velocityMS`), 6 * m.index + 3);
  }
  const watches = Object.entries(system.watch ?? {}).map(([name, { node, along }]) => ({
    name,
    nodes: (typeof node === "string" ? [node] : node).map((n) =>
      n in system.nodes ? nodeNames.indexOf(n) : refuse(`watch.${name}.node`, "the name of a node"),
    ),
    along: direction(along, `watch.${name}.along`),
  }));
  const positionM = Float64Array.from(nodes.flatMap((n) => n.positionM));
  const stops = Object.entries(system.stops ?? {}).map(([name, stop]) => compileStop(name, stop, nodeNames));
  const frame: Frame = {
    nodeNames,
    positionM,
    movers,
    nodesThatGive: new Set(movers.flatMap((m) => (m.gives ? nodeNames[m.node]! : []))),
    riders: new Set(nodes.flatMap((node, i) => (node.rides ? [i] : []))),
    rig: {
      gravityMS2,
      nodeNames,
      positionM: positionM.slice(),
      velocityMS: new Float64Array(3 * nodes.length),
      movers,
      moverOfNode,
      load,
      rider: null,
      lines: [],
      stops,
      barred: barredEvents(movers, stops),
      watches,
      held: new Int32Array(0),
      start,
    },
    laid: new Map(),
  };
  // What gives stands in balance with the lines that go, too: another for each cut.
  if (frame.nodesThatGive.size === 0) knownFrames.set(system, frame);
  return frame;
}

/** Lays out a line that is asked for the first time. */
function layLine(system: LetGoSystem, frame: Frame, name: string, isCut: boolean): LaidAgain {
  const { nodeNames, riders, rig } = frame;
  const given = system.lines[name]!;
  const { line, by, running } = compileLine(
    name,
    isCut ? justBefore(given) : given,
    nodeNames,
    rig.moverOfNode,
    riders,
  );
  setAllGeometry(rig, line, rig.start);
  layChain(line.chain, by, running);
  const atEndN = line.chain.tensionN.at(-1)!;
  if ("startTensionN" in by && line.chain.end === "brake" && atEndN > line.chain.endN * (1 + 1e-9))
    refuse(`lines.${name}.holding.slipsAtN`, "no less than it holds just before");
  const layChainAgain = chainAsLaid(line.chain);
  const laid: LaidAgain = {
    line,
    layAgain() {
      layChainAgain();
      line.forward.fill(0);
      line.flowM.fill(0);
      line.goingMS.fill(0);
      line.gone = false;
    },
  };
  frame.laid.set(name, laid);
  return laid;
}

/** The pulley that rides without mass. */
function riderOf({ nodes, lines: given }: LetGoSystem, { nodeNames, lines, load }: CompiledSystem): Rider | null {
  const [name, more] = Object.keys(nodes).filter((n) => nodes[n]!.rides);
  if (name === undefined) return null;
  if (more !== undefined) refuse(`nodes.${more}.rides`, "left out: one pulley without mass at most");
  const node = nodeNames.indexOf(name);
  const own = lines.filter(({ through }) => through.includes(node));
  if (!own.some(({ through }) => through.indexOf(node, 1) > 0 && through.at(-1) !== node))
    refuse(`nodes.${name}.rides`, "left out of a place that no rope left over runs through");
  for (const { name: line, through, chain } of own)
    for (let i = 1; i + 1 < through.length; i++)
      if (through[i] === node && chain.loss[i] !== 0)
        refuse(`lines.${line}.efficiency[${i - 1}]`, "1 at a pulley that rides without mass");
  if (Object.values(given).some((l) => l.through[0] === name))
    refuse(`nodes.${name}.rides`, "left out of a place where a line begins");
  const { positionM, forceN = [0, 0, 0] } = nodes[name]!;
  const steadyN = asSite(triple(forceN, `nodes.${name}.forceN`));
  const loadM = Float64Array.from(load.startM);
  return { node, startM: asSite(positionM), steadyN, lines: own, follows: new Float64Array(9), loadM, pinned: -1 };
}

function compileStop(name: string, stop: Stop, nodeNames: readonly string[]): CompiledStop {
  const faces = "planes" in stop ? bodyFaces(name, stop.planes) : [face(`stops.${name}`, stop)];
  const nodes = stop.nodes?.map((n) =>
    nodeNames.includes(n) ? nodeNames.indexOf(n) : refuse(`stops.${name}.nodes`, "the names of nodes"),
  );
  return { name, faces, nodes: nodes ? new Set(nodes) : null };
}

/** Sides of bodies by the planes they were made from: the same bodies stand about in one run after another. */
const knownFaces = new WeakMap<readonly StopPlane[], readonly CompiledFace[]>();

function bodyFaces(name: string, planes: readonly StopPlane[]): readonly CompiledFace[] {
  const known = knownFaces.get(planes);
  if (known) return known;
  if (planes.length === 0) refuse(`stops.${name}.planes`, "one plane or more");
  const faces: CompiledFace[] = [];
  for (const [i, plane] of planes.entries()) {
    const one = face(`stops.${name}.planes[${i}]`, plane);
    // A plane that is there twice is one side.
    if (!faces.some((f) => isSamePlane(f, one))) faces.push(one);
  }
  if (faces.every((f) => f.inner)) refuse(`stops.${name}.planes`, "not all inner");
  knownFaces.set(planes, faces);
  return faces;
}

const face = (path: string, { pointM, normal, inner = false }: StopPlane): CompiledFace => ({
  pointM: triple(pointM, `${path}.pointM`),
  normal: direction(normal, `${path}.normal`),
  inner,
});

const isSamePlane = (
  { pointM: [x, y, z], normal }: CompiledFace,
  { pointM: [u, v, w], normal: other }: CompiledFace,
): boolean =>
  dot(normal, other) > 1 - 1e-12 && Math.abs((x - u) * normal[0] + (y - v) * normal[1] + (z - w) * normal[2]) < 1e-9;

function mover(
  node: LetGoNode,
  nodeIndex: number,
  index: number,
  path: string,
  gravityMS2: number,
  stopCount: number,
): Mover {
  const massKg = number(node.massKg, `${path}.massKg`, 0, true);
  const [x, y, z] = triple(node.forceN ?? [0, 0, 0], `${path}.forceN`);
  return {
    node: nodeIndex,
    index,
    massKg,
    steadyN: asSite([x, y, z - massKg * gravityMS2]),
    startM: asSite(node.positionM),
    halfSizeM: triple(node.halfSizeM ?? [0, 0, 0], `${path}.halfSizeM`),
    gives: node.gives
      ? {
          along: direction(node.gives.along, `${path}.gives.along`),
          stiffnessNM: number(node.gives.stiffnessNM, `${path}.gives.stiffnessNM`, 0, true),
          startN: 0,
        }
      : null,
    against: new Set(),
    face: new Int32Array(stopCount),
    beyondM: new Float64Array(stopCount),
    pinned: -1,
  };
}

/** Of a line that goes no more than its tension is asked, which hangs on its stiffness only where its length is given. */
const justBefore = (line: LetGoLine): LetGoLine =>
  typeof line.startTensionN === "number" && line.axialStiffnessN === null ? { ...line, axialStiffnessN: 1 } : line;

interface LaidLine {
  readonly line: CompiledLine;
  readonly by: { startTensionN: number } | { ropeM: number };
  readonly running: -1 | 0 | 1;
}

function compileLine(
  name: string,
  line: LetGoLine,
  nodeNames: readonly string[],
  moverOfNode: Int32Array,
  riders: ReadonlySet<number>,
): LaidLine {
  const path = `lines.${name}`;
  const through = Int32Array.from(line.through, (node, i) => {
    const at = nodeNames.indexOf(node);
    return at >= 0 && node !== line.through[i - 1] ? at : refuse(`${path}.through[${i}]`, "the name of another node");
  });
  const segments = through.length - 1;
  if (segments < 1) refuse(`${path}.through`, "two nodes or more");
  const efficiency = through.slice(1, -1).length
    ? Array.from({ length: segments - 1 }, (_, i) => {
        const value = line.efficiency?.[i];
        const read = number(value === undefined ? 1 : value, `${path}.efficiency[${i}]`, 0, true);
        return read <= 1 ? read : refuse(`${path}.efficiency[${i}]`, "1 or less");
      })
    : [];
  const holding = line.holding ?? { kind: "fixed" };
  const byHands = holding.kind === "hands" && efficiency.every((e) => e === 1);
  const chain = ropeChain({
    segments,
    efficiency,
    stiffnessN: byHands ? 0 : number(line.axialStiffnessN, `${path}.axialStiffnessN`, 0, true),
    dampingNsM: number(line.dampingNsM ?? 0, `${path}.dampingNsM`, 0),
    end: holding.kind,
    endN:
      holding.kind === "brake"
        ? number(holding.slipsAtN, `${path}.holding.slipsAtN`, 0, true)
        : holding.kind === "hands"
          ? number(holding.tensionN, `${path}.holding.tensionN`, 0)
          : 0,
  });
  const all = Array.from({ length: segments }, (_, i) => i);
  const moves = (k: number): boolean => moverOfNode[through[k]!]! >= 0 || riders.has(through[k]!);
  const live = all.filter((j) => moves(j) || moves(j + 1));
  return {
    line: {
      name,
      through,
      chain,
      along: new Float64Array(3 * segments),
      live,
      turning: all.filter((i) => i > 0 && chain.loss[i] !== 0 && (live.includes(i - 1) || live.includes(i))),
      letsGoAtN:
        holding.kind === "fixed" && holding.letsGoAtN !== undefined
          ? number(holding.letsGoAtN, `${path}.holding.letsGoAtN`, 0, true)
          : Infinity,
      forward: new Int8Array(segments + 1),
      places: [...all.filter((i) => i > 0 && chain.loss[i] !== 0), ...(chain.end === "brake" ? [segments] : [])],
      flowM: new Float64Array(segments + 1),
      goingMS: new Float64Array(segments + 1),
      worksOn: Uint8Array.from({ length: segments }, (_, i) =>
        riders.has(through[i]!) || riders.has(through[i + 1]!) ? 0 : 1,
      ),
      gone: false,
      rateMS: 0,
    },
    by: howMuchRope(line, path, byHands),
    running: line.travel === "toEnd" ? 1 : line.travel === "toStart" ? -1 : 0,
  };
}

function howMuchRope(line: LetGoLine, path: string, byHands: boolean): LaidLine["by"] {
  const { startTensionN, lengthM } = line;
  if (byHands) return { startTensionN: 0 };
  if ((startTensionN === undefined) === (lengthM === undefined))
    return refuse(path, "given either startTensionN or lengthM");
  if (lengthM !== undefined) return { ropeM: number(lengthM, `${path}.lengthM`, 0, true) };
  return { startTensionN: number(startTensionN, `${path}.startTensionN`, 0) };
}

/** Ropes and weight on a mover along a direction, N, as laid out. */
function pullAlong(rig: CompiledSystem, m: Mover, along: SiteVector): number {
  let pull = m.steadyN[0] * along[0] + m.steadyN[1] * along[1] + m.steadyN[2] * along[2];
  for (const { through, along: toward, chain } of rig.lines) {
    for (let j = 0; j + 1 < through.length; j++) {
      const sign = (through[j] === m.node ? 1 : 0) - (through[j + 1] === m.node ? 1 : 0);
      if (sign === 0) continue;
      const tension = chain.stiffnessN === 0 ? chain.endN : chain.tensionN[j]!;
      for (let c = 0; c < 3; c++) pull += sign * tension * toward[3 * j + c]! * along[c]!;
    }
  }
  return pull;
}

function number(value: number | null | undefined, where: string, least: number, above = false): number {
  if (value === null)
    throw new WrongField({ code: "unknown", where, hint: `${where} is not known, and what happens hangs on it.` });
  return value !== undefined && Number.isFinite(value) && (above ? value > least : value >= least)
    ? value
    : refuse(where, `a number ${above ? "above" : "of at least"} ${least}`);
}

function triple(value: Triple, where: string): Triple {
  return value.length === 3 && value.every(Number.isFinite) ? value : refuse(where, "three numbers");
}

function direction(value: Triple, where: string): SiteVector {
  const length = lengthOf(...triple(value, where));
  return length > 1e-100 ? scale(asSite(value), 1 / length) : refuse(where, "of some length");
}
