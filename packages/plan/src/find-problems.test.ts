import { describe, expect, it } from "vitest";
import { evaluate } from "./evaluate.ts";
import { evolve } from "./evolve/evolve.ts";
import { momentPlan } from "./evolve/moment-plan.ts";
import { crossingExample } from "./examples/crossing.ts";
import { roofExample } from "./examples/roof.ts";
import { findProblems } from "./find-problems.ts";
import { asReal } from "./fuzz/as-real.ts";
import type { Plan } from "./schema/plan.ts";
import type { LimitName } from "./schema/policy.ts";

const crossing = asReal(crossingExample);

const withLimit = (name: LimitName, value: number | null): Plan => ({
  ...crossing,
  policy: { ...crossing.policy, [name]: { value, source: "test" } },
});
const withRig = (change: Partial<Plan["rig"]>): Plan => ({ ...crossing, rig: { ...crossing.rig, ...change } });
const paths = (plan: Plan): readonly string[] => findProblems(plan).map((p) => p.path);

describe("limits that limit nothing", () => {
  it.each([
    ["strengthFactor", 0.01, 1],
    ["structuralFactor", 0.99, 1],
    ["stabilityFactor", 0, 1],
    ["peakStrengthFactor", 0.5, 1],
    ["peakRatingFactor", 0.5, 1],
    ["closeRatio", 5, 1],
    ["closeRatio", 0, 0.5],
    ["shareMax", 1.5, 1],
    ["basketFactor", 20, 2],
    ["chokerFactor", 1.1, 1],
    ["chokerFactor", 0, 0.1],
    ["attendantMassKg", 0, 1],
  ] as const)("%s of %s is wrong, %s is not", (name, wrong, right) => {
    expect(paths(withLimit(name, wrong))).toEqual([`policy.${name}.value`]);
    expect(paths(withLimit(name, right))).toEqual([]);
    expect(paths(withLimit(name, null))).toEqual([]);
  });

  it("keep a plan from being ready, at one position and over its stages", () => {
    const id = "missing-data/entry.policy.strengthFactor.value";
    const plan = withLimit("strengthFactor", 0.01);
    const entry = evaluate(plan).ledger.find((c) => c.id === id);
    expect([entry?.status, entry?.counts]).toEqual(["unknown", true]);
    const evolution = evolve({
      ...plan,
      evolution: { ...plan.evolution, stages: plan.evolution.stages.slice(0, 1) },
    });
    expect(evolution.ledger.find((c) => c.id === id)).toMatchObject({ status: "unknown", counts: true, when: null });
    expect(["over", "unknown"]).toContain(evolution.worst.status);
  });
});

describe("a tether that names what there is none of", () => {
  const roof = asReal(roofExample);
  const { tether } = roof.rig;
  if (!tether) throw new Error("no tether");
  const named = (change: Partial<typeof tether>): Plan => ({
    ...roof,
    rig: { ...roof.rig, tether: { ...tether, ...change } },
  });

  it.each([
    ["rope", "rope", "connector-steel"],
    ["knot", "knot", "rope-12"],
    ["connector", "connector", "knot-eight"],
    ["pulley", "sheave", "connector-steel"],
  ] as const)("its %s: named with what is wrong, of another kind too", (field, kind, other) => {
    for (const id of ["nope", other])
      expect(findProblems(named({ [field]: id }))).toEqual([
        { path: `rig.tether.${field}`, got: `"${id}"`, expected: `the id of a ${kind} in the gear cache` },
      ]);
    const entry = evaluate(named({ [field]: "nope" })).ledger.find((c) => c.id.includes(`rig.tether.${field}`));
    expect([entry?.status, entry?.counts]).toEqual(["unknown", true]);
  });

  it("says which of the lines it rides there is not, also beside one that there is", () => {
    expect(findProblems(named({ rides: ["main-a", "nope"] }))).toContainEqual({
      path: "rig.tether.rides[1]",
      got: '"nope"',
      expected: "the id of a main line",
    });
  });

  it("is right where a line that it rides is off the load in a stage", () => {
    const stages = roof.evolution.stages.map((s) => ({
      ...s,
      lines: { ...s.lines, "main-b": { on: false, drive: "asNeeded" as const, tensionN: null, lengthM: null } },
    }));
    const then = momentPlan({ ...roof, evolution: { ...roof.evolution, stages } }, { stage: 1, along: 0.5 });
    expect(paths(then).filter((path) => path.startsWith("rig.tether"))).toEqual([]);
  });

  it("is right as the example has it", () => expect(paths(roof)).toEqual([]));
});

describe("people without weight", () => {
  it.each(["casualty", "attendant", "rescuer"] as const)("a %s of 0 kg is wrong", (kind) => {
    const parts = [...crossing.rig.load.parts, { id: "one", name: "One", kind, massKg: 0 }];
    const at = `rig.load.parts[${parts.length - 1}].massKg`;
    expect(paths(withRig({ load: { ...crossing.rig.load, parts } }))).toEqual([at]);
  });

  it("gear of 0 kg is not, and a mass that is not known is told by its own check", () => {
    const parts = [
      ...crossing.rig.load.parts,
      { id: "strap", name: "Strap", kind: "hardware" as const, massKg: 0 },
      { id: "one", name: "One", kind: "rescuer" as const, massKg: null },
    ];
    expect(paths(withRig({ load: { ...crossing.rig.load, parts } }))).toEqual([]);
  });
});

describe("a line held as needed while the load hangs by the length of its ropes", () => {
  const asNeeded = { drive: "asNeeded", tensionN: null, lengthM: null } as const;
  const pulled = { drive: "tension", tensionN: 50, lengthM: null } as const;
  const hung = (use: typeof asNeeded | typeof pulled): Plan => {
    const [first] = crossing.rig.taglines;
    if (!first) throw new Error("no tagline");
    return withRig({ load: { ...crossing.rig.load, drive: "length" }, taglines: [{ ...first, ...use }] });
  };

  it("is wrong: no pull is worked out for it", () => {
    expect(paths(hung(asNeeded))).toContain("rig.taglines[0].drive");
    expect(paths(hung(pulled))).not.toContain("rig.taglines[0].drive");
  });

  it("is right where the load is held by position", () => {
    expect(paths(crossing)).toEqual([]);
    expect(crossing.rig.taglines.some((t) => t.drive === "asNeeded")).toBe(true);
  });
});
