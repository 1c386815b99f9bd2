import { describe, expect, it } from "vitest";
import type { Check } from "./check.ts";
import { evaluate } from "./evaluate.ts";
import type { Evaluation } from "./evaluation.ts";
import { evaluateAt } from "./evolve/evaluate-at.ts";
import { crossingExample } from "./examples/crossing.ts";
import { asReal } from "./fuzz/as-real.ts";
import type { Plan } from "./schema/plan.ts";

const crossing = asReal(crossingExample);

/** The crossing with a stronger tip, so that an attendant of this mass puts nothing over. */
function carrying(massKg: number | null, ratedTipLoadN: number | null = 20e3): Plan {
  const { device } = crossing.aerial;
  const rows = device.tipRating.rows.map((r) => ({ ...r, ratedTipLoadN }));
  const riggingPoints = device.riggingPoints.map((p) => ({ ...p, ratingN: p.ratingN === null ? null : 20e3 }));
  const anchors = device.anchors.map((a) => ({ ...a, ratingN: 30e3 }));
  return {
    ...crossing,
    aerial: {
      ...crossing.aerial,
      device: { ...device, riggingPoints, anchors, tipRating: { ...device.tipRating, rows } },
    },
    policy: { ...crossing.policy, attendantMassKg: { value: massKg, source: "test" } },
  };
}

const row = ({ ledger }: Evaluation): Check => {
  const found = ledger.find((c) => c.id === "attendant");
  if (!found) throw new Error("no attendant row");
  return found;
};
const says = (evaluation: Evaluation): string => row(evaluation).says.join("");

describe("what an attendant would change", () => {
  it("is what the ledger says of the same plan with one entered, check by check", () => {
    const asked = evaluate(carrying(80));
    const { parts } = crossing.rig.load;
    const attendant = { id: "attendant", name: "Attendant", kind: "attendant" as const, massKg: 80 };
    const plan = carrying(80);
    const entered = evaluate({
      ...plan,
      rig: { ...plan.rig, load: { ...plan.rig.load, parts: [...parts, attendant] } },
    });
    const verdicts = (ledger: readonly Check[]) =>
      ledger.filter((c) => c.id !== "attendant").map(({ id, status, ratio }) => ({ id, status, ratio }));
    expect(asked.otherLoad.says).toBe("With an attendant");
    expect(verdicts(asked.otherLoad.ledger)).toEqual(verdicts(entered.ledger));
    expect(asked.otherLoad.worst).toEqual(entered.worst);
    expect(entered.otherLoad.says).toBe("Without the attendant");
    expect(verdicts(entered.otherLoad.ledger)).toEqual(verdicts(asked.ledger));
    expect(row(asked).status).toBe(entered.worst.status);
  });

  it("is never better for something that is not known", () => {
    const known = evaluate(carrying(80));
    expect(["within", "close"]).toContain(row(known).status);
    const unrated = evaluate(carrying(80, null));
    expect(row(unrated).status).toBe("unknown");
    expect(says(unrated)).toContain("cannot be told");
    expect(says(unrated)).toMatch(/and \d+ more\. Of what is known the worst is: .*%/);
    expect(row(evaluate(carrying(null))).status).toBe("unknown");
    const plan = carrying(80);
    const parts = plan.rig.load.parts.map((p, i) => (i === 0 ? { ...p, massKg: null } : p));
    const unweighed = evaluate({ ...plan, rig: { ...plan.rig, load: { ...plan.rig.load, parts } } });
    expect(row(unweighed).status).toBe("unknown");
  });

  it("is over where something is, whatever else is unknown", () => {
    const heavy = carrying(400, null);
    expect(row(evaluate(heavy)).status).toBe("over");
    expect(says(evaluate(heavy))).toContain("(over)");
  });

  it("is not asked where nothing is on the ropes", () => {
    const stages = crossing.evolution.stages.map((s, i) => (i === 0 ? { ...s, aboard: [] } : s));
    const empty = evaluateAt({ ...crossing, evolution: { ...crossing.evolution, stages } }, { stage: 0, along: 0 });
    expect(empty.ledger.some((c) => c.id === "attendant")).toBe(false);
    expect(empty.otherLoad.ledger.map((c) => c.id).sort()).toEqual(empty.ledger.map((c) => c.id).sort());
  });
});
