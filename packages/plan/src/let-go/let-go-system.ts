import {
  add,
  addScaled,
  asSite,
  dampingOfRatio,
  distance,
  type LetGoLine,
  type LetGoNode,
  type LetGoSystem,
  type LineHolding,
  lerp,
  norm,
  type Shape,
  type SiteVector,
  STANDARD_GRAVITY_MS2,
  site,
  subtract,
  unit,
  ZERO,
} from "@gantline/engine";
import type { TravelCase } from "../evaluation.ts";
import { gearOf } from "../rig/gear-of.ts";
import {
  type MainState,
  type RigState,
  type RopeNode,
  sheaveOf,
  type TagState,
  type TetherRun,
} from "../rig/rig-state.ts";
import { tensionsAlong } from "../rig/tensions-along.ts";
import type { Plan } from "../schema/plan.ts";
import type { SolvedPlan } from "../solve-plan.ts";
import type { Phrase } from "../units/quantity.ts";
import { tagHandsHoldN, tetherHandsHoldN } from "./hands-hold.ts";
import type { Belay, LetGoChoices, PlanSystem, SlippingBrake, SystemUnknown } from "./let-go-plan-types.ts";
import { type LoadBox, loadStops } from "./load-stops.ts";
import { raisedSolid } from "./raised-solid.ts";

/** Node of the load. */
export const YOKE = "yoke";
/** Nodes of the tether's pulley, and of a tip that gives. */
export const RIDER = "rider";
export const TIP = "tip";
/** A line that pulls less than this is in nobody's hands: left out, N. */
const LEAST_PULL_N = 1;
/** Mass that rides with the tether's pulley: itself, the block and connectors, kg. Planning choice, no source. */
const RIDER_KG = 2;
/** Of the weight: what may be left over between the forces of a start in balance. */
const OUT_OF_BALANCE = 0.05;

/**
 * The solved rig at one moment, as the system that moves when something goes.
 *
 * - The load is a mass at its yoke, its box hung below it, upright and without turning. The engine's box is about the mass
 *   itself, so ground, walls and solids are raised by as much as the box's middle hangs below the yoke: gaps are the same.
 * - Main lines run from the yoke over tip sheave and redirects to the brake, with the dynamic stiffness of their rope, the
 *   tensions of the solved rig, sheave losses, and the brake's slip force. Of a brake whose slip force neither its maker nor
 *   the policy gives, it is said so, and it holds fast.
 * - Taglines are held by hands up to what their crew can hold, by the policy's pull for each person; hands that do not pull
 *   give rope freely: such a line is left out. One that is made fast holds by its length, slack or not. A belay is held by a
 *   brake as the main lines are, over an edge where it has one.
 * - The tether's pulley keeps its place and the tether its pull, or (`rider: "moves"`) it rides as a mass of 2 kg.
 * - Tip sheaves stay where they hang. With `tip`, both hang from one place that gives, their middle.
 *
 * `withSolids: false` leaves out what is only measured to.
 *
 * What is left over between the solved forces, wind and the ropes' weight among it, is a steady force on the load: with nothing cut, nothing moves.
 */
export function letGoSystem(
  situation: SolvedPlan,
  choices: LetGoChoices = {},
  { withSolids = true }: { readonly withSolids?: boolean } = {},
): PlanSystem | SystemUnknown {
  const systems = known.get(situation) ?? new Map<string, PlanSystem | SystemUnknown>();
  known.set(situation, systems);
  const key = JSON.stringify([choices, withSolids]);
  const found = systems.get(key) ?? tried(situation, choices, withSolids);
  systems.set(key, found);
  return found;
}

/** Systems that were built of a situation: the same for every line that is cut in it. */
const known = new WeakMap<SolvedPlan, Map<string, PlanSystem | SystemUnknown>>();

