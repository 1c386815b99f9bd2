import { capstanRatio, frictionOfEfficiency, sheaveRatio, sheaveResultant, tackleAdvantage } from "@gantline/engine";
import { type Inputs, numberIn, numbersIn, radians } from "../validation-case.ts";
import type { Way } from "../way.ts";
import { solved } from "./ropes.ts";

/** The sheave's resultant by its formula. */
export function sheaveFormula(inputs: Inputs): readonly Way[] {
  const wrap = radians(
    "deflectionDeg" in inputs ? numberIn(inputs, "deflectionDeg") : 180 - numberIn(inputs, "angleBetweenDeg"),
  );
  const pull = "linePull" in inputs ? numberIn(inputs, "linePull") : 1;
  const load = sheaveResultant(pull, pull, wrap);
  return [{ way: "formula", values: { factor: load / pull, load } }];
}

/** Rope round a drum. */
export function capstan(inputs: Inputs): readonly Way[] {
  const wrap = "turns" in inputs ? numberIn(inputs, "turns") * 2 * Math.PI : radians(numberIn(inputs, "wrapDeg"));
  const ratio = capstanRatio(numberIn(inputs, "friction"), wrap);
  const held = "held" in inputs ? numberIn(inputs, "held") : 1;
  return [{ way: "formula", values: { ratio, low: held / ratio, high: held * ratio } }];
}

/** Efficiency of a half turn as a coefficient of friction, and back over the same half turn. */
export function sheaveFriction(inputs: Inputs): readonly Way[] {
  const efficiency = numberIn(inputs, "efficiency");
  const friction = frictionOfEfficiency(efficiency);
  const part = "wrapDeg" in inputs ? { passed: sheaveRatio(efficiency, radians(numberIn(inputs, "wrapDeg"))) } : {};
  return [{ way: "formula", values: { friction, ...part } }];
}

/** What a tackle of one or more stages multiplies a pull by: by the formula, and a single stage also as a rope network. */
export function tackle(inputs: Inputs): readonly Way[] {
  const efficiency = numberIn(inputs, "efficiency");
  const stages = numbersIn(inputs, "stages");
  const advantage = stages.reduce((product, parts) => product * tackleAdvantage(parts, efficiency), 1);
  const [parts = 0, ...more] = stages;
  const ways: Way[] = [{ way: "formula", values: { advantage } }];
  return more.length > 0 ? ways : [...ways, { way: "network", values: { advantage: reeved(parts, efficiency) } }];
}

/** A simple tackle, haul end leaving the travelling block upward, raised; all strands plumb, so that each sheave turns the rope by 180°. */
function reeved(parts: number, efficiency: number): number {
  const through = Array.from({ length: parts + 1 }, (_, i) => (i === 0 ? "hand" : i % 2 === 1 ? "load" : "upper"));
  const answer = solved({
    nodes: {
      load: { position: [0, 0, 1], free: true, massKg: 100 },
      hand: { position: [0, 0, 12] },
      upper: { position: [0, 0, 11] },
    },
    lines: {
      rope: {
        through,
        lengthM: 10 * parts,
        axialStiffnessN: 1e6,
        efficiency: Array.from({ length: parts - 1 }, () => efficiency),
        travel: "toStart",
      },
    },
  });
  const onTop = (answer.forcesOnFixedN.hand?.[2] ?? Number.NaN) + (answer.forcesOnFixedN.upper?.[2] ?? 0);
  return -onTop / (answer.lines.rope?.tensionsN[0] ?? Number.NaN);
}

/** A wire-rope tackle whose lead line comes off the upper block, and further sheaves the lead line turns over. */
export function leadLine(inputs: Inputs): readonly Way[] {
  const efficiency = "efficiency" in inputs ? numberIn(inputs, "efficiency") : 1 / numberIn(inputs, "lossFactor");
  const extra = "extraSheaves" in inputs ? numberIn(inputs, "extraSheaves") : 0;
  const advantage = efficiency ** (1 + extra) * tackleAdvantage(numberIn(inputs, "parts"), efficiency);
  const load = "load" in inputs ? numberIn(inputs, "load") : 1;
  return [{ way: "formula", values: { advantage, factor: 1 / advantage, pull: load / advantage } }];
}
