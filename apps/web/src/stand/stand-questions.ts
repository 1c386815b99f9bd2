import { type StandCells, standCells } from "@gantline/drawing";
import type { StandBand, StandGrid, StandQuestion } from "@gantline/engine";
import { standGrid } from "@gantline/engine";
import {
  type AskedStand,
  type Device,
  type FoundStands,
  type Plan,
  type StandAim,
  type StandAsk,
  type StandAsked,
  standAims,
  vehiclesOf,
} from "@gantline/plan";
import type { Ask } from "./stand-ask.ts";

/** What is asked of one vehicle: one question an aim. */
export interface VehicleAsked {
  readonly device: Device;
  readonly asked: readonly StandAsked[];
}

/** What was found for one vehicle so far. */
export interface VehicleSearch extends VehicleAsked {
  /** Empty where the question cannot be asked. */
  readonly cells: StandCells;
}

export const devicesOf = (plan: Plan, { deviceIds, kept }: Ask): readonly Device[] =>
  vehiclesOf(plan, kept).filter(({ id }) => deviceIds.includes(id));

/** The first of the plan's where none of those ticked is there any more. */
export function aimsOf(plan: Plan, { aimIds }: Ask): readonly [StandAim, ...StandAim[]] {
  const all = standAims(plan);
  const [first, ...rest] = all.filter(({ id }) => aimIds.includes(id));
  return first === undefined ? [all[0]] : [first, ...rest];
}

/** What is to be asked of each vehicle, one ask an aim. */
export function asksOf(
  plan: Plan,
  ask: Ask,
): readonly { readonly device: Device; readonly asks: readonly StandAsk[] }[] {
  const { toleranceM, cellM } = ask;
  const aims = aimsOf(plan, ask);
  return devicesOf(plan, ask).map((device) => ({
    device,
    asks: aims.map((aim) => ({
      aim,
      toleranceM,
      steps: { cellM },
      ...(device === plan.aerial.device ? {} : { device }),
    })),
  }));
}

/** Those that can be asked, vehicle by vehicle. */
export const questionsOf = (asked: readonly VehicleAsked[]): readonly AskedStand[] =>
  asked.flatMap((one) => one.asked.flatMap((a) => (a.ok ? [a] : [])));

/** Was the rating left for later? */
export const isFirstLook = ({ asked }: VehicleAsked): boolean => asked.some((a) => a.ok && a.question.ratingLater);

/** Lays out what was found, one map a vehicle. */
export function searchesOf(asked: readonly VehicleAsked[], found: readonly FoundStands[]): readonly VehicleSearch[] {
  return asked.map((one) => {
    const layers = found
      .filter((f) => one.asked.includes(f.asked))
      .map((f) => ({ question: f.asked.question, bands: f.bands }));
    return { ...one, cells: standCells(gridOf(layers.map(({ question }) => question)), layers) };
  });
}

export const foundOf = (
  questions: readonly AskedStand[],
  bands: readonly (readonly StandBand[])[],
): readonly FoundStands[] => questions.map((asked, index) => ({ asked, bands: [...(bands[index] ?? [])] }));

/** All questions of a search share one grid. */
const gridOf = ([first]: readonly StandQuestion[]): StandGrid =>
  first === undefined ? { westM: 0, southM: 0, cellM: 1, columns: 0, rows: 0 } : standGrid(first);
