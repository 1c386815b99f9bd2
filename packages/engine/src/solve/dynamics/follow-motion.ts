import { lengthOf } from "../../base/vector.ts";
import { dormandPrince, nextStep } from "../../numerics/dormand-prince.ts";
import { lendFloats } from "../../numerics/lent-floats.ts";
import type { Shape } from "../../scene/solids.ts";
import type { CompiledSystem, Mover, StepEvent } from "./compiled-system.ts";
import { dueEvents } from "./due-events.ts";
import { energiesOf, energyLedger } from "./energy-book.ts";
import { happenings, LIES_ON_M } from "./happenings.ts";
import type { LetGo, LetGoOptions, Touch } from "./let-go-types.ts";
import { motionLog } from "./motion-log.ts";
import { moveSystem } from "./move-system.ts";
import { peakWatch } from "./peak-watch.ts";
import { commitChain, sum } from "./rope-chain.ts";
import {
  firstTime,
  foundWithinS,
  howFarOff,
  lookedAhead,
  noteForward,
  noteLooked,
  possibleEvents,
} from "./step-events.ts";
import { type LineStory, tellResult, type Unfollowed } from "./tell-result.ts";

const MOST_STEPS = 50_000;
const FIRST_STEP_S = 0.01;
const LONGEST_STEP_S = 0.2;
const SHORTEST_STEP_S = 1e-12;
/** At rest: slower, and changing more slowly, than this (m/s and m/s²): millimetres from where it will stay. */
const REST_MS = 2e-3;
const REST_MS2 = 1e-2;
/** Beyond all rope there is, nothing holds that falls this much farther, m. */
const FALL_M = 50;

