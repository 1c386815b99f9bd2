import { asSite, dot, subtract } from "../../base/vector.ts";
import type { DormandPrince } from "../../numerics/dormand-prince.ts";
import type { CompiledLine, CompiledSystem, Mover } from "./compiled-system.ts";
import type { MovingSystem } from "./move-system.ts";
import { flowOver, type RopeChain } from "./rope-chain.ts";

/** Something that ends a step where it happens, since the motion goes on by another rule. */
export type StepEvent =
  | { readonly kind: "taut"; readonly line: CompiledLine }
  | { readonly kind: "slack"; readonly line: CompiledLine }
  | { readonly kind: "lets-go"; readonly line: CompiledLine }
  | { readonly kind: "touches"; readonly mover: Mover; readonly stop: number }
  | { readonly kind: "runs-up"; readonly mover: Mover; readonly node: number }
  /** A sheave or a brake over which rope moved is about to see it move back. */
  | { readonly kind: "turns" };

/** A running pulley comes no nearer than this to the next place of its rope, m: blocks have size. Planning choice, no source. */
export const BLOCK_M = 0.15;
/** Rope that has moved by less has not, m. */
const MOVED_M = 1e-11;
/** How far ahead it is looked which way rope will move, s. */
const AHEAD_S = 1e-6;
/** Rope that creeps back slower than this does not turn, m/s. */
const CREEP_MS = 1e-7;
/** Rope that goes slower than this may as well not, m/s. */
const GOING_MS = 1e-5;

/** All that can happen in a system. `turns` comes last: its value is looked up at another state. */
export function possibleEvents(rig: CompiledSystem): readonly StepEvent[] {
  const { lines, movers, stops, moverOfNode } = rig;
  const free = movers.filter((m) => !m.gives);
  const runsUp = free.flatMap((mover) => {
    const next = new Set<number>();
    for (const { through } of lines) {
      for (let i = 1; i + 1 < through.length; i++)
        if (through[i] === mover.node) for (const node of [through[i - 1]!, through[i + 1]!]) next.add(node);
    }
    return [...next]
      .filter((n) => moverOfNode[n]! < 0 || movers[moverOfNode[n]!]!.gives)
      .map((node) => ({ mover, node }));
  });
  return [
    ...lines
      .filter(({ chain }) => chain.end !== "hands")
      .flatMap((line): StepEvent[] => [
        { kind: "taut", line },
        { kind: "slack", line },
      ]),
    ...lines.filter((l) => l.letsGoAtN < Infinity).map((line): StepEvent => ({ kind: "lets-go", line })),
    ...free.flatMap((mover) => stops.map((_, stop): StepEvent => ({ kind: "touches", mover, stop }))),
    ...runsUp.map((of): StepEvent => ({ kind: "runs-up", ...of })),
    ...(lines.some(({ chain }) => chain.end === "brake" || chain.loss.some((l) => l !== 0))
      ? [{ kind: "turns" } as const]
      : []),
  ];
}

/** From a mover's box to a stop, m; below 0 beyond it. */
export function gapTo(rig: CompiledSystem, mover: Mover, stop: number): number {
  const { pointM, normal } = rig.stops[stop]!;
  let gap = 0;
  for (let c = 0; c < 3; c++)
    gap += (rig.positionM[3 * mover.node + c]! - pointM[c]!) * normal[c]! - Math.abs(normal[c]!) * mover.halfSizeM[c]!;
  return gap;
}

/**
 * How far an event is off, above 0 before it happens; 1 where it cannot. Of the state last evaluated, whose derivative is `slope`.
 * `turns` leaves the system evaluated a moment later.
 */
export function howFarOff(
  event: StepEvent,
  rig: CompiledSystem,
  moving: MovingSystem,
  state: Float64Array,
  slope: Float64Array,
  scratch: readonly [Float64Array, Float64Array],
): number {
  switch (event.kind) {
    case "taut":
      return event.line.gone || !event.line.chain.slack ? 1 : spareRope(event.line.chain);
    case "slack":
      return event.line.gone || event.line.chain.slack ? 1 : -spareRope(event.line.chain);
    case "lets-go": {
      const { gone, letsGoAtN, chain } = event.line;
      return gone ? 1 : letsGoAtN - chain.tensionN[chain.tensionN.length - 1]!;
    }
    case "touches":
      return event.mover.against.has(event.stop)
        ? 1
        : gapTo(rig, event.mover, event.stop) - event.mover.beyondM[event.stop]!;
    case "runs-up":
      return event.mover.pinned >= 0 ? 1 : distanceBetween(rig, event.mover.node, event.node) - BLOCK_M;
    case "turns":
      return slowestForward(rig, moving, state, slope, scratch);
  }
}

/** Rope beyond the way it runs, m; below 0 where it is stretched. */
function spareRope({ ropeM, nowM, lengthM, slack }: RopeChain): number {
  let spare = 0;
  for (let j = 0; j < lengthM.length; j++) spare += (slack ? ropeM[j]! : nowM[j]!) - lengthM[j]!;
  return spare;
}

