import { lengthOf } from "../../base/vector.ts";
import type { DormandPrince } from "../../numerics/dormand-prince.ts";
import type { CompiledFace, CompiledLine, CompiledSystem, Mover, Rider, StepEvent } from "./compiled-system.ts";
import type { MovingSystem } from "./move-system.ts";
import { flowOver, type RopeChain } from "./rope-chain.ts";

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

/** What may come of a mover and the stops that bar its way: whatever its ropes. */
export const barredEvents = (movers: readonly Mover[], stops: CompiledSystem["stops"]): readonly StepEvent[] => {
  const barred = movers
    .filter((m) => !m.gives)
    .flatMap((mover) =>
      stops.flatMap(({ nodes, faces }, stop) =>
        nodes === null || nodes.has(mover.node) ? [{ mover, stop, isBody: faces.length > 1 }] : [],
      ),
    );
  return [
    ...barred.map(({ mover, stop }): StepEvent => ({ kind: "touches", mover, stop })),
    ...barred.flatMap(({ mover, stop, isBody }): StepEvent[] => (isBody ? [{ kind: "slides-off", mover, stop }] : [])),
  ];
};

/** All that can happen in a system. `turns` comes last: its value is looked up at another state. */
export function possibleEvents({ lines, movers, moverOfNode, rider, barred }: CompiledSystem): readonly StepEvent[] {
  const pulleys = [...movers.filter((m) => !m.gives), ...(rider ? [rider] : [])];
  const runsUp = pulleys.flatMap((pulley) => {
    const next = new Set<number>();
    for (const { through } of lines) {
      for (let i = 1; i + 1 < through.length; i++)
        if (through[i] === pulley.node) for (const node of [through[i - 1]!, through[i + 1]!]) next.add(node);
    }
    return [...next]
      .filter((n) => moverOfNode[n]! < 0 || movers[moverOfNode[n]!]!.gives)
      .map((node): StepEvent => ({ kind: "runs-up", pulley, node }));
  });
  return [
    ...lines
      .filter(({ chain }) => chain.end !== "hands")
      .flatMap((line): StepEvent[] => [
        { kind: "taut", line },
        { kind: "slack", line },
      ]),
    ...lines.filter((l) => l.letsGoAtN < Infinity).map((line): StepEvent => ({ kind: "lets-go", line })),
    ...barred,
    ...runsUp,
    ...(lines.some(({ places }) => places.length > 0) ? [{ kind: "turns" } as const] : []),
  ];
}

/** From a mover's box to a stop, m; below 0 beyond it. Of a body with upright sides exact where it is that of a side or nearer. */
export function gapTo(rig: CompiledSystem, mover: Mover, stop: number): number {
  const { faces } = rig.stops[stop]!;
  let most = gapToFace(rig, mover, faces[0]!);
  for (let f = 1; f < faces.length; f++) most = Math.max(most, gapToFace(rig, mover, faces[f]!));
  return most;
}

/** From a mover's box to the plane of a side, m; below 0 behind it. */
export function gapToFace({ positionM }: CompiledSystem, mover: Mover, { pointM, normal }: CompiledFace): number {
  const at = 3 * mover.node;
  const { halfSizeM } = mover;
  return (
    (positionM[at]! - pointM[0]) * normal[0] -
    Math.abs(normal[0]) * halfSizeM[0] +
    (positionM[at + 1]! - pointM[1]) * normal[1] -
    Math.abs(normal[1]) * halfSizeM[1] +
    (positionM[at + 2]! - pointM[2]) * normal[2] -
    Math.abs(normal[2]) * halfSizeM[2]
  );
}

/** The side of a stop through which a mover touches it: that which it is least deep behind. */
export function faceTouched(rig: CompiledSystem, mover: Mover, stop: number): number {
  const { faces } = rig.stops[stop]!;
  let touched = -1;
  let most = -Infinity;
  for (const [f, face] of faces.entries()) {
    if (face.inner) continue;
    const gap = gapToFace(rig, mover, face);
    if (gap <= most) continue;
    most = gap;
    touched = f;
  }
  return touched;
}

/** How far a mover that lies against one side of a body is still within the others, m. */
function withinOthers(rig: CompiledSystem, mover: Mover, stop: number): number {
  const { faces } = rig.stops[stop]!;
  const own = mover.face[stop]!;
  let within = Infinity;
  for (let f = 0; f < faces.length; f++) if (f !== own) within = Math.min(within, -gapToFace(rig, mover, faces[f]!));
  return within;
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
    case "slides-off":
      return event.mover.against.has(event.stop) ? withinOthers(rig, event.mover, event.stop) : 1;
    case "runs-up":
      return event.pulley.pinned >= 0 ? 1 : distanceBetween(rig, event.pulley.node, event.node) - BLOCK_M;
    case "turns":
      return slowestForward(rig, moving, state, slope);
  }
}

/** Rope beyond the way it runs, m; below 0 where it is stretched. */
function spareRope({ ropeM, nowM, lengthM, slack }: RopeChain): number {
  let spare = 0;
  for (let j = 0; j < lengthM.length; j++) spare += (slack ? ropeM[j]! : nowM[j]!) - lengthM[j]!;
  return spare;
}

function distanceBetween({ positionM }: CompiledSystem, a: number, b: number): number {
  return lengthOf(
    positionM[3 * a]! - positionM[3 * b]!,
    positionM[3 * a + 1]! - positionM[3 * b + 1]!,
    positionM[3 * a + 2]! - positionM[3 * b + 2]!,
  );
}

/**
 * Above 0 while rope goes on the way it went since the last commit at every place it can go over; the least speed there, m/s.
 * A place over which rope was about to go, and over which none has gone, has seen it go and come back.
 */
