import { asSite, distance, type Network, solveNetwork } from "@gantline/engine";
import { describe, expect, it } from "vitest";
import type { Check } from "./check.ts";
import { evaluate } from "./evaluate.ts";
import type { Evaluation } from "./evaluation.ts";
import { EXAMPLES } from "./examples/all-examples.ts";
import { crossingExample } from "./examples/crossing.ts";
import { roofExample } from "./examples/roof.ts";
import type { Plan } from "./schema/plan.ts";

const check = (evaluation: Evaluation, id: string): Check => {
  const found = evaluation.ledger.find((c) => c.id === id);
  if (!found) throw new Error(`no check ${id}`);
  return found;
};

const withLoad = (plan: Plan, change: Partial<Plan["rig"]["load"]>): Plan => ({
  ...plan,
  rig: { ...plan.rig, load: { ...plan.rig.load, ...change } },
});
const withDevice = (plan: Plan, change: Partial<Plan["aerial"]["device"]>): Plan => ({
  ...plan,
  aerial: { ...plan.aerial, device: { ...plan.aerial.device, ...change } },
});
const withPose = (plan: Plan, change: Partial<Plan["aerial"]["pose"]>): Plan => ({
  ...plan,
  aerial: { ...plan.aerial, pose: { ...plan.aerial.pose, ...change } },
});

/** The rig of an evaluation as a rope network, main lines by the lengths the evaluation found. */
function networkOf(evaluation: Evaluation): Network {
  const nodes: Record<string, Network["nodes"][string]> = {
    load: {
      position: [evaluation.load.yoke[0] + 0.4, evaluation.load.yoke[1] - 0.3, evaluation.load.yoke[2] - 0.5],
      free: true,
      massKg: evaluation.load.massKg ?? 0,
      forceN: evaluation.load.windN ?? [0, 0, 0],
    },
  };
  const lines: Record<string, Network["lines"][string]> = {};
  for (const line of evaluation.lines) {
    const names = line.nodes.map((n, i) => (i === 0 ? "load" : `${line.id}.${n.id}`));
    line.nodes.forEach((n, i) => {
      if (i > 0) nodes[names[i] ?? ""] = { position: n.at };
    });
    const atLoad = line.tensionsN.raise[0] ?? 0;
    const stiffness = 95_000;
    lines[line.id] =
      line.role === "main"
        ? { through: names, lengthM: line.pathM / (1 + atLoad / stiffness), axialStiffnessN: stiffness, travel: "none" }
        : { through: names, tensionN: atLoad };
  }
  return { nodes, lines };
}