function tried(situation: SolvedPlan, choices: LetGoChoices, withSolids: boolean): PlanSystem | SystemUnknown {
  try {
    return builtSystem(situation, choices, withSolids);
  } catch (lacking) {
    if (lacking instanceof Lacking) return lacking.answer;
    throw lacking;
  }
}

/** Only ever thrown and caught in this file. */
class Lacking extends Error {
  readonly answer: SystemUnknown;
  constructor(code: SystemUnknown["code"], field: string, says: Phrase) {
    super(field);
    this.answer = { ok: false, code, says, field };
  }
}

interface Building {
  readonly situation: SolvedPlan;
  readonly plan: Plan;
  readonly choices: LetGoChoices;
  readonly state: RigState;
  readonly massKg: number;
  readonly ran: TravelCase;
  readonly nodes: Record<string, LetGoNode>;
  readonly lines: Record<string, LetGoLine>;
  readonly slipUnknown: string[];
  readonly slipping: SlippingBrake[];
  /** Pulls just before on the load and on the tether's pulley, N. */
  readonly pulls: Record<typeof YOKE | typeof RIDER, SiteVector>;
}

function builtSystem(situation: SolvedPlan, choices: LetGoChoices, withSolids: boolean): PlanSystem {
  const { plan, state, sum, holding } = situation;
  if (state === null || sum.massKg === null) {
    const says: Phrase = holding.state === "unsolved" ? holding.says : ["No balance of forces was found."];
    const code = holding.state === "unsolved" && holding.code === "unknown" ? "unknown" : "unsolved";
    throw new Lacking(code, "rig.load", says);
  }
  const ids = [...state.mains, ...state.tags, ...(state.tether ? [state.tether] : [])].map((l) => l.laid.line.id);
  if (new Set(ids).size < ids.length) throw new Lacking("unsolved", "rig", ["Two lines of the rig have one id."]);
  const box = boxOf(plan, state.yoke);
  const boxDropM = state.yoke[2] - box.middle[2];
  const building: Building = {
    situation,
    plan,
    choices,
    state,
    massKg: sum.massKg,
    ran: choices.ran ?? (plan.rig.load.motion === "lower" ? "lower" : "raise"),
    nodes: { [YOKE]: { positionM: state.yoke, massKg: sum.massKg, halfSizeM: box.half } },
    lines: {},
    slipUnknown: [],
    slipping: [],
    pulls: { [YOKE]: ZERO, [RIDER]: ZERO },
  };
  if (choices.tip) addGivingTip(building, choices.tip);
  if (state.tether) addTether(building, state.tether);
  for (const [i, main] of state.mains.entries()) addMain(building, main, `rig.mainLines[${i}]`);
  for (const [i, tag] of state.tags.entries()) addTag(building, tag, `rig.taglines[${i}]`);
  keepInBalance(building);
  return {
    ok: true,
    system: {
      nodes: building.nodes,
      lines: building.lines,
      load: YOKE,
      stops: {
        ...stopsOfLoad(situation),
        ...(building.nodes[RIDER]?.massKg === undefined
          ? {}
          : loadStops(situation, pulleyBox(building.nodes[RIDER]), RIDER)),
      },
      solids: withSolids ? solidsAbout(situation, boxDropM) : {},
    },
    slipUnknown: building.slipUnknown,
    slipping: building.slipping,
    boxDropM,
  };
}

/** What bars the load's way, raised so that its box can be taken to be about the yoke: the same however the ropes are. */
export function stopsOfLoad(situation: SolvedPlan): NonNullable<LetGoSystem["stops"]> {
  const { plan, load } = situation;
  const box = boxOf(plan, load.yoke);
  const found = knownStops.get(situation) ?? loadStops(situation, box, YOKE, load.yoke[2] - box.middle[2]);
  knownStops.set(situation, found);
  return found;
}

const knownStops = new WeakMap<SolvedPlan, NonNullable<LetGoSystem["stops"]>>();