function slowestForward(rig: CompiledSystem, moving: MovingSystem, state: Float64Array, slope: Float64Array): number {
  const { lines } = rig;
  let moved = false;
  for (let k = 0; k < lines.length; k++) {
    const { chain, forward, flowM, places } = lines[k]!;
    if (isStill(lines[k]!)) continue;
    for (let p = 0; p < places.length; p++) {
      const place = places[p]!;
      const flow = flowOver(chain, place);
      flowM[place] = flow;
      if (forward[place] !== 0 && forward[place]! * flow <= 0) return -1;
      if (Math.abs(flow) >= MOVED_M) moved = true;
    }
  }
  if (!moved) return 1;
  moving.lookAhead(state, slope, AHEAD_S);
  let least = 1;
  for (let k = 0; k < lines.length; k++) {
    const { chain, flowM, goingMS, places } = lines[k]!;
    if (isStill(lines[k]!)) continue;
    for (let p = 0; p < places.length; p++) {
      const flow = flowM[places[p]!]!;
      const rate = (flowOver(chain, places[p]!) - flow) / AHEAD_S;
      goingMS[places[p]!] = rate;
      if (Math.abs(flow) >= MOVED_M) least = Math.min(least, Math.sign(flow) * rate + CREEP_MS);
    }
  }
  return least;
}

/** Did the last look at `turns` look ahead, from where the next step begins? Then that is what rope is about to do. */
export const lookedAhead = (rig: CompiledSystem): boolean =>
  rig.lines.some((line) => !isStill(line) && line.places.some((place) => Math.abs(line.flowM[place]!) >= MOVED_M));

/** `noteForward` of the last look at `turns`. */
export function noteLooked(rig: CompiledSystem): void {
  for (const line of rig.lines) {
    line.forward.fill(0);
    if (isStill(line)) continue;
    for (const place of line.places) line.forward[place] = directionOf(line.goingMS[place]!);
  }
}

const directionOf = (rateMS: number): number => (Math.abs(rateMS) > GOING_MS ? Math.sign(rateMS) : 0);

/**
 * Notes over which places rope is about to go, and which way: just after a commit, of the state with this derivative. Leaves the
 * system evaluated a moment later.
 */
export function noteForward(rig: CompiledSystem, moving: MovingSystem, state: Float64Array, slope: Float64Array): void {
  moving.lookAhead(state, slope, AHEAD_S);
  for (const line of rig.lines) {
    line.forward.fill(0);
    if (isStill(line)) continue;
    for (const place of line.places) line.forward[place] = directionOf(flowOver(line.chain, place) / AHEAD_S);
  }
}

const isStill = ({ chain, gone }: CompiledLine): boolean => gone || chain.slack;

/**
 * How closely in time an event is to be found, s, at this tolerance.
 *
 * Where rope turns over a sheave, comes taut or goes slack, force and speed go on without a jump: what is wrong by a late
 * look goes as its square. What touches or lets go changes at once, and goes as the time itself.
 */
export const foundWithinS = ({ kind }: StepEvent, tolerance: number): number =>
  kind === "turns" || kind === "taut" || kind === "slack" ? BEND_S * Math.sqrt(tolerance) : JUMP_S * tolerance;
const BEND_S = 3e-3;
const JUMP_S = 1e-3;

/** The part of the step, in (0, 1], at which the first of these events has just happened: false position by Anderson and Björck's rule (BIT 13, 1973). */
export function firstTime(
  run: DormandPrince,
  valueAt: (state: Float64Array) => number,
  state: Float64Array,
  stepS: number,
  withinS: number,
): number {
  let low = 0;
  let high = 1;
  // What has not happened at the start is as far off as it is over at the end: halve first.
  run.within(1, state);
  let after = valueAt(state);
  let before = -after;
  let side = 0;
  // Looked for a little late, since the time just after is wanted.
  const late = (0.25 * withinS) / stepS;
  const close = Math.max(CLOSE, SLOW_PER_S * withinS);
  for (let round = 0; round < 60 && (high - low) * stepS > withinS; round++) {
    const share = Math.min(0.98, Math.max(0.02, before / (before - after)));
    const part =
      round > 30
        ? (low + high) / 2
        : Math.min(low + share * (high - low) + late, 0.5 * (low + share * (high - low) + high));
    run.within(part, state);
    const value = valueAt(state);
    if (value < 0) {
      if (side === 1) before *= weight(value / after);
      high = part;
      after = value;
      side = 1;
    } else {
      if (side === -1) after *= weight(value / before);
      low = part;
      before = value;
      side = -1;
    }
    if (value < 0 && value > -close) break;
  }
  return high;
}

/** What an end that stays counts for, where the other has come down to this part of what it was. */
const weight = (left: number): number => (left < 1 ? 1 - left : 0.5);

/** Of a metre, a metre a second or a newton; and how fast at least one of these changes where it counts, a second. */
const CLOSE = 1e-11;
const SLOW_PER_S = 1;

/** Speed of a mover against a direction, m/s. */
export const speedAgainst = (rig: CompiledSystem, { node }: Mover, away: readonly number[]): number =>
  -[0, 1, 2].reduce((sum, c) => sum + rig.velocityMS[3 * node + c]! * away[c]!, 0);

/** Has the pull on a pinned pulley turned away from what it ran up against? */
export function isPulledOff(
  { positionM }: CompiledSystem,
  { pullN }: MovingSystem,
  { node, pinned, steadyN }: Mover | Rider,
): boolean {
  let away = 0;
  for (let c = 0; c < 3; c++)
    away += (pullN[3 * node + c]! + steadyN[c]!) * (positionM[3 * node + c]! - positionM[3 * pinned + c]!);
  return away > 0;
}
