import { type StandCells, type StandFound, standCells } from "@gantline/drawing";
import {
  cellMiddle,
  otherReasonAt,
  STAND_CHECKS,
  STAND_STATUSES,
  type StandCheck,
  type StandReason,
  standGrid,
  standReasonAt,
} from "@gantline/engine";
import type { FoundStands, Plan, StandAdvice, StandChoice, StandEntry, StandPlacement } from "@gantline/plan";
import { reportHead } from "./plan-report.ts";

/** Everything that was found about where to stand. */
export interface StandAnswer {
  readonly found: readonly FoundStands[];
  readonly entries: readonly StandEntry[];
  /** With the vehicle that it is advice for; `null`: not looked for. */
  readonly advice: readonly (StandAdvice & { readonly vehicle: string })[] | null;
  /** Of the best stand; `null` where none fits. */
  readonly placement: StandPlacement | null;
  readonly passedOver: readonly PassedOver[];
}

/** A vehicle of another plan file that is not tried, because one that is has its id. */
export interface PassedOver {
  readonly file: string;
  /** The id. */
  readonly vehicle: string;
  readonly name: string;
  /** What is tried by that id, and of which file; `null`: it is the plan's own. */
  readonly insteadOf: string;
  readonly insteadFrom: string | null;
}

/** One vehicle's search over all its aims, put together. */
export interface VehicleSearch {
  readonly found: readonly FoundStands[];
  readonly cells: StandCells;
  readonly counts: Readonly<Record<(typeof STAND_STATUSES)[number], number>>;
  /** What governs cells that are rejected: how many, and the one that comes nearest to passing. */
  readonly governs: readonly {
    readonly check: StandCheck;
    readonly cells: number;
    /** Relative to the limit. */
    readonly miss: number;
    readonly nearest: StandReason;
    /** What else keeps that one from fitting. */
    readonly other: StandReason | null;
    readonly found: FoundStands;
  }[];
  /** Every place that was looked at, with its reason. */
  readonly places: readonly StandPlace[];
}

export interface StandPlace {
  readonly xM: number;
  readonly yM: number;
  readonly status: (typeof STAND_STATUSES)[number];
  /** Of which aim, where it is about one. */
  readonly aim: string;
  readonly reason: StandReason | null;
  readonly at: StandFound;
}

/** The searches vehicle by vehicle. Of several aims each cell counts by the one that is hardest to meet. */
export function vehicleSearches({ found }: StandAnswer): readonly VehicleSearch[] {
  const keys = [...new Set(found.map((f) => f.asked.question.vehicleKey))];
  return keys.map((key) => searchOf(found.filter((f) => f.asked.question.vehicleKey === key)));
}

function searchOf(found: readonly FoundStands[]): VehicleSearch {
  const [first] = found;
  const grid = first ? standGrid(first.asked.question) : { westM: 0, southM: 0, cellM: 1, columns: 0, rows: 0 };
  const cells = standCells(
    grid,
    found.map((f) => ({ question: f.asked.question, bands: f.bands })),
  );
  const counts = { feasible: 0, unknown: 0, rejected: 0 };
  const nearest = new Map<
    number,
    { cells: number; miss: number; reason: StandReason; at: StandFound; found: FoundStands }
  >();
  const places: StandPlace[] = [];
  for (let cell = 0; cell < grid.columns * grid.rows; cell++) {
    const at = cells.at(cell);
    if (at === null) continue;
    const status = STAND_STATUSES[at.band.status[at.entry] ?? 2] ?? "rejected";
    counts[status]++;
    const own = found.find((f) => f.asked.question === at.question);
    const reason = standReasonAt(at.question, at.band, at.entry);
    const [xM, yM] = cellMiddle(grid, cell);
    places.push({ xM, yM, status, aim: own?.asked.aim.id ?? "", reason, at });
    if (status !== "rejected" || !own || !reason) continue;
    const check = at.band.check[at.entry] ?? 0;
    const miss = at.band.miss[at.entry] ?? 0;
    const known = nearest.get(check);
    if (!known) nearest.set(check, { cells: 1, miss, reason, at, found: own });
    else if (miss < known.miss) nearest.set(check, { cells: known.cells + 1, miss, reason, at, found: own });
    else known.cells++;
  }
  const governs = [...nearest].flatMap(([check, n]) => {
    const name = STAND_CHECKS[check];
    return name === undefined || name === "none"
      ? []
      : [{ check: name, cells: n.cells, miss: n.miss, nearest: n.reason, other: otherOf(n.at), found: n.found }];
  });
  return { found, cells, counts, governs: governs.sort((a, b) => b.cells - a.cells), places };
}

const otherOf = ({ question, band, entry }: StandFound): StandReason | null => otherReasonAt(question, band, entry);

/** What `stand --json` prints. SI, as it stands; vehicles by their ids. */
export function standReport(plan: Plan, answer: StandAnswer) {
  return {
    ...reportHead(plan),
    fits: answer.entries.some((e) => e.fit === "fits"),
    vehicles: vehicleSearches(answer).map(({ found, counts, governs, places }) => ({
      vehicle: found[0]?.asked.question.vehicleKey ?? null,
      cellM: found[0]?.asked.question.steps.cellM ?? null,
      aims: found.map(({ asked }) => ({ ...asked.aim, target: asked.question.target, unknown: asked.unknown })),
      cells: counts,
      governs: governs.map(({ found: _, ...rest }) => rest),
      places: places.map(({ at, ...rest }) => ({ ...rest, otherReason: otherOf(at) })),
    })),
    stands: answer.entries.map(({ choice, ...rest }) => ({ ...choiceReport(choice), ...rest })),
    advice:
      answer.advice?.map(({ choice, plan: _changed, ...rest }) => ({ ...rest, stand: choiceReport(choice) })) ?? null,
    placement: answer.placement,
    passedOver: answer.passedOver.map((p) => ({ ...p, says: passedOverSays(p) })),
  };
}

export const passedOverSays = ({ file, vehicle, name, insteadOf, insteadFrom }: PassedOver): string =>
  `Not tried: "${name}" of ${file}. Its id "${vehicle}" is that of "${insteadOf}" ${insteadFrom === null ? "of the plan" : `of ${insteadFrom}`}, which is tried: give it an id of its own.`;

const choiceReport = ({ device, ...rest }: StandChoice) => ({ vehicle: device.id, ...rest });