/** The load's box, upright about its middle, its length and width turned to its bearing and then enclosed. */
export function boxOf(plan: Plan, yoke: SiteVector): LoadBox {
  const { box, bridle } = plan.rig.load;
  const [s, c] = [Math.abs(Math.sin(box.bearingRad)), Math.abs(Math.cos(box.bearingRad))];
  return {
    middle: [yoke[0], yoke[1], yoke[2] - bridle.heightM - box.heightM / 2],
    half: [(box.lengthM * s + box.widthM * c) / 2, (box.lengthM * c + box.widthM * s) / 2, box.heightM / 2],
  };
}

/** The tether's pulley as a box of no size. */
const pulleyBox = ({ positionM }: LetGoNode): LoadBox => ({ middle: positionM, half: [0, 0, 0] });

/** Structures, ladder and platform, raised. */
function solidsAbout({ geometry }: SolvedPlan, byM: number): Record<string, Shape> {
  const { structures, ladder, platform } = geometry;
  return Object.fromEntries([
    ...structures.flatMap((s) =>
      s.solids.map((solid, i) => [`structure/${s.id}/${i}`, raisedSolid(solid, byM)] as const),
    ),
    ["ladder", raisedSolid(ladder, byM)] as const,
    ...(platform ? [["platform", raisedSolid(platform, byM)] as const] : []),
  ]);
}

/** Dynamic EA of a line, N. */
function stiffnessOf({ choices }: Building, dynamicN: number | null | undefined, name: string, parts = 1): number {
  if (dynamicN === null || dynamicN === undefined)
    throw new Lacking("unknown", "gear", [`The dynamic stiffness of the rope of ${name} is not known.`]);
  return dynamicN * parts * (choices.stiffnessFactor ?? 1);
}

/** Damping of a line with this much rope in it, with the load on it, N·s/m. */
const dampingOf = ({ choices, massKg }: Building, stiffnessN: number, lengthM: number): number =>
  dampingOfRatio(choices.dampingRatio ?? 0, stiffnessN, lengthM, massKg);

function addMain(building: Building, main: MainState, field: string): void {
  const { choices, nodes, lines, ran } = building;
  const { line, rope } = main.laid;
  const stiffnessN = stiffnessOf(building, rope?.dynamicStiffnessN, line.name);
  const path = main.nodes.map((node): RopeNode => {
    const giving = node.kind === "tip" ? nodes[TIP] : undefined;
    // The pulley that rides was placed where equal tensions balance it.
    return {
      ...node,
      at: giving ? asSite(giving.positionM) : node.at,
      efficiency: node.kind === "rider" ? 1 : node.efficiency,
    };
  });
  const startTensionN = main.tensionsN[ran][0] ?? 0;
  const tensionsN = tensionsAlong(path, startTensionN, ran);
  const lost = (choices.lost ?? []).flatMap((l) => (l.lineId === line.id ? [l.placeId] : []));
  const kept = path.flatMap((node, k) => (k > 0 && k < path.length - 1 && lost.includes(node.id) ? [] : [{ node, k }]));
  const through = kept.map(({ node, k }) => {
    if (node.kind === "yoke") return YOKE;
    if (node.kind === "rider") return RIDER;
    if (node.kind === "tip" && choices.tip) return TIP;
    const name = node.kind === "tip" ? tipOf(line.id) : `${line.id}/${k}`;
    nodes[name] = { positionM: node.at };
    return name;
  });
  const efficiency = kept.slice(1, -1).map(({ node }) => {
    if (node.efficiency !== null) return node.efficiency;
    const says = `The efficiency of the sheave at ${line.name}, ${node.name.toLowerCase()}, is not known.`;
    throw new Lacking("unknown", field, [says]);
  });
  for (const [k, node] of path.entries()) {
    if (node.kind === "yoke" || node.kind === "rider")
      for (const side of [k - 1, k])
        pull(building, node.kind, node.at, path[side === k ? k + 1 : side]?.at, tensionsN[side]);
  }
  const lengthM = path
    .slice(1)
    .reduce((m, n, k) => m + distance(n.at, path[k]?.at ?? n.at) / (1 + (tensionsN[k] ?? 0) / stiffnessN), 0);
  const slackM = choices.slackM?.[line.id] ?? 0;
  const isLoose = slackM > 0 || lost.length > 0;
  lines[line.id] = {
    through,
    axialStiffnessN: stiffnessN,
    ...(isLoose ? { lengthM: lengthM + slackM } : { startTensionN }),
    dampingNsM: dampingOf(building, stiffnessN, lengthM),
    efficiency,
    travel: ran === "raise" ? "toEnd" : "toStart",
    holding: heldByBrake(building, line.id, line.brake.device, isLoose ? 0 : (tensionsN.at(-1) ?? 0)),
  };
}

