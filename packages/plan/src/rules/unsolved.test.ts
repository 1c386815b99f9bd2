import { describe, expect, it } from "vitest";
import { evaluate } from "../evaluate.ts";
import { crossingExample } from "../examples/crossing.ts";
import { roofExample } from "../examples/roof.ts";
import { asReal } from "../fuzz/as-real.ts";
import type { Plan } from "../schema/plan.ts";

const withLoad = (plan: Plan, change: Partial<Plan["rig"]["load"]>): Plan => ({
  ...plan,
  rig: { ...plan.rig, load: { ...plan.rig.load, ...change } },
});
const unweighed = (plan: Plan): Plan =>
  withLoad(plan, { parts: plan.rig.load.parts.map((p, i) => (i === 0 ? { ...p, massKg: null } : p)) });
const aboveTheTip = (plan: Plan): Plan => withLoad(plan, { positionM: [0, 10.6, 40] });
const offTheLadder = (plan: Plan): Plan => ({
  ...plan,
  rig: {
    ...plan.rig,
    mainLines: plan.rig.mainLines.map((l, i) => (i === 0 ? { ...l, tip: { ...l.tip, pointId: "no-such-point" } } : l)),
  },
});

/** As they are called where nothing is solved: which structure a rope comes nearest to is not known then. */
const unsolvedId = (id: string): string => id.replace(/^(clearance\/rope\/[^/]+)\/.*/, "$1");

/** What stands by the plan as entered, without a balance of forces. */
const AS_ENTERED =
  /^(sharing|tip-height|ground\/ladder|clearance\/ladder\/.*|power-line\/power\/(ladder|vehicle)\/.*|jack-(reach|ground)\/.*|non-structural-point\/.*|tagline-standing\/.*|reach|elevation|wind|sling-angle|persons|parking|slope|ground-slope|ground-level|lock-out|power-lines-looked-for|missing-data\/.*|attendant)$/;

const PLANS: readonly (readonly [string, Plan])[] = [
  ["crossing", asReal(crossingExample)],
  ["roof, with a tether", asReal(roofExample)],
];
const FAULTS: readonly (readonly [string, (plan: Plan) => Plan, RegExp])[] = [
  ["a mass is not known", unweighed, /mass of .* is not known/],
  ["nothing holds the load", aboveTheTip, /No pull of the main lines holds the load/],
  ["a line has no place on the ladder", offTheLadder, /uses rigging point "no-such-point"/],
];

describe.each(PLANS)("%s, where nothing can be solved", (_, plan) => {
  const solved = evaluate(plan);

  it.each(FAULTS)("%s: every check that was there is there, and what rests on a force is unknown", (_, fault, why) => {
    const unsolved = evaluate(fault(plan));
    expect(unsolved.lines).toEqual([]);
    const now = new Map(unsolved.ledger.map((c) => [c.id, c]));
    expect(solved.ledger.length).toBeGreaterThan(80);
    const gone = solved.ledger.map((c) => unsolvedId(c.id)).filter((id) => !now.has(id));
    // Only the point that is no longer used may go.
    expect(gone.filter((id) => !id.endsWith("/tip-left"))).toEqual([]);
    const judged = unsolved.ledger.filter((c) => c.status !== "unknown" && !AS_ENTERED.test(c.id));
    expect(judged.map((c) => c.id).filter((id) => id !== "holding")).toEqual([]);
    for (const id of ["tip-rating/resultant", "component-strength/main-a/rope", "rope-length/main-b"])
      expect(now.get(id)?.says.join(""), id).toMatch(why);
    expect(new Set(unsolved.ledger.map((c) => c.id)).size).toBe(unsolved.ledger.length);
  });
});

it("the tether of the roof is among them", () => {
  const ids = evaluate(unweighed(asReal(roofExample))).ledger.flatMap((c) => (c.rule === "tether" ? [c.id] : []));
  expect(ids.sort()).toEqual(["tether/clear-of-ladder", "tether/hands", "tether/reach", "tether/rides-free"]);
});
