export * from "./caution.ts";
export * from "./check.ts";
export * from "./edit/move-handle.ts";
export * from "./edit/pose-at.ts";
export * from "./edit/schema-at.ts";
export * from "./edit/section-frame.ts";
export * from "./edit/surface-below.ts";
export { evaluate } from "./evaluate.ts";
export * from "./evaluation.ts";
export { evaluateAt } from "./evolve/evaluate-at.ts";
export * from "./evolve/evolution-types.ts";
export { evolve } from "./evolve/evolve.ts";
export { holdsWithoutLoad } from "./evolve/holds-without-load.ts";
export { alongWay, momentPlan, poseBefore, stageStart, stageWay, wayLengthM } from "./evolve/moment-plan.ts";
export { swingSays } from "./evolve/stage-let-outs.ts";
export { type StageMemory, stageMemory } from "./evolve/stage-memory.ts";
export { exampleLine } from "./example-line.ts";
export { EXAMPLES } from "./examples/all-examples.ts";
export { findProblems } from "./find-problems.ts";
export { worstFirst } from "./judge.ts";
export { criticalPoints } from "./let-go/critical-points.ts";
export { LET_GO_SWEEP_S } from "./let-go/follow-cut.ts";
export { letGoAt } from "./let-go/let-go-at.ts";
export type { CaseOptions } from "./let-go/let-go-case.ts";
export {
  doLetGoTask,
  gatherLetGo,
  type LetGoPart,
  type LetGoSweepOptions,
  type LetGoTask,
  letGoEvolution,
  letGoTasks,
} from "./let-go/let-go-evolution.ts";
export * from "./let-go/let-go-plan-types.ts";
export { letGoSystem } from "./let-go/let-go-system.ts";
export { LET_GO_LIMITS, LET_GO_LIMITS_TEXT, TIP_SAYS } from "./let-go/model-limits.ts";
export { roomiestMoment } from "./let-go/most-room.ts";
export { pointLimitN } from "./let-go/point-limit.ts";
export { DAMPING_RATIO } from "./let-go/reckoned-range.ts";
export { shareSlackMap } from "./let-go/share-slack-map.ts";
export { letGoMoments, linesOn, type SweptCase, sweepCuts } from "./let-go/sweep-cuts.ts";
export { techniquePlan, techniques } from "./let-go/techniques.ts";
export { hardestPulled, techniquesCsv } from "./let-go/techniques-csv.ts";
export { tipGive } from "./let-go/tip-give.ts";
export { letOuts } from "./let-outs.ts";
export { deviceById } from "./library/device-by-id.ts";
export { EXAMPLE_DEVICES } from "./library/devices.ts";
export { EXAMPLE_GEAR } from "./library/gear.ts";
export { STARTING_POLICY } from "./library/policies.ts";
export { firstOfEachId, vehiclesOf } from "./library/vehicle-list.ts";
export { newPlan } from "./new-plan.ts";
export { planJsonSchema } from "./plan-json-schema.ts";
export { powerLineDistanceM } from "./power-line-distance.ts";
export { type ReadPlan, readPlan, readPlanText, writePlanText } from "./read-plan.ts";
export { repeatedNames } from "./repeated-names.ts";
export { letGoChecks } from "./rules/let-go.ts";
export { ropeNeedTerms } from "./rules/rope-length.ts";
export * from "./schema/aerial.ts";
export * from "./schema/evolution.ts";
export * from "./schema/gear.ts";
export * from "./schema/plan.ts";
export * from "./schema/policy.ts";
export * from "./schema/rig.ts";
export * from "./schema/scene.ts";
export { parkingZAt } from "./site-ground.ts";
export { servesAll } from "./stand/serves-all.ts";
export { type AdviceOptions, inOrder as adviceInOrder, standAdvice } from "./stand/stand-advice.ts";
export { standAims } from "./stand/stand-aims.ts";
export { bestByAspect } from "./stand/stand-front.ts";
export { isTight, PARKED_OFF_MOST_M, standPlacement, TIGHT_M } from "./stand/stand-placement.ts";
export { BODY_CLEARANCE_M, PLUMB_TOLERANCE_M, STAND_STEPS, standQuestion } from "./stand/stand-question.ts";
export { withRoom } from "./stand/stand-room.ts";
export { type ShortListOptions, standShortList } from "./stand/stand-short-list.ts";
export * from "./stand/stand-types.ts";
export { withStand } from "./stand/with-stand.ts";
export * from "./units/quantity.ts";
export * from "./units/read-amount.ts";
export * from "./units/write-amount.ts";
export * from "./units/write-entry.ts";