/** A brake slips at its maker's figure, else at the policy's; with neither it is held fast, and said so. @param holdsN before anything goes */
function heldByBrake(
  { plan, slipUnknown, slipping }: Building,
  lineId: string,
  device: string,
  holdsN: number,
): LineHolding {
  const slipsAtN = gearOf(plan, "brake", device)?.slipN ?? plan.policy.brakeSlipN.value;
  if (slipsAtN === null || !(slipsAtN > 0)) {
    slipUnknown.push(lineId);
    return { kind: "fixed" };
  }
  if (slipsAtN < holdsN) slipping.push({ lineId, holdsN, slipsAtN });
  return { kind: "brake", slipsAtN };
}

/** Counts a pull toward a neighbour, if there is one. */
function pull(
  { pulls }: Building,
  on: keyof Building["pulls"],
  at: SiteVector,
  to: SiteVector | undefined,
  tensionN = 0,
): void {
  if (to) pulls[on] = addScaled(pulls[on], unit(subtract(to, at)), tensionN);
}

/** Node of a main line's tip sheave. */
export const tipOf = (lineId: string): string => `${lineId}/${TIP}`;

/** One place for both tip sheaves, in their middle, that gives square to the ladder. */
function addGivingTip({ nodes, situation, state }: Building, tip: NonNullable<LetGoChoices["tip"]>): void {
  const [first, ...others] = state.mains.map(sheaveOf);
  if (!first) return;
  nodes[TIP] = {
    positionM: others.reduce((middle, s, k) => lerp(middle, s, 1 / (k + 2)), first),
    massKg: tip.massKg,
    gives: { along: situation.geometry.posed.axes.normal, stiffnessNM: tip.stiffnessNM },
  };
}

function addTag(building: Building, { laid, tensionsN }: TagState, field: string): void {
  const tensionN = tensionsN[building.ran];
  const { choices, nodes, lines, state } = building;
  const { line, rope, handsAt } = laid;
  const belay = choices.belays?.[line.id] ?? null;
  const isFast = line.drive === "length";
  const pulls = tensionN > LEAST_PULL_N;
  if (!pulls && !isFast && belay === null) return;
  const stiffnessN = stiffnessOf(building, rope?.dynamicStiffnessN, line.name);
  const node = `${line.id}/hands`;
  nodes[node] = { positionM: handsAt };
  if (pulls) pull(building, YOKE, state.yoke, handsAt, tensionN);
  const slackM = choices.slackM?.[line.id] ?? 0;
  const edge = belay === null ? null : behindEdge(building, line, belay);
  const pathM = distance(state.yoke, handsAt) + (edge?.beyondM ?? 0);
  const lengthM = pulls
    ? pathM / (1 + tensionN / stiffnessN)
    : Math.max(pathM, (isFast ? line.lengthM : null) ?? pathM);
  lines[line.id] = {
    through: [YOKE, node, ...(edge ? [edge.brake] : [])],
    ...(edge ? { efficiency: [edge.efficiency] } : {}),
    axialStiffnessN: stiffnessN,
    ...(slackM > 0 || !pulls ? { lengthM: lengthM + slackM } : { startTensionN: tensionN }),
    dampingNsM: dampingOf(building, stiffnessN, lengthM),
    holding:
      belay !== null
        ? heldByBrake(building, line.id, belay.brake, slackM > 0 || !pulls ? 0 : tensionN)
        : isFast
          ? { kind: "fixed" }
          : heldByHands(tagHandsHoldN(building.plan, line), line.name, `${field}.people`),
  };
}