/** Follows a compiled system from its start to rest or to the end of its time. */
export function followMotion(
  rig: CompiledSystem,
  solids: Readonly<Record<string, Shape>>,
  options: Required<LetGoOptions>,
): LetGo | Unfollowed {
  const { tolerance, durationS } = options;
  const size = rig.start.length;
  const moving = moveSystem(rig);
  const run = dormandPrince(size, moving.derivative, lendFloats);
  const ledger = energyLedger(rig);
  const peaks = peakWatch(rig, moving, tolerance);
  const log = motionLog(rig, options.sampleForces ? moving.allPullsN : null);
  const events = possibleEvents(rig);
  const [next, slope, state] = [lendFloats(size), lendFloats(size), lendFloats(size)] as const;
  const turns = events.some((event) => event.kind === "turns");
  const touches: Touch[] = [];
  const stories = rig.lines.map(
    ({ chain }): LineStory => ({ wasSlack: chain.slack, letGoAtS: null, startRopeM: sum(chain.ropeM) }),
  );
  const carry = happenings(rig, moving, ledger, stories, touches);
  const where = rig.nodeNames[rig.load.node]!;
  const deepest =
    rig.load.startM[2] - FALL_M - 2 * rig.lines.reduce((m, { chain }) => m + sum(chain.ropeM) + sum(chain.lengthM), 0);

  const due: StepEvent[] = [];
  const happening = dueEvents(rig, events);
  let timeS = 0;
  let stepS = FIRST_STEP_S;
  let errorBefore = 1;
  let steps = 0;
  let topSpeedMS = 0;

  const value = (event: StepEvent, at: Float64Array, slopeAt: Float64Array) =>
    howFarOff(event, rig, moving, at, slopeAt);
  const valueAtEnd = (event: StepEvent) => value(event, run.to, run.slopeTo);
  const evaluate = (at: Float64Array) => moving.derivative(at, slope);

  /** Reads what stands at the start of a step, at `next` with this derivative. */
  const settleIn = (slopeAt: Float64Array, looked: boolean): void => {
    ledger.note(0);
    if (looked) noteLooked(rig);
    else if (turns) noteForward(rig, moving, next, slopeAt);
  };
  /** Goes on after a jump. Where that changes the viscous part at once, rope may shift over sheaves at once. */
  const begin = (): void => {
    happening.forget();
    const strainJ = energiesOf(rig).strainJ;
    run.begin(next);
    ledger.addShift(strainJ - energiesOf(rig).strainJ);
    for (const { chain, gone } of rig.lines) if (!gone) commitChain(chain);
    peaks.note(0);
    settleIn(run.slopeFrom, false);
  };

  next.set(rig.start);
  evaluate(next);
  const before = energiesOf(rig);
  const startJ = before.kineticJ + before.strainJ + before.potentialJ;
  for (const event of events) {
    const off =
      event.kind === "touches"
        ? value(event, next, slope) - LIES_ON_M
        : event.kind === "lets-go"
          ? value(event, next, slope)
          : 1;
    if (off < 0) carry.out(event, next, 0);
  }
  for (const mover of rig.movers) carry.off(mover);
  evaluate(next);
  peaks.note(0);
  peaks.takeFirst(0);
  log.add(0, rig);
  begin();

  let ended: LetGo["ended"] = "time";
  while (timeS < durationS - SHORTEST_STEP_S) {
    if (++steps > MOST_STEPS || stepS < SHORTEST_STEP_S || !moving.agreed())
      return { ok: false, code: "not-converged", where };
    const tried = Math.min(stepS, LONGEST_STEP_S, durationS - timeS);
    const attempted = run.attempt(tried, tolerance);
    // A step that looks too far ahead for the ropes to agree is one that was too long.
    const error = moving.agreed() ? attempted : Number.NaN;
    stepS = Number.isFinite(error) ? nextStep(tried, error, errorBefore) : 0.1 * tried;
    if (!(error <= 1)) continue;
    errorBefore = error;

    // The last evaluation of a step is at its end.
    happening.find(due, valueAtEnd);
    const looked = turns && due.length === 0 && lookedAhead(rig);
    const part =
      due.length === 0
        ? 1
        : firstTime(
            run,
            (at) => {
              evaluate(at);
              return due.reduce((least, event) => Math.min(least, value(event, at, slope)), Number.MAX_VALUE);
            },
            state,
            tried,
            due.reduce((least, event) => Math.min(least, foundWithinS(event, tolerance)), Number.MAX_VALUE),
          );
    run.within(0.5 * part, state);
    evaluate(state);
    ledger.note(1);
    peaks.note(1);
    log.add(timeS + 0.5 * part * tried, rig);
    if (part === 1) next.set(run.to);
    else run.within(part, next);
    evaluate(next);
    ledger.note(2);
    peaks.note(2);
    ledger.addStep();
    log.add(timeS + part * tried, rig);
    if (peaks.takeStep((p, into) => run.within(p * part, into), timeS, part * tried)) evaluate(next);
    timeS += part * tried;
    const happened = due.filter((event) => event.kind !== "turns" && value(event, next, slope) <= 0);
    for (let k = 0; k < rig.lines.length; k++) {
      const { chain, gone } = rig.lines[k]!;
      if (gone) continue;
      commitChain(chain);
      if (chain.tensionN[0] === 0) stories[k]!.wasSlack = true;
    }
    for (const event of happened) carry.out(event, next, timeS);
    let changed = part < 1 || happened.length > 0;
    for (const mover of rig.movers) if (carry.off(mover)) changed = true;
    if (rig.rider && carry.offBlock(rig.rider)) changed = true;
    if (changed) {
      begin();
      stepS = Math.min(stepS, 0.5 * LONGEST_STEP_S);
    } else {
      run.advance();
      peaks.carryOn();
      settleIn(slope, looked);
    }

    topSpeedMS = Math.max(topSpeedMS, speedOf(next, rig.load));
    if (next[6 * rig.load.index + 2]! < deepest) return { ok: false, code: "nothing-holds", where };
    if (!changed && rig.movers.every((m) => isAtRest(m, next, slope))) {
      ended = "rest";
      break;
    }
  }
  evaluate(next);
  const after = energiesOf(rig);
  return tellResult(rig, solids, {
    ended,
    timeS,
    steps,
    peaks,
    stories,
    touches,
    topSpeedMS,
    energy: ledger.close(startJ, after.kineticJ, after.strainJ, after.potentialJ),
    log,
    mostSamples: options.mostSamples,
  });
}

const speedOf = (state: Float64Array, { index }: Mover): number =>
  lengthOf(state[6 * index + 3]!, state[6 * index + 4]!, state[6 * index + 5]!);

const isAtRest = (mover: Mover, state: Float64Array, slope: Float64Array): boolean =>
  speedOf(state, mover) < REST_MS && speedOf(slope, mover) < REST_MS2;
