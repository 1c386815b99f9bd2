import { STANDARD_GRAVITY_MS2, tackleAdvantage } from "@gantline/engine";
import { describe, expect, it } from "vitest";
import { evaluate } from "../evaluate.ts";
import type { FeltForces } from "../evaluation.ts";
import { evaluateAt } from "../evolve/evaluate-at.ts";
import { EXAMPLES } from "../examples/all-examples.ts";
import { crossingExample } from "../examples/crossing.ts";
import { roofExample } from "../examples/roof.ts";
import { letGoChecks } from "../rules/let-go.ts";
import type { Plan } from "../schema/plan.ts";
import { letGoAt } from "./let-go-at.ts";
import type { TechniqueId, TechniqueRow } from "./let-go-plan-types.ts";
import { techniquePlan, techniques } from "./techniques.ts";
import { techniquesCsv } from "./techniques-csv.ts";
import { plumbPlan, withGear } from "./testing/plumb-plan.ts";

const WHEN = { stage: 3, along: 0.5 };

describe("techniques side by side", () => {
  const rows = techniques(crossingExample, WHEN);
  const row = (id: TechniqueId, attendant = false): TechniqueRow => {
    const found = rows.find((r) => r.id === id && r.attendant === attendant);
    if (!found) throw new Error(`no ${id}`);
    return found;
  };

  it("are five, each with an attendant and without", () => {
    expect(rows).toHaveLength(10);
    expect(new Set(rows.map((r) => `${r.id} ${r.attendant}`)).size).toBe(10);
  });

  it("are the same asked for one by one", () => {
    const [one, other] = techniques(crossingExample, WHEN, { ids: ["tackle-at-tip"] });
    expect([one, other]).toEqual([row("tackle-at-tip"), row("tackle-at-tip", true)]);
  });

  it("come from the same pipeline: the plan's own technique is what evaluate says of it", () => {
    const { felt } = evaluateAt(crossingExample, WHEN);
    const worst = Math.max(...Object.values(felt).map((f) => f.inBeam.resultantN));
    expect(row("two-tension").figures?.tipInBeam.resultantN).toBeCloseTo(worst, 6);
  });

  /** The load plumb below its tip sheave, ropes without weight: no crew and no rope pulls at the tip besides. */
  const plumb = techniques(withGear(plumbPlan(), "sheave-large", { efficiency: 0.93 }));
  const tipOf = (id: TechniqueId, attendant: boolean): number =>
    plumb.find((r) => r.id === id && r.attendant === attendant)?.figures?.tipInBeam.resultantN ?? Number.NaN;

  it("with a heavier load more at the tip, in the same ratio", () => {
    // 120 kg, and the policy's attendant of 100 kg.
    for (const id of ["two-tension", "tackle-at-tip"] as const)
      expect(tipOf(id, true) / tipOf(id, false)).toBeCloseTo(220 / 120, 2);
  });

  it("a tackle at the tip puts the load and its lead on it, and is a single rope", () => {
    const weightN = 120 * STANDARD_GRAVITY_MS2;
    // Tension method with sheave efficiency, reference page: lead W ÷ (1 + η + η² + η³); at the tip, raising, a further 1/η^(θ/π).
    const lead = weightN / tackleAdvantage(4, 0.93);
    expect(tipOf("tackle-at-tip", false)).toBeGreaterThan(weightN + 0.8 * lead);
    expect(tipOf("tackle-at-tip", false)).toBeLessThan((weightN + lead / 0.93) * 1.001);
    expect(row("tackle-at-tip").worst?.outcome).toBe("falls");
  });

  it("a slack belay takes a harder blow than two ropes in tension", () => {
    // Beside the wall and above open ground: both are held.
    const held = techniques(crossingExample, { stage: 4, along: 0.5 }, { ids: ["main-and-slack-belay"] });
    const peak = (id: TechniqueId): number => {
      const { worst } = held.find((r) => r.id === id && !r.attendant) ?? {};
      if (!worst?.figures || !worst.cut.includes("main-a")) throw new Error(`${id} is not held when Main A goes`);
      return worst.figures.tipN.high;
    };
    const even = letGoAt(crossingExample, { stage: 4, along: 0.5 }, "main-a").figures?.tipN.high ?? Number.NaN;
    expect(peak("main-and-slack-belay")).toBeGreaterThan(1.3 * even);
  });

  it("are followed with a tether whose pulley rides a slack belay: on the roof, beside the wall and above it", () => {
    for (const when of [
      { stage: 2, along: 0.5 },
      { stage: 4, along: 0.5 },
    ]) {
      const slack = techniques(roofExample, when, { ids: ["main-and-slack-belay"] });
      expect(slack).toHaveLength(2);
      for (const { worst } of slack) {
        expect(worst?.outcome).toBe("held");
        // Harder than W(2 − s) with s = 0 at the load, W being the lighter: reference page, one-rope failure.
        expect(worst?.figures?.tipN.high).toBeGreaterThan(2 * 120 * STANDARD_GRAVITY_MS2);
        expect(JSON.stringify(worst?.says)).not.toContain("could not be followed");
      }
    }
  });

  it("says what of a loss is over, though the tip feels none of it: the belay's rope, a person, the wall", () => {
    const fault = EXAMPLES.find((e) => e.key === "fault")?.plan;
    if (!fault) throw new Error("no example");
    const when = { stage: 2, along: 1 };
    const found = techniques(fault, when, { ids: ["two-tension", "single-and-structure-belay"] });
    const belayed = found.find((r) => r.id === "single-and-structure-belay" && !r.attendant);
    const figures = belayed?.worst?.figures;
    expect(figures?.tipN.high).toBeLessThan(10);
    const belay = figures?.lines.find((l) => l.lineId === "belay");
    // What the rope holds with its knot: as the gear says, 40 kN × 0.6.
    expect(belay?.peakN.high).toBeGreaterThan(24_000);
    expect(figures?.hits[0]?.speedMS).toBeGreaterThan(5);
    expect(belayed?.gone).toBe("Main A");
    expect(belayed?.verdict).toMatchObject({ status: "unknown", ifHeld: { status: "over" } });
    const [known] = techniques(withGear(fault, "brake-g", { slipN: 50_000 }), when, {
      ids: ["single-and-structure-belay"],
    });
    expect(known?.verdict?.status).toBe("over");
    // A tip that is over its rating before anything goes is told as that.
    const rating = (attendant: boolean) => found.find((r) => r.id === "two-tension" && r.attendant === attendant);
    expect(rating(false)?.tipAtRest?.status).toBe("within");
    expect(rating(true)?.tipAtRest).toMatchObject({ status: "over" });
    const evaluated = evaluate(techniquePlan(fault, when, { id: "two-tension", attendant: true }) ?? fault);
    const used = evaluated.ledger.filter((c) => c.rule === "tip-rating" && c.counts).map((c) => c.ratio ?? 0);
    expect(rating(true)?.tipAtRest?.ratio).toBe(Math.max(...used));
  });

  it("holds the belay's own brake against its limits", () => {
    const { plan, worst } = ((): { plan: Plan | null; worst: TechniqueRow["worst"] } => {
      const at = { stage: 4, along: 0.5 };
      const known = withGear(crossingExample, "brake-g", { slipN: 2000 });
      const [belayed] = techniques(known, at, { ids: ["single-and-structure-belay"] });
      return {
        plan: techniquePlan(known, at, { id: "single-and-structure-belay", attendant: false }),
        worst: belayed?.worst ?? null,
      };
    })();
    if (!plan || !worst) throw new Error("no belay");
    const ids = letGoChecks(plan, [{ ...worst, when: null }]).map((c) => c.id);
    expect(ids).toEqual(expect.arrayContaining(["let-go/brake/belay", "let-go/slip/belay", "let-go/rope/belay"]));
  });

  it("a return line led off to the side pulls the ladder sideways", () => {
    const lateral = (id: TechniqueId): number => Math.abs(row(id).figures?.tipInBeam.lateralN ?? 0);
    expect(lateral("return-to-side")).toBeGreaterThan(100);
    expect(lateral("two-tension")).toBeLessThan(1);
  });

  it("says what each needs that the scene lacks", () => {
    expect(row("single-and-structure-belay").needs).toEqual(["someone on top already", "an anchor on Flood wall"]);
    const bare = { ...crossingExample, scene: { ...crossingExample.scene, structures: [] } };
    const [none] = techniques(bare, WHEN, { ids: ["single-and-structure-belay"] });
    expect(none).toMatchObject({ figures: null, worst: null });
  });

  it("the belay's brake is as the main line's: it slips at the same force, and where that is not known nothing is held for certain", () => {
    expect(row("single-and-structure-belay").worst?.slipUnknown.length).toBeGreaterThan(0);
    const when = { stage: 2, along: 0.5 };
    const belayed = (slipN: number | null): TechniqueRow | undefined =>
      techniques(withGear(crossingExample, "brake-g", { slipN }), when, { ids: ["single-and-structure-belay"] })[0];
    const unknown = belayed(null);
    expect(unknown?.worst?.outcome === "held" ? unknown.worst.slipUnknown : ["falls"]).not.toEqual([]);
    expect(belayed(8000)?.worst?.slipUnknown).toEqual([]);
    const plan = techniquePlan(crossingExample, when, { id: "single-and-structure-belay", attendant: false });
    const belay = plan?.rig.taglines.find((t) => t.id === "belay");
    // Over the wall's west face, a roller's height above its top at 7 m.
    expect(belay?.handler[0]).toBeCloseTo(-0.75, 9);
    expect(belay?.handler[2]).toBeCloseTo(7.1, 9);
  });

  it("takes each figure at rest from the travel in which it is worst", () => {
    const { felt } = evaluateAt(crossingExample, WHEN);
    const figures = row("two-tension").figures;
    const most = (of: (f: FeltForces) => number) => Math.max(...Object.values(felt).map(of));
    expect(figures?.ladderMomentNm).toBe(most((f) => f.utilisations.bending.demand));
    expect(figures?.tippingNm).toBe(most((f) => Math.max(...f.tipping.map((t) => t.momentNm))));
    expect(figures?.tipInBeam.compressionN).toBe(most((f) => f.inBeam.compressionN));
  });

  it("reckons who is needed to raise it by hand: the rope's end over a person's pull", () => {
    const people = (id: TechniqueId) => row(id).figures?.people ?? Number.NaN;
    const raising = (id: TechniqueId) => row(id).figures?.peopleRaising ?? Number.NaN;
    const ends = evaluateAt(crossingExample, WHEN).lines.filter((l) => l.role === "main");
    // 222 N a person, the policy's pull; crews of three and two.
    const haulers = ends.reduce((total, l) => total + Math.ceil((l.tensionsN.raise.at(-1) ?? 0) / 222), 0);
    expect(raising("two-tension")).toBe(5 + haulers);
    expect(people("two-tension")).toBe(5 + 2);
    expect(raising("tackle-at-tip")).toBeLessThan(raising("two-tension"));
    const unset = { ...crossingExample.policy, pullPerPersonN: { value: null, source: "" } };
    const [first] = techniques({ ...crossingExample, policy: unset }, WHEN, { ids: ["two-tension"] });
    expect(first?.figures).toMatchObject({ people: 5 + 2, peopleRaising: null });
  });

  it("needs what plan and scene do not have: an attendant, a second rope, anchors where there are none", () => {
    expect(row("two-tension").needs).toEqual([]);
    expect(row("two-tension", true).needs).toEqual(["an attendant"]);
    const { rig, scene } = crossingExample;
    const single = { ...crossingExample, rig: { ...rig, mainLines: rig.mainLines.slice(0, 1) } };
    const needsOf = (plan: Plan, id: TechniqueId) => techniques(plan, WHEN, { ids: [id] })[0]?.needs;
    expect(needsOf(single, "two-tension")).toEqual(["a second rope, with sheaves, redirects and brake"]);
    expect(row("return-to-side").needs).toEqual(["anchors off the vehicle, 8 m to the right of the ladder"]);
    const barred = (outlines: readonly [number, number][][]): Plan => ({
      ...crossingExample,
      scene: {
        ...scene,
        areas: outlines.map((outline, i) => ({ id: `a${i}`, name: "Pit", kind: "gap" as const, outline, zM: 0 })),
      },
    });
    const about = (x: number): [number, number][] => [
      [x - 1, 2],
      [x + 1, 2],
      [x + 1, 4],
      [x - 1, 4],
    ];
    expect(needsOf(barred([about(8)]), "return-to-side")).toEqual([
      "anchors off the vehicle, 8 m to the left of the ladder",
    ]);
    const [none] = techniques(barred([about(8), about(-11)]), WHEN, { ids: ["return-to-side"] });
    expect(none).toMatchObject({ figures: null, worst: null });
  });

  it("export as a table, with the model's limits", () => {
    const lines = techniquesCsv(rows).trimEnd().split("\r\n");
    expect(lines).toHaveLength(12);
    expect(lines[0]?.split(",")).toHaveLength(33);
    for (const column of ["swing [m]", "person_force [N]", "hit_speed [m/s]", "status", "highest_tension_in", "tip"])
      expect(lines[0]?.split(",")).toContain(column);
    // By its lines' names, which the plan itself does not have.
    expect(lines.find((l) => l.startsWith("Hauling"))).toContain(",Lead of the tackle and Tackle,falls,");
    expect(lines.at(-1)).toContain("knots that tighten");
    expect(lines[1]).toContain(String(row("two-tension").figures?.ropeM));
  });
});
