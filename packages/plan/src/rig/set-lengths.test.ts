import { distance } from "@gantline/engine";
import { describe, expect, it } from "vitest";
import { evaluate } from "../evaluate.ts";
import type { Evaluation } from "../evaluation.ts";
import { momentPlan } from "../evolve/moment-plan.ts";
import { crossingExample } from "../examples/crossing.ts";
import { roofExample } from "../examples/roof.ts";
import type { Plan } from "../schema/plan.ts";
import type { Tether } from "../schema/rig.ts";

/** Without friction, so that one tension runs through each rope. */
const smooth = (plan: Plan): Plan => ({
  ...plan,
  gear: plan.gear.map((g) => (g.kind === "sheave" ? { ...g, efficiency: 1 } : g)),
});
const crossing = smooth(crossingExample);
const roof = smooth(momentPlan(roofExample, { stage: 2, along: 0.5 }));

const fastTag = (lengthM: number | null): Plan => ({
  ...crossing,
  rig: {
    ...crossing.rig,
    taglines: crossing.rig.taglines.map((t) => (t.id === "tag-west" ? { ...t, drive: "length" as const, lengthM } : t)),
  },
});
const tethered = (change: Partial<Tether>): Plan => {
  if (!roof.rig.tether) throw new Error("no tether");
  return { ...roof, rig: { ...roof.rig, tether: { ...roof.rig.tether, ...change } } };
};
const lineOf = (e: Evaluation, id: string) => {
  const found = e.lines.find((l) => l.id === id);
  if (!found) throw new Error(`no ${id}`);
  return found;
};

/** The same rig hung from its ropes as long as they were found to be, by the rope network solver, which knows nothing of what is wanted. */
function hungBy(plan: Plan, found: Evaluation): Evaluation {
  const lengthOf = (id: string): number | null => found.lines.find((l) => l.id === id)?.unstretchedM ?? null;
  const { rig } = plan;
  return evaluate({
    ...plan,
    rig: {
      ...rig,
      load: { ...rig.load, drive: "length" },
      mainLines: rig.mainLines.map((m) => ({ ...m, lengthM: lengthOf(m.id) })),
      taglines: rig.taglines.map((t) =>
        t.drive === "tension" ? t : { ...t, drive: "length" as const, lengthM: t.lengthM ?? lengthOf(t.id) },
      ),
      tether: rig.tether && {
        ...rig.tether,
        drive: "length" as const,
        lengthM: rig.tether.drive === "length" ? rig.tether.lengthM : lengthOf(rig.tether.id),
      },
    },
  });
}

describe("a line made fast at a length", () => {
  const needed = lineOf(evaluate(crossing), "tag-west").unstretchedM ?? Number.NaN;

  it.each([
    ["tag-west", -0.4],
    ["tag-west", 0.4],
    ["tag-west", 3],
  ] as const)("lets the load hang where the network solver has it: %s, %s m off", (id, offM) => {
    const plan = fastTag(needed + offM);
    const found = evaluate(plan);
    const hung = hungBy(plan, found);
    expect(found.holding.state).toBe("drifts");
    expect(distance(found.load.yoke, hung.load.yoke)).toBeLessThan(1e-3);
    for (const line of found.lines)
      expect(Math.abs((line.tensionsN.raise[0] ?? 0) - (lineOf(hung, line.id).tensionsN.raise[0] ?? 0))).toBeLessThan(
        2,
      );
    expect(lineOf(found, id).slack).toBe(offM > 2);
  });

  it("lets it hang where it is wanted at the one length that its pull asks for", () => {
    const [asNeeded, fast] = [evaluate(crossing), evaluate(fastTag(needed))];
    expect(distance(asNeeded.load.yoke, fast.load.yoke)).toBeLessThan(1e-3);
    expect(fast.holding.state).toBe("held");
    expect(distance(evaluate(fastTag(null)).load.yoke, asNeeded.load.yoke)).toBeLessThan(1e-4);
  });

  it("draws the load toward the hands until it is as long as it is, with its stretch", () => {
    const plan = fastTag(needed - 1);
    const line = lineOf(evaluate(plan), "tag-west");
    const rope = plan.gear.find((g) => g.kind === "rope" && g.id === "rope-tag");
    const stiffnessN = rope?.kind === "rope" ? (rope.staticStiffnessN ?? Number.NaN) : Number.NaN;
    // Hooke's law: l (1 + T/EA).
    expect(line.pathM).toBeCloseTo((needed - 1) * (1 + (line.tensionsN.raise[0] ?? 0) / stiffnessN), 6);
    expect(line.pathM).toBeLessThan(lineOf(evaluate(crossing), "tag-west").pathM - 0.9);
  });
});

describe("a tackle that is made fast, or goes no further", () => {
  const needed = evaluate(roof).tether?.lengthM ?? Number.NaN;

  it.each([
    [{ drive: "length", lengthM: needed - 0.5 }],
    [{ drive: "length", lengthM: needed + 0.5 }],
    [{ drive: "length", lengthM: needed + 4 }],
    [{ lengthMaxM: needed - 0.5 }],
    [{ lengthMinM: needed + 0.5 }],
  ] as const)("lets the load hang where the network solver has it: %o, needed as it may be", (change) => {
    const plan = tethered(change);
    const found = evaluate(plan);
    expect(found.holding.state).toBe("drifts");
    expect(distance(found.load.yoke, hungBy(plan, found).load.yoke)).toBeLessThan(2e-3);
  });

  it("is as long as its ends have it, its rope's stretch aside", () => {
    expect(evaluate(tethered({ lengthMaxM: needed - 0.5 })).tether?.lengthM).toBeCloseTo(needed - 0.5, 1);
    expect(evaluate(tethered({ lengthMinM: needed + 0.5 })).tether?.lengthM).toBeCloseTo(needed + 0.5, 1);
    expect(evaluate(tethered({ lengthMaxM: needed + 0.5, lengthMinM: needed - 0.5 })).load.yoke).toEqual(
      evaluate(roof).load.yoke,
    );
  });

  it("lets a load hang farther out that no length of it draws to its place", () => {
    // Half a metre from the ladder's line the pulley is drawn up to the yoke before it holds the load.
    const at = tethered({});
    const [x, , z] = at.rig.load.positionM;
    const near = {
      ...at,
      rig: { ...at.rig, load: { ...at.rig.load, positionM: [x, 4.6, z] as typeof at.rig.load.positionM } },
    };
    const { holding, load, tether } = evaluate(near);
    expect(holding.state).toBe("drifts");
    expect(load.yoke[1]).toBeGreaterThan(4.6);
    expect(tether?.lengthM).toBeCloseTo(roof.rig.tether?.lengthMinM ?? 0, 1);
  });
});
