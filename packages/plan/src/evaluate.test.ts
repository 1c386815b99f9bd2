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

/** Mass of a metre of a line's rope, all ropes of a tackle together, kg. */
function massKgM({ gear, rig }: Plan, id: string): number {
  const line = [...rig.mainLines, ...rig.taglines, ...(rig.tether ? [rig.tether] : [])].find((l) => l.id === id);
  const rope = gear.find((g) => g.id === line?.rope);
  const parts = rig.tether && rig.tether.id === id ? rig.tether.parts : 1;
  return rope?.kind === "rope" ? (rope.linearMassKgM ?? 0) * parts : 0;
}

/**
 * The rig of an evaluation as a rope network, main lines by the lengths the evaluation found. The network takes a metre of
 * rope unstretched, a plan as it hangs: hence the factor on its mass.
 */
function networkOf(plan: Plan, evaluation: Evaluation): Network {
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
    const stretched = 1 + atLoad / stiffness;
    const linearMassKgM = massKgM(plan, line.id);
    lines[line.id] =
      line.role === "main"
        ? {
            through: names,
            lengthM: line.pathM / stretched,
            axialStiffnessN: stiffness,
            linearMassKgM: linearMassKgM * stretched,
            travel: "none",
          }
        : { through: names, tensionN: atLoad, linearMassKgM };
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
    (_, example) => {
      // Frictionless, as the network below is: with friction the tether's pull is another.
      const plan = {
        ...example,
        gear: example.gear.map((g) => (g.kind === "sheave" ? { ...g, efficiency: 1 } : g)),
      };
      const evaluation = evaluate(plan);
      const solution = solveNetwork(networkOf(plan, evaluation));
      if (!solution.ok) throw new Error(solution.hint);
      const load = solution.nodes.load;
      expect(distance(asSite(load?.position ?? [0, 0, 0]), evaluation.load.yoke)).toBeLessThan(1e-6);
      for (const line of evaluation.lines)
        expect(solution.lines[line.id]?.tensionsN[0]).toBeCloseTo(line.tensionsN.raise[0] ?? 0, 4);
    },
  );

  it("puts 1.97 times the rope's tension on the tip at 70° with the return along the ladder", () => {
    // Source: reference page of the project, fixture TIP, R = 2T cos((90° − φ)/2), of ropes without weight; here the return is nearly along the ladder and frictionless.
    const frictionless = {
      ...roofExample,
      gear: roofExample.gear.map((g) =>
        g.kind === "sheave" ? { ...g, efficiency: 1 } : g.kind === "rope" ? { ...g, linearMassKgM: 0 } : g,
      ),
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

  it("tells of a policy that does not say from where a check is close", () => {
    const policy = { ...crossingExample.policy, closeRatio: { value: null, source: "" } };
    const found = check(evaluate({ ...crossingExample, policy }), "missing-data/close-ratio");
    expect(found.status).toBe("unknown");
    expect(found.field).toBe("policy.closeRatio.value");
    expect(evaluate(crossingExample).ledger.some((c) => c.id === "missing-data/close-ratio")).toBe(false);
  });

  it.each(["raise", "lower"] as const)("finds the same balance by length as by position, to %s", (motion) => {
    const byPosition = evaluate(withLoad(crossingExample, { motion }));
    const lengthOf = (id: string): number => byPosition.lines.find((l) => l.id === id)?.unstretchedM ?? Number.NaN;
    const byLength = evaluate({
      ...crossingExample,
      rig: {
        tether: null,
        load: { ...crossingExample.rig.load, drive: "length", motion },
        mainLines: crossingExample.rig.mainLines.map((l) => ({ ...l, lengthM: lengthOf(l.id) })),
        taglines: crossingExample.rig.taglines.map((t) => ({
          ...t,
          drive: "tension" as const,
          tensionN: byPosition.lines.find((l) => l.id === t.id)?.tensionsN.raise[0] ?? 0,
        })),
      },
    });
    expect(distance(byLength.load.yoke, byPosition.load.yoke)).toBeLessThan(1e-4);
    for (const [i, { tensionsN }] of byPosition.lines.entries())
      for (const [k, tensionN] of tensionsN[motion].entries())
        expect(byLength.lines[i]?.tensionsN[motion][k]).toBeCloseTo(tensionN, 1);
  });

  it("counts what sheaves take for every line where the ropes hang by their length, the taglines' too", () => {
    const lengths = new Map(evaluate(crossingExample).lines.map((l) => [l.id, l.unstretchedM ?? Number.NaN]));
    const { rig } = crossingExample;
    // The first main line 10 cm too short, and everything made fast.
    const mainLines = rig.mainLines.map((l, i) => ({ ...l, lengthM: (lengths.get(l.id) ?? 0) - (i === 0 ? 0.1 : 0) }));
    const taglines = rig.taglines.map((l) => ({ ...l, drive: "length" as const, lengthM: lengths.get(l.id) ?? 0 }));
    const plan: Plan = {
      ...crossingExample,
      rig: { tether: null, load: { ...rig.load, drive: "length", motion: "rest" }, mainLines, taglines },
    };
    const e = evaluate(plan);
    const stiffnessOf = (id: string): number => {
      const rope = plan.gear.find((g) => g.id === [...mainLines, ...taglines].find((l) => l.id === id)?.rope);
      return rope?.kind === "rope" ? (rope.staticStiffnessN ?? 0) : 0;
    };
    const solved = (travel: "toEnd" | "toStart") => {
      const network = networkOf(plan, e);
      const lines = Object.entries(network.lines).map(([id, { through, linearMassKgM = 0 }]) => {
        const lengthM = [...mainLines, ...taglines].find((l) => l.id === id)?.lengthM ?? 0;
        const efficiency = through.slice(1, -1).map(() => 0.93);
        return [id, { through, lengthM, axialStiffnessN: stiffnessOf(id), efficiency, travel, linearMassKgM }] as const;
      });
      const answer = solveNetwork({ ...network, lines: Object.fromEntries(lines) });
      if (!answer.ok) throw new Error(answer.hint);
      return answer.lines;
    };
    const [raise, lower] = [solved("toEnd"), solved("toStart")];
    for (const { id, tensionsN } of e.lines) {
      // The network's metre of rope is unstretched here: some hundredths of a newton.
      for (const [k, tensionN] of (raise[id]?.tensionsN ?? []).entries())
        expect(Math.abs((tensionsN.raise[k] ?? 0) - tensionN)).toBeLessThan(0.2);
      for (const [k, tensionN] of (lower[id]?.tensionsN ?? []).entries())
        expect(Math.abs((tensionsN.lower[k] ?? 0) - tensionN)).toBeLessThan(0.2);
    }
    const west = e.lines.find((l) => l.id === "tag-west")?.tensionsN;
    expect(Math.abs((west?.raise[0] ?? 0) - (west?.lower[0] ?? 0))).toBeGreaterThan(5);
    // The hands are lower than the load: of the rope's weight half of what is between their heights is off the chord's pull there.
    const rope = plan.gear.find((g) => g.kind === "rope" && g.id === "rope-tag");
    const weightNM = (rope?.kind === "rope" ? (rope.linearMassKgM ?? Number.NaN) : Number.NaN) * 9.80665;
    const lowerM = e.load.yoke[2] - (plan.rig.taglines[0]?.handler[2] ?? Number.NaN);
    const hands = check(e, "tagline-hands/tag-west").demand?.value ?? Number.NaN;
    const chordN = Math.max(west?.raise[0] ?? 0, west?.lower[0] ?? 0);
    expect(Math.abs(hands - (chordN - (weightNM * lowerM) / 2))).toBeLessThan(0.1);
  });

  it("lets a load that cannot be held go to where its ropes let it hang, not to where it was wanted to be high", () => {
    const plan: Plan = {
      ...withLoad(crossingExample, { positionM: [3, 17, 10], motion: "rest" }),
      scene: { ...crossingExample.scene, wind: { ...crossingExample.scene.wind, gustMS: 0 } },
    };
    const e = evaluate({ ...plan, rig: { ...plan.rig, taglines: [] } });
    expect(e.holding.state).toBe("drifts");
    for (const line of e.lines) {
      const sheave = line.nodes[1]?.at ?? e.load.yoke;
      // A rope of some 45 m stretches by 0.7 % at most: the way from sheave to yoke is that to the wanted place within 0.4 m,
      // for the two lines share unevenly there and the sling hangs another way.
      expect(Math.abs(distance(sheave, e.load.yoke) - distance(sheave, e.load.wanted))).toBeLessThan(0.4);
    }
    expect(e.load.yoke[2]).toBeLessThan(9);
    expect(Math.hypot(e.load.yoke[0] - e.geometry.posed.tip[0], e.load.yoke[1] - e.geometry.posed.tip[1])).toBeLessThan(
      0.6,
    );
  });

  it("says that a rope's stretch is not known where the load's place rests on it, and only there", () => {
    const gear = crossingExample.gear.map((g) => (g.kind === "rope" ? { ...g, staticStiffnessN: null } : g));
    const row = (plan: Plan) => evaluate(plan).ledger.find((c) => c.id === "missing-data/rope-stretch.rope-12");
    // The wind blows square to the taglines and leaves a little over.
    expect(row({ ...crossingExample, gear })).toMatchObject({ status: "unknown", counts: true });
    expect(row(crossingExample)).toBeUndefined();
    const off = { ...crossingExample, rig: { ...crossingExample.rig, taglines: [] } };
    const tip = evaluate(off).geometry.posed.tip;
    const plumb = withLoad(
      { ...off, gear, scene: { ...off.scene, wind: { gustMS: 0, fromBearingRad: 0 } } },
      {
        positionM: [evaluate(off).lines[0]?.nodes[1]?.at[0] ?? tip[0], tip[1], 10],
      },
    );
    const single = { ...plumb.rig, mainLines: plumb.rig.mainLines.slice(0, 1).map((l) => ({ ...l, share: 1 })) };
    let held: Plan = { ...plumb, rig: single };
    for (let round = 0; round < 30; round++) {
      const sheave = evaluate(held).lines[0]?.nodes[1]?.at;
      if (sheave) held = withLoad(held, { positionM: [sheave[0], sheave[1], 10] });
    }
    expect(row(held)).toBeUndefined();
  });

  it("puts half the weight of each part of a rope on each of its ends, at the rigging points as the network solver does", () => {
    const plan: Plan = {
      ...crossingExample,
      gear: crossingExample.gear.map((g) => (g.kind === "sheave" ? { ...g, efficiency: 1 } : g)),
    };
    const e = evaluate(plan);
    const solution = solveNetwork(networkOf(plan, e));
    if (!solution.ok) throw new Error(solution.hint);
    for (const point of e.felt.raise?.points ?? []) {
      const id = plan.rig.mainLines.find((l) => l.tip.pointId === point.pointId)?.id ?? "";
      for (const axis of [0, 1, 2] as const)
        expect(solution.forcesOnFixedN[`${id}.tip`]?.[axis]).toBeCloseTo(point.forceN[axis], 4);
    }
  });

  it("hangs all the weight there is on vehicle and hands: the load's and every metre of rope in the air", () => {
    for (const { plan } of EXAMPLES) {
      const e = evaluate(plan);
      const hung = e.lines.reduce((sum, l) => {
        const lengthM = l.nodes.slice(1).reduce((m, n, i) => m + distance(n.at, l.nodes[i]?.at ?? n.at), 0);
        return sum + massKgM(plan, l.id) * 9.80665 * lengthM;
      }, e.load.weightN ?? 0);
      let borne = 0;
      for (const { forceN } of e.felt.raise?.onVehicle ?? []) borne -= forceN[2];
      for (const line of e.lines.filter((l) => l.role === "tagline")) {
        const [yoke, hands] = line.nodes.map((n) => n.at);
        if (!yoke || !hands) throw new Error("a tagline without ends");
        const lengthM = distance(yoke, hands);
        borne -= ((line.tensionsN.raise[0] ?? 0) * (yoke[2] - hands[2])) / lengthM;
        borne += (massKgM(plan, line.id) * 9.80665 * lengthM) / 2;
      }
      // A riding pulley was placed where equal tensions balance: with a tether what friction changes there is left over.
      if (!e.tether) expect(borne).toBeCloseTo(hung, 5);
      else expect(Math.abs(borne / hung - 1)).toBeLessThan(0.02);
    }
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

  it("does not run a line over a point on a platform of a ladder that has none", () => {
    const riggingPoints = crossingExample.aerial.device.riggingPoints.map((p) =>
      p.id === "tip-left" ? { ...p, on: "platform" as const } : p,
    );
    const evaluation = evaluate(withDevice(crossingExample, { riggingPoints }));
    expect(check(evaluation, "missing-data/reference.0").status).toBe("unknown");
    expect(check(evaluation, "tip-rating/resultant").status).toBe("unknown");
  });

  it("counts the spread of a basket's legs: cosine of half the angle between them (statics: two equal legs in balance)", () => {
    const withAngle = (basketAngleRad: number | null): Plan => {
      const mainLines = crossingExample.rig.mainLines.map((l) => ({ ...l, tip: { ...l.tip, basketAngleRad } }));
      return { ...crossingExample, rig: { ...crossingExample.rig, mainLines } };
    };
    const sling = (angleRad: number | null) =>
      check(evaluate(withAngle(angleRad)), "component-strength/main-a/tip.sling");
    const parallel = sling(0);
    // Each leg carries P / (2 cos θ/2): at 120° as much as the whole pull.
    expect((sling((2 * Math.PI) / 3).ratio ?? 0) / (parallel.ratio ?? 1)).toBeCloseTo(2, 9);
    expect((sling(Math.PI / 2).ratio ?? 0) / (parallel.ratio ?? 1)).toBeCloseTo(Math.SQRT2, 9);
    expect(sling(null).status).toBe("unknown");
  });

  it("says where along the ladder it bends worst", () => {
    const { terms } = check(evaluate(crossingExample), "tip-rating/bending").working;
    const station = terms.find((t) => t.symbol === "s")?.value ?? Number.NaN;
    expect(station).toBeGreaterThanOrEqual(0);
    expect(station).toBeLessThanOrEqual(crossingExample.aerial.pose.lengthM);
  });

  it("says in the ledger which entry refers to nothing, and evaluates the rest", () => {
    const lines = crossingExample.rig.mainLines.map((l, i) => (i === 0 ? { ...l, rope: "no-such-rope" } : l));
    const evaluation = evaluate({ ...crossingExample, rig: { ...crossingExample.rig, mainLines: lines } });
    expect(evaluation.problems).toEqual([
      { path: "rig.mainLines[0].rope", got: '"no-such-rope"', expected: "the id of a rope in the gear cache" },
    ]);
    expect(check(evaluation, "component-strength/main-a/rope").status).toBe("unknown");
    expect(check(evaluation, "rope-length/main-a").status).toBe("unknown");
    // What hangs at the yoke is not known without the weight of the rope that is not there.
    expect(check(evaluation, "component-strength/main-b/rope").status).toBe("unknown");
    expect(check(evaluation, "rope-length/main-b").status).toBe("within");
  });
});
