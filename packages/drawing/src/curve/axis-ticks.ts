import {
  DEGREE_RAD,
  ENTRY_UNIT,
  FOOT_M,
  INCH_M,
  MILE_PER_HOUR_MS,
  POUND_FORCE_N,
  POUND_KG,
  type Quantity,
  type UnitSystem,
} from "@gantline/plan";
import { roundUp125 } from "../shared/force-scale.ts";

export interface AxisTick {
  /** SI. */
  readonly value: number;
  /** In the reader's unit, without the unit. */
  readonly text: string;
}

/** An axis from `low` to `high`, SI, both on a tick. */
export interface Axis {
  readonly low: number;
  readonly high: number;
  readonly ticks: readonly AxisTick[];
  /** "kN", "ft", "% of limit"; empty where the quantity has none. */
  readonly unit: string;
}

const METRIC_UNIT: Partial<Readonly<Record<Quantity, number>>> = {
  force: 1000,
  stiffness: 1000,
  moment: 1000,
  pressure: 1000,
  bendingStiffness: 1e6,
  diameter: 0.001,
  linearMass: 0.001,
  angle: DEGREE_RAD,
  ratio: 0.01,
};
const IMPERIAL_UNIT: Partial<Readonly<Record<Quantity, number>>> = {
  ...METRIC_UNIT,
  length: FOOT_M,
  diameter: INCH_M,
  area: FOOT_M ** 2,
  force: POUND_FORCE_N,
  stiffness: POUND_FORCE_N,
  moment: POUND_FORCE_N * FOOT_M,
  pressure: POUND_FORCE_N / FOOT_M ** 2,
  bendingStiffness: POUND_FORCE_N * FOOT_M ** 2 * 1000,
  linearMass: POUND_KG / (100 * FOOT_M),
  mass: POUND_KG,
  speed: MILE_PER_HOUR_MS,
};

/** An axis that is to hold zero does so unless all its values lie in the upper part of what it would then span. */
const FAR_FROM_ZERO = 0.6;
/** Values that differ by less than this part of the highest are drawn as level. */
const LEAST_SPAN = 0.02;
/** In the reader's unit. */
const NOTHING = 1e-9;

/**
 * Which round steps of the reader's unit span these values? Steps are 1, 2 or 5 times a power of ten, at most `most` of
 * them; zero is on the axis unless the values lie far from it. No values give an axis of one step from zero.
 */
export function axisFor(values: readonly number[], quantity: Quantity, system: UnitSystem, most: number): Axis {
  const unit = (system === "metric" ? METRIC_UNIT : IMPERIAL_UNIT)[quantity] ?? 1;
  const sound = values.filter(Number.isFinite).map((v) => v / unit);
  const top = Math.max(0, ...sound);
  const bottom = Math.min(top, ...sound);
  const from = bottom > FAR_FROM_ZERO * top ? bottom : Math.min(0, bottom);
  const span = Math.max(top - from, LEAST_SPAN * top);
  const step = span > NOTHING ? roundUp125(span / Math.max(1, most - 1)) : 1;
  const first = Math.floor(from / step + 1e-9);
  const last = Math.max(first + 1, Math.ceil(top / step - 1e-9));
  const ticks = Array.from({ length: last - first + 1 }, (_, i): AxisTick => {
    const inUnit = (first + i) * step;
    return { value: inUnit * unit, text: `${Number(inUnit.toPrecision(6))}`.replace("-", "−") };
  });
  return {
    low: first * step * unit,
    high: last * step * unit,
    ticks,
    unit: quantity === "ratio" ? "% of limit" : ENTRY_UNIT[quantity][system],
  };
}