/** Where a belay goes on from the edge that it is led over. */
function behindEdge({ nodes }: Building, { id, name, handler }: TagState["laid"]["line"], { over }: Belay) {
  if (over === null) return null;
  if (over.efficiency === null)
    throw new Lacking("unknown", "gear", [`The efficiency of what ${name} runs over at the edge is not known.`]);
  const brake = `${id}/brake`;
  nodes[brake] = { positionM: over.brakeAt };
  return { brake, efficiency: over.efficiency, beyondM: distance(asSite(handler), over.brakeAt) };
}

/** Hands hold up to what their people can, by the tackle they pull on. */
function heldByHands(holdN: number | null, name: string, field: string): LineHolding {
  if (holdN === null) throw new Lacking("unknown", field, [`What the hands on ${name} can hold is not known.`]);
  return { kind: "fixed", letsGoAtN: Math.max(holdN, LEAST_PULL_N) };
}

function addTether(building: Building, { laid, pulleyAt, tensionsN, pulled, against }: TetherRun): void {
  const tensionN = tensionsN[building.ran];
  const { choices, nodes, lines, state } = building;
  const { line, rope } = laid;
  const moves = choices.rider === "moves" && pulled && against === null;
  nodes[RIDER] = moves ? { positionM: pulleyAt, massKg: RIDER_KG } : { positionM: pulleyAt };
  if (tensionN <= LEAST_PULL_N) return;
  pull(building, YOKE, state.yoke, pulleyAt, tensionN);
  pull(building, RIDER, pulleyAt, state.yoke, tensionN);
  if (!moves) {
    lines[line.id] = { through: [YOKE, RIDER], axialStiffnessN: null, holding: { kind: "hands", tensionN } };
    return;
  }
  const stiffnessN = stiffnessOf(building, rope?.dynamicStiffnessN, line.name, line.parts);
  lines[line.id] = {
    through: [YOKE, RIDER],
    axialStiffnessN: stiffnessN,
    startTensionN: tensionN,
    dampingNsM: dampingOf(building, stiffnessN, distance(state.yoke, pulleyAt)),
    holding:
      line.drive === "length"
        ? { kind: "fixed" }
        : heldByHands(tetherHandsHoldN(building.plan, line), line.name, "rig.tether.people"),
  };
}

/**
 * A steady force on each mass that moves freely, that makes up for what the ropes and its weight leave over: wind, and the
 * weight of rope that hangs at the yoke.
 */
function keepInBalance({ nodes, pulls, massKg, situation, state }: Building): void {
  if (state.groundN !== null)
    throw new Lacking("unsolved", "rig.load", [
      "The load stands on what is below, as its lines do not hold it: what the loss of one does is not worked out.",
    ]);
  const weightN = massKg * STANDARD_GRAVITY_MS2;
  const over = add(pulls[YOKE], add(site(0, 0, -weightN - state.ropesAtYokeN), situation.sum.windN ?? ZERO));
  if (!(norm(over) <= OUT_OF_BALANCE * weightN))
    throw new Lacking("unsolved", "rig.load", ["The forces on the load do not balance to begin with."]);
  for (const name of [YOKE, RIDER] as const) {
    const node = nodes[name];
    if (node?.massKg === undefined) continue;
    const steady = subtract(site(0, 0, node.massKg * STANDARD_GRAVITY_MS2), pulls[name]);
    nodes[name] = { ...node, forceN: steady };
  }
}
