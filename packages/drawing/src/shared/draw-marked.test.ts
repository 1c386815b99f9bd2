import { type Check, EXAMPLES, evaluate, evolve, momentPlan, type Plan } from "@gantline/plan";
import { describe, expect, it } from "vitest";
import { drawPlan } from "../plan-view.ts";
import type { Drawing } from "../primitives.ts";
import { drawSection } from "../section.ts";

const plan = EXAMPLES[0]?.plan as Plan;
const evaluation = evaluate(plan);
const placed = evaluation.ledger.filter((c) => c.at !== undefined);
const views = (marked: Check | null): readonly [Drawing, Drawing] => [
  drawSection(plan, evaluation, { system: "metric", marked }),
  drawPlan(plan, evaluation, { system: "metric", marked }),
];
const ringsOf = ({ primitives }: Drawing, check: Check) =>
  primitives.filter((p) => p.kind === "circle" && p.title?.startsWith(check.subject));
const textsOf = ({ primitives }: Drawing) => primitives.flatMap((p) => (p.kind === "text" ? [p.text] : []));

describe("the check that is asked about", () => {
  // The example's ladder points due north: out along it is north of the turntable, and the section has the height up.
  it("is ringed where it is, in both views", () => {
    expect(plan.aerial.pose.bearingRad).toBe(0);
    expect(placed.length).toBeGreaterThan(20);
    for (const check of placed) {
      const [x, y, z] = check.at ?? [Number.NaN, Number.NaN, Number.NaN];
      const [section, site] = views(check);
      const [inSection, inPlan] = [ringsOf(section, check)[0], ringsOf(site, check)[0]];
      if (inSection?.kind !== "circle" || inPlan?.kind !== "circle") throw new Error(`${check.id} is not ringed`);
      expect(inSection.at[0]).toBeCloseTo(y - plan.aerial.place.turntableY, 9);
      expect(inSection.at[1]).toBeCloseTo(z, 9);
      expect(inPlan.at).toEqual([x, y]);
    }
  });

  it("is named with how it stands, once", () => {
    const close = evaluation.ledger.find((c) => c.id === "off-plane");
    if (!close) throw new Error("no such check");
    expect(close.status).toBe("close");
    for (const drawing of views(close)) {
      const named = textsOf(drawing).filter((t) => t.startsWith(close.subject));
      expect(named).toHaveLength(1);
      expect(named[0]).toMatch(/: close, 9\d\u202f%$/);
    }
  });

  it("has no ring where it has no place, where none is asked about, and where it has nothing to judge", () => {
    const nowhere = evaluation.ledger.find((c) => c.at === undefined);
    if (!nowhere) throw new Error("every check has a place");
    const plain = views(null).map((d) => d.primitives);
    expect(views(nowhere).map((d) => d.primitives)).toEqual(plain);
    const when = { stage: 0, along: 0 };
    const empty = momentPlan(plan, when);
    const then = evaluate(empty);
    const [ropes, reach] = ["off-plane", "reach"].map((rule) => then.ledger.find((c) => c.rule === rule));
    if (!reach?.at || !ropes?.at) throw new Error("no such check");
    const drawn = (marked: Check) => drawSection(empty, then, { system: "metric", evolution: when, marked });
    expect(ringsOf(drawn(ropes), ropes)).toHaveLength(0);
    expect(ringsOf(drawn(reach), reach)).toHaveLength(1);
  });

  it("rings a stage that cannot be carried out where the stage begins", () => {
    const faulty = EXAMPLES.find((e) => e.key === "fault")?.plan as Plan;
    const found = evolve(faulty).ledger.filter((c) => c.rule === "stage");
    expect(found.length).toBeGreaterThan(0);
    // Stage 4 begins where stage 3 ends: beside the wall, as entered.
    for (const { at } of found) expect(at).toEqual(faulty.evolution.stages[2]?.path.at(-1));
  });
});
