import { norm, pullsToHold, type SiteVector, site, slopeShot } from "@gantline/engine";
import { type Evaluation, EXAMPLES, evaluate, type Plan, powerLineDistanceM } from "@gantline/plan";
import { degrees, type Inputs, numberIn, radians } from "../validation-case.ts";
import type { Way } from "../way.ts";
import { solved } from "./ropes.ts";

const FOOT_M = 0.3048;

/** The example plan that carries a litter on a bridle. */
const litterPlan = (): Plan => {
  const found = EXAMPLES.find((e) => e.plan.rig.load.bridle.legs > 1);
  if (!found) throw new Error("no example with a bridle");
  return found.plan;
};

const demandOf = ({ ledger }: Evaluation, id: string): number =>
  ledger.find((c) => c.id === id)?.demand?.value ?? Number.NaN;

/** A load on two legs at an angle: by the pulls that hold it, as a rope network, and as the bridle of a plan judged by its ledger. */
export function twoLegs(inputs: Inputs): readonly Way[] {
  const angle = radians(
    "includedDeg" in inputs ? 90 - numberIn(inputs, "includedDeg") / 2 : numberIn(inputs, "fromHorizontalDeg"),
  );
  const load = "load" in inputs ? numberIn(inputs, "load") : 1;
  const forceN = site(0, 0, -load);
  const end = (side: number): SiteVector => site(10 * side * Math.cos(angle), 0, 10 * Math.sin(angle));
  const values = (leg: number, of: number) => ({ leg: (leg / of) * load, perShare: leg / (of / 2), perLoad: leg / of });

  const held = pullsToHold(
    site(0, 0, 0),
    [
      { toward: end(-1), share: 0.5 },
      { toward: end(1), share: 0.5 },
    ],
    [],
    forceN,
  );
  const network = solved({
    nodes: {
      load: { position: [0, 0, 0], free: true, forceN },
      left: { position: end(-1) },
      right: { position: end(1) },
    },
    lines: {
      left: { through: ["load", "left"], lengthM: 10, axialStiffnessN: 1e8 * load },
      right: { through: ["load", "right"], lengthM: 10, axialStiffnessN: 1e8 * load },
    },
  });

  const plan = litterPlan();
  const spreadM = 0.75 * Math.cos(angle);
  const bridle = { ...plan.rig.load.bridle, legs: 2, spreadM, heightM: 0.75 * Math.sin(angle) };
  const evaluation = evaluate({ ...plan, rig: { ...plan.rig, load: { ...plan.rig.load, bridle } } });
  return [
    { way: "held", values: values(held.mainN / 2, load) },
    { way: "network", values: values(network.lines.left?.tensionsN[0] ?? Number.NaN, load) },
    {
      way: "bridle in a plan",
      values: values(demandOf(evaluation, "component-strength/load/bridle.leg"), evaluation.load.weightN ?? Number.NaN),
    },
  ];
}

/** Wind on the load of a plan. */
export function windForce(inputs: Inputs): readonly Way[] {
  const plan = litterPlan();
  const dragAreaM2 = numberIn(inputs, "dragAreaM2");
  const { load } = evaluate({
    ...plan,
    scene: { ...plan.scene, wind: { ...plan.scene.wind, gustMS: numberIn(inputs, "gustMS") } },
    rig: { ...plan.rig, load: { ...plan.rig.load, dragAreaM2 } },
  });
  const push = load.windN === null ? Number.NaN : norm(load.windN);
  return [
    {
      way: "plan",
      values: {
        force: push,
        pressure: push / dragAreaM2,
        ...("massKg" in inputs ? { angleDeg: hangingAngle(push, numberIn(inputs, "massKg")) } : {}),
      },
    },
  ];
}

/** How far out of plumb a load hangs that is pushed level, degrees. */
function hangingAngle(push: number, massKg: number): number {
  const answer = solved({
    nodes: { load: { position: [0, 0, -20], free: true, massKg, forceN: [push, 0, 0] }, top: { position: [0, 0, 0] } },
    lines: { rope: { through: ["load", "top"], lengthM: 20, axialStiffnessN: 60_000 } },
  });
  const [x, , z] = answer.nodes.load?.position ?? [Number.NaN, 0, 0];
  return degrees(Math.atan2(x, -z));
}

/** A load held out of plumb by a tagline that leads down. Forces over its weight. */
export function taglinePull(inputs: Inputs): readonly Way[] {
  const out = radians(numberIn(inputs, "ropeFromPlumbDeg"));
  const down = radians(numberIn(inputs, "tagBelowHorizontalDeg"));
  const rope = site(-Math.sin(out), 0, Math.cos(out));
  const tag = site(Math.cos(down), 0, -Math.sin(down));
  const held = pullsToHold(
    site(0, 0, 0),
    [{ toward: rope, share: 1 }],
    [{ toward: tag, tensionN: null }],
    site(0, 0, -1),
  );
  return [{ way: "held", values: { tagline: held.handsN[0] ?? Number.NaN, rope: held.mainN } }];
}

/** Distance to keep from a power line, ft. */
export function powerLine(inputs: Inputs): readonly Way[] {
  const { requiredM, tableAM, fireServiceM } = powerLineDistanceM(numberIn(inputs, "voltageKv"));
  const feet = (m: number | null): number => (m === null ? Number.NaN : m / FOOT_M);
  return [
    {
      way: "plan",
      values: {
        table: feet(tableAM),
        fireService: feet(fireServiceM),
        required: feet(requiredM),
        tableM: tableAM ?? Number.NaN,
      },
    },
  ];
}

/** Height and distance from a slope distance and an angle. In the case's own length unit. */
export function slopeMeasurement(inputs: Inputs): readonly Way[] {
  const got = slopeShot({
    distanceM: numberIn(inputs, "distance"),
    elevationRad: radians(numberIn(inputs, "elevationDeg")),
    distanceErrorM: "distanceError" in inputs ? numberIn(inputs, "distanceError") : 0,
    elevationErrorRad: "elevationErrorDeg" in inputs ? radians(numberIn(inputs, "elevationErrorDeg")) : 0,
  });
  return [
    {
      way: "shot",
      values: {
        height: got.heightM,
        horizontal: got.horizontalM,
        heightError: got.heightErrorM,
        horizontalError: got.horizontalErrorM,
      },
    },
  ];
}