function distanceBetween({ positionM }: CompiledSystem, a: number, b: number): number {
  return Math.hypot(...[0, 1, 2].map((c) => positionM[3 * a + c]! - positionM[3 * b + c]!));
}

/**
 * Above 0 while rope goes on the way it went since the last commit at every place it can go over; the least speed there, m/s.
 * A place over which rope was about to go, and over which none has gone, has seen it go and come back.
 */
function slowestForward(
  rig: CompiledSystem,
  moving: MovingSystem,
  state: Float64Array,
  slope: Float64Array,
  scratch: readonly [Float64Array, Float64Array],
): number {
  const flows = rig.lines.map((line) =>
    movedPlaces(line).map((place) => ({ place, flow: flowOver(line.chain, place) })),
  );
  if (
    flows.some((f, k) =>
      f.some(({ place, flow }) => rig.lines[k]!.forward[place]! * flow <= 0 && rig.lines[k]!.forward[place] !== 0),
    )
  )
    return -1;
  if (flows.every((f) => f.every(({ flow }) => Math.abs(flow) < MOVED_M))) return 1;
  lookAhead(moving, state, slope, scratch);
  let least = 1;
  for (const [k, { chain }] of rig.lines.entries()) {
    for (const { place, flow } of flows[k]!) {
      if (Math.abs(flow) < MOVED_M) continue;
      least = Math.min(least, (Math.sign(flow) * (flowOver(chain, place) - flow)) / AHEAD_S + CREEP_MS);
    }
  }
  return least;
}

/**
 * Notes over which places rope is about to go, and which way: just after a commit, of the state with this derivative. Leaves the
 * system evaluated a moment later.
 */
export function noteForward(
  rig: CompiledSystem,
  moving: MovingSystem,
  state: Float64Array,
  slope: Float64Array,
  scratch: readonly [Float64Array, Float64Array],
): void {
  lookAhead(moving, state, slope, scratch);
  for (const line of rig.lines) {
    line.forward.fill(0);
    for (const place of movedPlaces(line)) {
      const rate = flowOver(line.chain, place) / AHEAD_S;
      line.forward[place] = Math.abs(rate) > GOING_MS ? Math.sign(rate) : 0;
    }
  }
}

function lookAhead(
  moving: MovingSystem,
  state: Float64Array,
  slope: Float64Array,
  [ahead, aheadSlope]: readonly [Float64Array, Float64Array],
): void {
  for (let i = 0; i < state.length; i++) ahead[i] = state[i]! + AHEAD_S * slope[i]!;
  moving.derivative(ahead, aheadSlope);
}

/** Links with loss, and the end where it is a brake. */
function movedPlaces({ chain, gone }: CompiledLine): readonly number[] {
  if (gone || chain.slack) return [];
  const places: number[] = [];
  for (let i = 1; i < chain.loss.length; i++) if (chain.loss[i] !== 0) places.push(i);
  if (chain.end === "brake") places.push(chain.loss.length);
  return places;
}

/** The part of the step, in (0, 1], at which the first of these events has just happened: Illinois' rule of false position. */
export function firstTime(
  run: DormandPrince,
  valueAt: (state: Float64Array) => number,
  state: Float64Array,
  stepS: number,
): number {
  const at = (part: number) => {
    run.within(part, state);
    return valueAt(state);
  };
  let [low, high] = [0, 1];
  // What has not happened at the start is as far off as it is over at the end: halve first.
  let after = at(1);
  let before = -after;
  let side = 0;
  for (let round = 0; round < 60 && (high - low) * stepS > TIME_S; round++) {
    const share = Math.min(0.98, Math.max(0.02, before / (before - after)));
    const part = round > 30 ? (low + high) / 2 : low + share * (high - low);
    const value = at(part);
    if (value < 0) {
      high = part;
      after = value;
      if (side === 1) before /= 2;
      side = 1;
    } else {
      low = part;
      before = value;
      if (side === -1) after /= 2;
      side = -1;
    }
    if (value < 0 && value > -CLOSE) break;
  }
  return high;
}

const TIME_S = 1e-10;
/** Of a metre, a metre a second or a newton. */
const CLOSE = 1e-11;

/** Speed of a mover against a direction, m/s. */
export const speedAgainst = (rig: CompiledSystem, { node }: Mover, away: readonly number[]): number =>
  -[0, 1, 2].reduce((sum, c) => sum + rig.velocityMS[3 * node + c]! * away[c]!, 0);

/** Has the pull on a pinned pulley turned away from what it ran up against? */
export function isPulledOff(rig: CompiledSystem, { pullN }: MovingSystem, { node, pinned, steadyN }: Mover): boolean {
  const at = (of: Float64Array, n: number) => asSite([of[3 * n]!, of[3 * n + 1]!, of[3 * n + 2]!]);
  const away = subtract(at(rig.positionM, node), at(rig.positionM, pinned));
  return dot(at(pullN, node), away) + dot(steadyN, away) > 0;
}
