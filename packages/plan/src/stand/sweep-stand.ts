import { norm } from "@gantline/engine";
import type { Check, Status } from "../check.ts";
import { evaluate } from "../evaluate.ts";
import type { TimedCheck, When } from "../evolve/evolution-types.ts";
import { evolve } from "../evolve/evolve.ts";
import { STEP_M } from "../evolve/sweep-stage.ts";
import type { Plan } from "../schema/plan.ts";
import type { StandFigures, StandFit } from "./stand-types.ts";

/** How a plan does as it stands, over its whole evolution. */
export interface SweptStand {
  readonly fit: StandFit;
  readonly figures: StandFigures;
  readonly counts: Readonly<Record<Status, number>>;
  readonly worst: TimedCheck | null;
}

/** Sweeps a plan's whole evolution with every check; a plan without stages is judged in its one position. */
export const sweepStand = (plan: Plan): SweptStand => sweepTelling(plan).swept;

/** The same, and the moments at which something is over or the load is not held. */
export function sweepTelling(plan: Plan): { readonly swept: SweptStand; readonly overAt: readonly When[] } {
  const { overAt, ...judged } = plan.evolution.stages.length > 0 ? worked(plan) : { ...still(plan), overAt: [] };
  return { swept: judgedStand(plan, judged), overAt };
}

/** What a ledger over all or some moments comes to. */
export function judgedStand(plan: Plan, { ledger, tipForceN }: Judged): SweptStand {
  const counting = ledger.filter((c) => c.counts && c.rule !== "example-data");
  const count = (status: Status): number => counting.filter((c) => c.status === status).length;
  const counts = { within: count("within"), close: count("close"), over: count("over"), unknown: count("unknown") };
  return {
    fit: counts.over > 0 ? "fails" : counts.unknown > 0 || counting.length === 0 ? "unknown" : "fits",
    figures: {
      elevationRad: plan.aerial.pose.elevationRad,
      lengthM: plan.aerial.pose.lengthM,
      utilisation: mostOf(ratings(ledger), (c) => c.ratio),
      tipForceN,
      clearanceM: leastSpare(ledger),
      ropeM: sumOf(ledger.filter((c) => c.rule === "rope-length")),
    },
    counts,
    worst: counting[0] ?? null,
  };
}

export interface Judged {
  /** Worst first. */
  readonly ledger: readonly TimedCheck[];
  readonly tipForceN: number | null;
}

function worked(plan: Plan): Judged & { readonly overAt: readonly When[] } {
  const { ledger, series, moments } = evolve(plan, STEP_M);
  const force = series.find((s) => s.id === "force/tip");
  const over = ledger.flatMap((c) => (isOver(c) && c.when ? [c.when] : []));
  const notHeld = moments.flatMap(({ holds, when }) =>
    holds !== "held" && (plan.evolution.stages[when.stage]?.aboard.length ?? 0) > 0 ? [when] : [],
  );
  return { ledger, tipForceN: mostOf(force?.values ?? [], (n) => n), overAt: [...over, ...notHeld.slice(0, 3)] };
}

/** Does a check speak against a stand? Example data is not counted. */
export const isOver = (c: Pick<Check, "counts" | "status" | "rule">): boolean =>
  c.counts && c.status === "over" && c.rule !== "example-data";

function still(plan: Plan): Judged {
  const { ledger, felt } = evaluate(plan);
  return {
    ledger: ledger.map((c) => ({ ...c, when: null })),
    tipForceN: mostOf(Object.values(felt), (f) => norm(f.resultantN)),
  };
}

const ratings = (ledger: readonly Check[]): readonly Check[] =>
  ledger.filter((c) => c.rule === "tip-rating" && c.counts);

/** Ladder and vehicle from all they must keep off, less what is asked; `null` where a distance or what is asked is not known. */
function leastSpare(ledger: readonly Check[]): number | null {
  const kept = ledger.filter(
    (c) => c.id.startsWith("clearance/ladder/") || /^power-line\/power\/(ladder|vehicle)\//.test(c.id),
  );
  const spares = kept.map((c) => (c.demand === null || c.limit === null ? null : c.limit.value - c.demand.value));
  return spares.includes(null) || spares.length === 0 ? null : Math.min(...spares.map((s) => s ?? 0));
}

function sumOf(checks: readonly Check[]): number | null {
  if (checks.length === 0 || checks.some((c) => c.demand === null)) return null;
  return checks.reduce((sum, c) => sum + (c.demand?.value ?? 0), 0);
}

/** The greatest of what is known; `null` where nothing is, or where something that counts is not. */
function mostOf<T>(all: readonly T[], of: (one: T) => number | null): number | null {
  const known = all.flatMap((one) => of(one) ?? []);
  return known.length > 0 ? Math.max(...known) : null;
}