describe("evaluate", () => {
  it.each(EXAMPLES.map((e) => [e.key, e.plan] as const))(
    "finds the %s example held, with nothing over, and says that it is invented",
    (_, plan) => {
      const evaluation = evaluate(plan);
      expect(evaluation.problems).toEqual([]);
      expect(evaluation.holding.state).toBe("held");
      expect(evaluation.ledger.filter((c) => c.counts && c.status === "over")).toEqual([]);
      expect(
        evaluation.ledger.filter((c) => c.counts && c.status === "unknown").every((c) => c.rule === "example-data"),
      ).toBe(true);
      expect(evaluation.worst.status).toBe("unknown");
    },
  );

  it.each(EXAMPLES.map((e) => [e.key, e.plan] as const))(
    "agrees with the rope network solver on the %s example",
    (_, plan) => {
      const evaluation = evaluate(plan);
      const solution = solveNetwork(networkOf(evaluation));
      if (!solution.ok) throw new Error(solution.hint);
      const load = solution.nodes.load;
      expect(distance(asSite(load?.position ?? [0, 0, 0]), evaluation.load.yoke)).toBeLessThan(1e-6);
      for (const line of evaluation.lines)
        expect(solution.lines[line.id]?.tensionsN[0]).toBeCloseTo(line.tensionsN.raise[0] ?? 0, 4);
    },
  );

  it("puts 1.97 times the rope's tension on the tip at 70° with the return along the ladder", () => {
    // Source: reference page of the project, fixture TIP, R = 2T cos((90° − φ)/2); here the return is nearly along the ladder and frictionless.
    const frictionless = {
      ...roofExample,
      gear: roofExample.gear.map((g) => (g.kind === "sheave" ? { ...g, efficiency: 1 } : g)),
    };
    const plan = withPose(
      { ...frictionless, rig: { ...frictionless.rig, taglines: [] } },
      { elevationRad: (70 * Math.PI) / 180 },
    );
    const felt = evaluate({ ...plan, scene: { ...plan.scene, wind: { ...plan.scene.wind, gustMS: 0 } } }).felt.raise;
    const tension = evaluate(plan).lines.reduce(
      (sum, l) => sum + (l.role === "main" ? (l.tensionsN.raise[0] ?? 0) : 0),
      0,
    );
    expect((felt?.inBeam.resultantN ?? 0) / tension).toBeGreaterThan(1.95);
    expect((felt?.inBeam.resultantN ?? 0) / tension).toBeLessThan(1.98);
  });

  it("knows nothing of the tip rating outside the maker's table", () => {
    const plan = withDevice(crossingExample, { tipRating: { ...crossingExample.aerial.device.tipRating, rows: [] } });
    const evaluation = evaluate(plan);
    for (const id of ["tip-rating/resultant", "tip-rating/bending", "tip-rating/compression", "tipping"])
      expect(check(evaluation, id).status).toBe("unknown");
  });

  it("forbids a point that is not structural, and does not know of one that is not marked", () => {
    const on = (pointId: string, structural: boolean | null): Check => {
      const device = crossingExample.aerial.device;
      const points = device.riggingPoints.map((p) => (p.id === pointId ? { ...p, structural } : p));
      const lines = crossingExample.rig.mainLines.map((l) => ({ ...l, tip: { ...l.tip, pointId } }));
      return check(
        evaluate({
          ...withDevice(crossingExample, { riggingPoints: points }),
          rig: { ...crossingExample.rig, mainLines: lines },
        }),
        `non-structural-point/${pointId}`,
      );
    };
    expect(on("tip-casting", false).status).toBe("over");
    expect(on("tip-casting", null).status).toBe("unknown");
  });

  it("says where the load would really go when nothing holds it where it is wanted", () => {
    const plan: Plan = {
      ...withLoad(crossingExample, { positionM: [-4, 14, 10] }),
      rig: { ...crossingExample.rig, taglines: [], load: { ...crossingExample.rig.load, positionM: [-4, 14, 10] } },
    };
    const evaluation = evaluate(plan);
    expect(evaluation.holding.state).toBe("drifts");
    expect(check(evaluation, "holding").status).toBe("over");
    // With no tagline it hangs all but plumb below the tip (a breath of wind aside).
    const tip = evaluation.geometry.posed.tip;
    expect(Math.hypot(evaluation.load.yoke[0] - tip[0], evaluation.load.yoke[1] - tip[1])).toBeLessThan(0.5);
  });

  it("finds that nothing holds a load wanted above the tip", () => {
    const evaluation = evaluate(withLoad(crossingExample, { positionM: [0, 10.6, 40] }));
    expect(evaluation.holding.state).toBe("unsolved");
    expect(check(evaluation, "holding").status).toBe("over");
    expect(evaluation.cases).toEqual([]);
    expect(check(evaluation, "tip-rating/resultant").status).toBe("unknown");
  });

  it("does not work out a force while a mass is missing", () => {
    const parts = crossingExample.rig.load.parts.map((p, i) => (i === 0 ? { ...p, massKg: null } : p));
    const evaluation = evaluate(withLoad(crossingExample, { parts }));
    expect(evaluation.lines).toEqual([]);
    expect(check(evaluation, "missing-data/mass.casualty").status).toBe("unknown");
    expect(check(evaluation, "holding").status).toBe("unknown");
  });

  it("finds the same balance by length as by position", () => {
    const byPosition = evaluate({
      ...crossingExample,
      rig: { ...crossingExample.rig, load: { ...crossingExample.rig.load, motion: "rest" } },
    });
    const lengthOf = (id: string): number => {
      const line = byPosition.lines.find((l) => l.id === id);
      const t = line?.tensionsN.raise[0] ?? 0;
      return (line?.pathM ?? 0) / (1 + t / 95_000);
    };
    const byLength = evaluate({
      ...crossingExample,
      rig: {
        tether: null,
        load: { ...crossingExample.rig.load, drive: "length" },
        mainLines: crossingExample.rig.mainLines.map((l) => ({ ...l, lengthM: lengthOf(l.id) })),
        taglines: crossingExample.rig.taglines.map((t) => ({
          ...t,
          drive: "tension" as const,
          tensionN: byPosition.lines.find((l) => l.id === t.id)?.tensionsN.raise[0] ?? 0,
        })),
      },
    });
    expect(distance(byLength.load.yoke, byPosition.load.yoke)).toBeLessThan(1e-4);
    expect(byLength.lines[0]?.tensionsN.raise[0]).toBeCloseTo(byPosition.lines[0]?.tensionsN.raise[0] ?? 0, 1);
  });

  it("does not know where a rope of unknown length or stiffness lets the load hang", () => {
    expect(check(evaluate(withLoad(crossingExample, { drive: "length" })), "holding").status).toBe("unknown");
  });

  it("judges a heavier load no better", () => {
    const resultant = (massKg: number): number => {
      const parts = [{ id: "casualty", name: "Casualty", kind: "casualty" as const, massKg }];
      return check(evaluate(withLoad(crossingExample, { parts })), "tip-rating/resultant").ratio ?? Number.NaN;
    };
    const ratios = [60, 90, 120, 200, 272].map(resultant);
    expect(ratios).toEqual([...ratios].sort((a, b) => a - b));
    expect(ratios.at(-1)).toBeGreaterThan(1);
  });

  it("measures a power line of unknown voltage as unknown, however far it is", () => {
    const powerLines = crossingExample.scene.powerLines.map((l) => ({ ...l, voltageKv: null }));
    const found = evaluate({ ...crossingExample, scene: { ...crossingExample.scene, powerLines } }).ledger.filter(
      (c) => c.rule === "power-lines",
    );
    expect(found.length).toBeGreaterThan(0);
    expect(found.every((c) => c.status === "unknown")).toBe(true);
  });

  it("does not know where the vehicle tips while a jack's reach is not known", () => {
    const jackReach = { ...crossingExample.aerial.jackReach, "rear-left": null };
    const evaluation = evaluate({ ...crossingExample, aerial: { ...crossingExample.aerial, jackReach } });
    expect(check(evaluation, "tipping").status).toBe("unknown");
    expect(check(evaluation, "jack-reach/rear-left").status).toBe("unknown");
    expect(check(evaluation, "jack-reach/rear-right").status).toBe("within");
  });

  it("tells what an attendant would change", () => {
    const found = check(evaluate(crossingExample), "attendant");
    expect(found.counts).toBe(false);
    expect(found.status).toBe("over");
    expect(String(found.says[0])).toContain("With an attendant");
  });

  it("says in the ledger which entry refers to nothing, and evaluates the rest", () => {
    const lines = crossingExample.rig.mainLines.map((l, i) => (i === 0 ? { ...l, rope: "no-such-rope" } : l));
    const evaluation = evaluate({ ...crossingExample, rig: { ...crossingExample.rig, mainLines: lines } });
    expect(evaluation.problems).toEqual([
      { path: "rig.mainLines[0].rope", got: '"no-such-rope"', expected: "the id of a rope in the gear cache" },
    ]);
    expect(check(evaluation, "component-strength/main-a/rope").status).toBe("unknown");
    expect(check(evaluation, "rope-length/main-a").status).toBe("unknown");
    expect(check(evaluation, "component-strength/main-b/rope").status).toBe("within");
  });
});
