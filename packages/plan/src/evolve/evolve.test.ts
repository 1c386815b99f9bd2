import { describe, expect, it } from "vitest";
import { evaluate } from "../evaluate.ts";
import { EXAMPLES } from "../examples/all-examples.ts";
import { crossingExample } from "../examples/crossing.ts";
import { faultExample } from "../examples/fault.ts";
import { roofExample } from "../examples/roof.ts";
import type { Stage } from "../schema/evolution.ts";
import type { Plan } from "../schema/plan.ts";
import { writePhrase } from "../units/write-amount.ts";
import { evaluateAt } from "./evaluate-at.ts";
import { evolve } from "./evolve.ts";
import { momentPlan, stageStart } from "./moment-plan.ts";

const withStage = (plan: Plan, id: string, change: Partial<Stage>): Plan => ({
  ...plan,
  evolution: {
    ...plan.evolution,
    stages: plan.evolution.stages.map((s) => (s.id === id ? { ...s, ...change } : s)),
  },
});
/** The plan with one stage alone, begun where that stage begins. */
const withStages = (plan: Plan, index: number): Plan => {
  const [x, y, z] = stageStart(plan, index);
  return { ...plan, evolution: { startM: [x, y, z], stages: plan.evolution.stages.slice(index, index + 1) } };
};
const frictionless = (plan: Plan): Plan => ({
  ...plan,
  gear: plan.gear.map((g) => (g.kind === "sheave" ? { ...g, efficiency: 1 } : g)),
});
const saysOf = (plan: Plan, stage: number): string =>
  evolve(plan)
    .stages[stage]?.problems.map((p) => writePhrase(p.says, "metric"))
    .join(" ") ?? "";

describe("evolve", () => {
  it.each([
    ["crossing", crossingExample],
    ["roof", roofExample],
  ])("carries the %s example from ground to ground with nothing over at any moment", (_, plan) => {
    const evolution = evolve(plan);
    expect(evolution.stages.length).toBeGreaterThanOrEqual(6);
    expect(evolution.stages.flatMap((s) => s.problems)).toEqual([]);
    expect(evolution.ledger.filter((c) => c.counts && c.status === "over")).toEqual([]);
    expect(
      evolution.ledger.filter((c) => c.counts && c.status === "unknown").every((c) => c.rule === "example-data"),
    ).toBe(true);
    expect(evolution.moments.every((m) => m.holds === "held")).toBe(true);
  });

  it("draws the rescuer in by the tether, and lets go of it at plumb", () => {
    const { series, stages } = evolve(roofExample);
    const pulls = series.find((s) => s.id === "tension/tether")?.values ?? [];
    const [first, last] = stages.find((s) => s.stage.id === "beside-wall")?.moments ?? [0, 0];
    expect(Math.min(...pulls.slice(first, last + 1).map((v) => v ?? 0))).toBeGreaterThan(100);
    const plumb = stages.find((s) => s.stage.id === "to-roof")?.moments[1] ?? 0;
    expect(pulls[plumb]).toBeLessThan(20);
  });

  it.each(EXAMPLES.map((e) => [e.key, e.plan] as const))(
    "finds every worst ratio of %s within one per cent of a sweep ten times finer",
    (_, plan) => {
      const evolution = evolve(plan);
      const found = new Map(evolution.ledger.map((c) => [c.id, c.ratio]));
      for (const [index, { stage, moments, pathM }] of evolution.stages.entries()) {
        if (pathM === 0 && stage.action !== "moveLadder") continue;
        const steps = (moments[1] - moments[0]) * 10;
        for (let k = 0; k <= steps; k++) {
          for (const check of evaluateAt(plan, { stage: index, along: k / steps }).ledger) {
            if (check.ratio === null || check.rule === "attendant-check") continue;
            const worst = found.get(check.id) ?? null;
            expect(check.ratio, `${check.id} at ${index + 1}, ${k / steps}`).toBeLessThanOrEqual(
              (worst ?? Number.NaN) * 1.01 + 1e-9,
            );
          }
        }
      }
    },
  );

  it.each([
    ["raise", crossingExample],
    ["across", crossingExample],
    ["beside-wall", roofExample],
    ["off-roof", roofExample],
  ])("sweeps %s backwards over frictionless sheaves with the same tensions, checks and work", (id, example) => {
    const index = example.evolution.stages.findIndex((s) => s.id === id);
    const plan = withStages(frictionless(example), index);
    const [stage] = plan.evolution.stages as [Stage];
    const back = [plan.evolution.startM, ...stage.path].reverse();
    const turned = { raise: "lower", lower: "raise", rest: "rest" } as const;
    const [forth, reversed] = [
      evolve(plan),
      evolve({
        ...plan,
        evolution: {
          startM: back[0] ?? plan.evolution.startM,
          stages: [{ ...stage, path: back.slice(1), motion: turned[stage.motion] }],
        },
      }),
    ];
    const pulls = (e: typeof forth) => e.series.filter((s) => /^(tension|force|length)\//.test(s.id));
    let compared = 0;
    for (const [i, moment] of forth.moments.entries()) {
      const k = reversed.moments.findIndex((m) => Math.abs(m.when.along - (1 - moment.when.along)) < 1e-12);
      if (k < 0) continue;
      compared++;
      for (const s of pulls(forth)) {
        const twin = reversed.series.find((r) => r.id === s.id)?.values[k] ?? Number.NaN;
        expect(Math.abs(twin - (s.values[i] ?? Number.NaN)), `${s.id} at ${moment.when.along}`).toBeLessThan(1e-4);
      }
    }
    expect(pulls(forth).length).toBeGreaterThan(4);
    expect(compared).toBeGreaterThan(8);
    const [a, b] = [forth.stages[0], reversed.stages[0]];
    expect(Math.abs((a?.work?.putInJ ?? Number.NaN) + (b?.work?.putInJ ?? Number.NaN))).toBeLessThan(5);
    expect(a?.work?.frictionJ).toBe(0);
    for (const [k, run] of (a?.runs ?? []).entries())
      expect(Math.abs(run.takenInM - (b?.runs[k]?.letOutM ?? Number.NaN))).toBeLessThan(1e-3);
    const worst = new Map(reversed.ledger.map((c) => [c.id, c]));
    for (const c of forth.ledger)
      if (c.ratio !== null)
        expect(Math.abs((worst.get(c.id)?.ratio ?? Number.NaN) - c.ratio), c.id).toBeLessThanOrEqual(0.01 * c.ratio);
  });

  it("takes the worse of both travels at every moment, for a stage can be stopped at any", () => {
    // Lowering, the tension beyond the tip falls; stopped, friction may hold it up: 1/η² of it over two sheaves' wraps.
    const at = (motion: Stage["motion"]) => evolve(withStage(crossingExample, "lower", { motion }));
    const [lower, rest] = [at("lower"), at("rest")];
    for (const c of rest.ledger) expect(lower.ledger.find((d) => d.id === c.id)?.ratio, c.id).toBe(c.ratio);
    const alone = (travel: "raise" | "lower") => {
      const plan = momentPlan(crossingExample, { stage: 4, along: 0.5 });
      const moving = { ...plan, rig: { ...plan.rig, load: { ...plan.rig.load, motion: travel } } };
      return evaluate(moving).ledger.find((c) => c.id === "component-strength/main-a/brake")?.ratio ?? Number.NaN;
    };
    const both = evaluateAt(crossingExample, { stage: 4, along: 0.5 });
    expect(both.cases).toEqual(["lower", "raise"]);
    expect(alone("raise")).toBeGreaterThan(1.2 * alone("lower"));
    expect(both.ledger.find((c) => c.id === "component-strength/main-a/brake")?.ratio).toBe(alone("raise"));
  });

  it("has no number that is not finite, and no stage where there is none", () => {
    for (const { plan } of EXAMPLES) {
      const text = JSON.stringify(evolve(plan), (_, v) =>
        typeof v === "number" && !Number.isFinite(v) ? "NOT FINITE" : v,
      );
      expect(text).not.toContain("NOT FINITE");
    }
    const none = evolve({ ...crossingExample, evolution: { ...crossingExample.evolution, stages: [] } });
    expect([none.stages, none.moments]).toEqual([[], []]);
  });
});

describe("a stage that cannot be carried out", () => {
  it("says that nobody is on rope while the ladder moves, in the stage, at each of its moments and first of all", () => {
    const evolution = evolve(faultExample);
    const stage = evolution.stages[3];
    expect(saysOf(faultExample, 3)).toContain("A person is on the ropes while the ladder moves.");
    expect(stage?.problems[0]).toMatchObject({ id: "stage/across/1", status: "over", between: [0, 1] });
    expect(stage?.worst).toMatchObject({ status: "over", checkId: "stage/across/1" });
    expect(evolution.worst).toMatchObject({ status: "over", checkId: "stage/across/1", when: { stage: 3, along: 0 } });
    const moments = evolution.moments.filter((m) => m.when.stage === 3);
    expect(moments.length).toBeGreaterThan(8);
    for (const m of moments) {
      expect(m.worst.status).toBe("over");
      expect(m.problems).toContain("stage/across/1");
    }
    expect(evolution.moments.filter((m) => m.when.stage === 2).every((m) => m.problems.length === 0)).toBe(true);
    expect(stage?.work).toBeNull();
  });

  it("tells a waypoint inside a wall, and works the rest", () => {
    const plan = withStage(crossingExample, "across", {
      path: [
        [0, 10.66, 5],
        [1.55, 10.66, 9.3],
      ],
    });
    expect(saysOf(plan, 3)).toContain('Way point 1 lies inside "Flood wall".');
    const evolution = evolve(plan);
    expect(evolution.ledger.find((c) => c.id === "clearance/load/load/flood-wall")?.status).toBe("over");
    expect(evolution.stages[4]?.work).not.toBeNull();
  });

  it("tells a line that is not rigged and a part that is not there", () => {
    const plan = withStage(crossingExample, "raise", {
      aboard: ["casualty", "piano"],
      lines: { "tag-north": { on: true, drive: "asNeeded", tensionN: null, lengthM: null } },
    });
    const says = saysOf(plan, 2);
    expect(says).toContain('Line "tag-north" is used in this stage but is not rigged.');
    expect(says).toContain('"piano" is aboard, but no part of the load has this id.');
  });

  it("does not know a stage whose load has an unknown mass", () => {
    const parts = crossingExample.rig.load.parts.map((p) => (p.id === "casualty" ? { ...p, massKg: null } : p));
    const plan = { ...crossingExample, rig: { ...crossingExample.rig, load: { ...crossingExample.rig.load, parts } } };
    const evolution = evolve(plan);
    expect(evolution.ledger.find((c) => c.id === "stage/raise/1")?.status).toBe("unknown");
    expect(saysOf(plan, 2)).toContain("The mass of Casualty is not known");
    expect(evolution.stages[0]?.problems).toEqual([]);
  });

  it("says what pull is missing where nothing holds the load on its way", () => {
    const off = { on: false, drive: "asNeeded", tensionN: null, lengthM: null } as const;
    const says = saysOf(withStage(crossingExample, "across", { lines: { "tag-west": off, "tag-east": off } }), 3);
    expect(says).toMatch(/nothing holds the load on its way; it would go .* aside/);
    expect(says).toMatch(/Missing: a pull of .* toward bearing/);
  });

  it.each([
    ["with nothing on the ropes", roofExample.evolution.stages.findIndex((s) => s.aboard.length === 0)],
    ["with a load", roofExample.evolution.stages.findIndex((s) => s.aboard.length > 0)],
    ["with the ladder moving", roofExample.evolution.stages.findIndex((s) => s.action === "moveLadder")],
  ])("judges a single moment by the checks the sweep has in its stage: %s", (_, stage) => {
    const alone = { ...roofExample, evolution: { ...roofExample.evolution, stages: [] } };
    const plan = withStages(roofExample, stage);
    const swept = evolve(plan).ledger.filter((c) => c.rule !== "stage");
    const one = evaluateAt(roofExample, { stage, along: 0.5 }).ledger.filter((c) => c.rule !== "attendant-check");
    expect(one.length).toBeGreaterThan(5);
    expect(one.map((c) => c.id).filter((id) => !swept.some((c) => c.id === id))).toEqual([]);
    expect(evaluateAt(alone, { stage: 0, along: 0 }).ledger).toEqual(evaluate(alone).ledger);
  });

  it("tells the rope that must run free while the empty ladder moves, at the end and on the way", () => {
    const stow = evolve(roofExample).stages.at(-1);
    expect(stow?.freeRope.map((r) => r.lineId)).toEqual(["main-a", "main-b", "tether"]);
    for (const { changeM, leastM, mostM } of stow?.freeRope.slice(0, 2) ?? []) {
      expect(changeM).toBeLessThan(-5);
      expect(leastM).toBeCloseTo(-changeM, 9);
      expect(mostM).toBe(0);
    }
    // Swung past the yoke from one side to the other: as much rope at the end as at the start, less on the way. By plane
    // trigonometry for the tip itself: over the returning ropes nothing changes but by where the rigging points stand beside it.
    const { device, pose } = roofExample.aerial;
    const side = Math.PI / 3;
    const stage = roofExample.evolution.stages.at(-1) as Stage;
    const swung = evolve({
      ...roofExample,
      aerial: { ...roofExample.aerial, pose: { ...pose, bearingRad: -side } },
      evolution: { startM: [0, 6, 2.6], stages: [{ ...stage, pose: { ...pose, bearingRad: side } }] },
    });
    const outM = pose.lengthM * Math.cos(pose.elevationRad) - device.pivotSetbackM;
    const upM = pose.lengthM * Math.sin(pose.elevationRad) + device.pivotHeightM - 2.6;
    const yokeToTipM = (bearing: number) => Math.hypot(outM * Math.sin(bearing), outM * Math.cos(bearing) - 6, upM);
    const nearerM = yokeToTipM(side) - yokeToTipM(0);
    expect(nearerM).toBeGreaterThan(1);
    for (const { changeM, mostM, leastM } of swung.stages[0]?.freeRope.slice(0, 2) ?? []) {
      expect(Math.abs(changeM)).toBeLessThan(0.5);
      expect(mostM).toBeGreaterThanOrEqual(changeM);
      expect(Math.abs(leastM - nearerM)).toBeLessThan(0.5);
    }
  });
});

const OFF = { on: false, drive: "asNeeded", tensionN: null, lengthM: null } as const;
const NEEDED = { ...OFF, on: true } as const;
const POSE = { bearingRad: 0.3, elevationRad: 1.1, lengthM: 20 };

describe("lines and people while the empty ladder moves", () => {
  const moving = (lines: Stage["lines"], plan: Plan = crossingExample): Plan => ({
    ...plan,
    evolution: {
      ...plan.evolution,
      stages: [
        ...plan.evolution.stages,
        { ...(plan.evolution.stages[0] as Stage), id: "stow", action: "moveLadder", lines, pose: POSE },
      ],
    },
  });
  const mains = { "main-a": NEEDED, "main-b": OFF } as const;
  const fastTags: Plan = {
    ...crossingExample,
    rig: {
      ...crossingExample.rig,
      taglines: crossingExample.rig.taglines.map((t) => ({ ...t, drive: "length" as const, lengthM: 17 })),
    },
  };
  const said = (plan: Plan) =>
    evolve(plan).stages[6]?.problems.map((p) => `${p.status}: ${writePhrase(p.says, "metric")}`) ?? [];
  const hand = { "tag-west": NEEDED, "tag-east": OFF } as const;

  it("lets lines that are off the load, held as needed or pulled with nothing run free", () => {
    expect(said(moving({ ...mains, ...hand }))).toEqual([]);
    const free = { on: true, drive: "tension", tensionN: 0, lengthM: null } as const;
    expect(said(moving({ "main-a": free, "main-b": free, ...hand }))).toEqual([]);
  });

  it("does not know whether main lines run free where the stage does not say so", () => {
    const says = said(moving(hand));
    expect(says).toHaveLength(2);
    expect(says[0]).toMatch(/^unknown: It is not said whether Main A runs free/);
  });

  it("judges lines that the stage does not name as the rig has them", () => {
    const says = said(moving(mains, fastTags));
    expect(says).toHaveLength(2);
    expect(says[0]).toMatch(/^over: West tagline is made fast while the ladder moves/);
    expect(said(moving({ ...mains, ...hand }, fastTags))).toEqual([]);
  });

  it("holds a line that is made fast or pulled, or whose pull is not known, against the stage", () => {
    const main = (drive: "tension" | "length", tensionN: number | null) =>
      said(moving({ ...mains, ...hand, "main-a": { on: true, drive, tensionN, lengthM: null } }))[0];
    expect(main("length", null)).toMatch(/^over: Main A is made fast/);
    expect(main("tension", 50)).toMatch(/^over: Main A pulls with/);
    expect(main("tension", null)).toMatch(/^unknown: The pull on Main A/);
  });

  it("does not let a casualty vanish from a load that hangs in the air, and lets one step off on ground and roof", () => {
    const early = (after: number): Plan => {
      const plan = moving({ ...mains, ...hand });
      const { stages } = plan.evolution;
      return { ...plan, evolution: { ...plan.evolution, stages: [...stages.slice(0, after), ...stages.slice(6)] } };
    };
    // Nine metres up beside the wall the yoke is at 9.3 m, the litter's underside some 1.6 m lower.
    const [gone] = evolve(early(3)).stages[3]?.problems ?? [];
    expect(gone).toMatchObject({ status: "over", field: "evolution.stages[3].aboard", between: [0, 0] });
    expect(writePhrase(gone?.says ?? [], "metric")).toMatch(/Casualty.*still hangs [78]\.\d/);
    expect(evolve(early(5)).stages[5]?.problems).toEqual([]);
    expect(evolve(roofExample).stages[6]?.problems).toEqual([]);
  });
});

describe("a stage as it is written", () => {
  it("has an id of its own for each problem of two stages with one id, and names the second as a wrong entry", () => {
    const stages = crossingExample.evolution.stages.map((s, i) => (i === 3 ? { ...s, id: "raise" } : s));
    const twice = stages.map((s) => (s.id === "raise" ? { ...s, aboard: [...s.aboard, "piano"] } : s));
    const { ledger, problems } = evolve({
      ...crossingExample,
      evolution: { ...crossingExample.evolution, stages: twice },
    });
    expect(problems.map((p) => p.path)).toEqual(["evolution.stages[3].id"]);
    const ids = ledger.filter((c) => c.rule === "stage" && c.says.join("").includes("piano")).map((c) => c.id);
    expect(ids).toEqual(["stage/raise.4/1", "stage/raise/1"]);
    expect(new Set(ledger.map((c) => c.id)).size).toBe(ledger.length);
  });

  it("works no forces with main lines that are off", () => {
    const plan = withStage(crossingExample, "raise", { lines: { "main-a": OFF, "main-b": OFF } });
    const { stages, moments, series } = evolve(plan);
    expect(momentPlan(plan, { stage: 2, along: 0.5 }).rig.mainLines).toEqual([]);
    expect(saysOf(plan, 2)).toBe("There is a load, but no main line is on it.");
    const [first, last] = stages[2]?.moments ?? [0, 0];
    expect(moments.slice(first, last + 1).every((m) => m.holds === "unsolved" && m.worst.status === "over")).toBe(true);
    const pulls = series.filter((s) => s.id.startsWith("tension/")).flatMap((s) => s.values.slice(first, last + 1));
    expect(pulls.every((v) => v === null)).toBe(true);
  });

  it("says that shares do not make the whole load", () => {
    const plan = withStage(crossingExample, "raise", { shares: { "main-a": 0.9, "main-b": 0.9 } });
    expect(evolve(plan).stages[2]?.problems).toMatchObject([
      { status: "unknown", field: "evolution.stages[2].shares" },
    ]);
    expect(saysOf(plan, 2)).toMatch(/make 1\.80/);
    const one = withStage(crossingExample, "raise", { lines: { "main-b": OFF } });
    expect(evolve(one).stages[2]?.problems.filter((p) => p.field.endsWith("shares"))).toEqual([]);
  });

  it("holds the way that the ropes really run against the way that is entered", () => {
    const plan = withStage(crossingExample, "raise", { motion: "lower" });
    const [raise] = evolve(plan).stages.slice(2);
    expect(raise?.problems.map((p) => p.field)).toEqual(["evolution.stages[2].motion", "evolution.stages[2].motion"]);
    expect(saysOf(plan, 2)).toMatch(/entered as lowering, but on this way Main A is hauled in by 7\.\d/);
    expect(raise?.work?.frictionJ).toBeGreaterThan(1000);
    expect(raise?.work).toEqual(evolve(crossingExample).stages[2]?.work);
    expect(evolve(roofExample).stages[7]?.runs.every((r) => r.takenInM > 2 && r.letOutM > 1.5)).toBe(true);
  });

  it("tells that the way begins inside a wall", () => {
    const plan = { ...crossingExample, evolution: { ...crossingExample.evolution, startM: [0, 10.66, 3] } } as Plan;
    expect(saysOf(plan, 0)).toContain('The way begins inside "Flood wall".');
  });
});

describe("what the moments of a stage show", () => {
  const off = { "tag-west": OFF, "tag-east": OFF } as const;

  it("tells from where to where nothing holds the load, where it would go, and the pull that is missing", () => {
    const drift = evolve(withStage(crossingExample, "across", { lines: off })).stages[3]?.problems.find((p) => p.drift);
    expect(drift?.between).toEqual([0, 1]);
    expect(drift?.drift?.goesTo).toHaveLength(3);
    // Horizontal balance without hands: the missing pull is level(ish), and as much as the rope's lean times its tension.
    const plan = withStage(crossingExample, "across", { lines: off });
    const { load, geometry } = evaluateAt(plan, drift?.when ?? { stage: 3, along: 0 });
    const tips = geometry.riggingPoints.filter((p) => p.used).map((p) => p.at);
    const middle = [0, 1, 2].map((k) => tips.reduce((sum, t) => sum + (t[k] ?? 0), 0) / tips.length);
    const [dx, dy, dz] = middle.map((c, k) => c - (load.wanted[k] ?? 0)) as [number, number, number];
    const lean = Math.atan2(Math.hypot(dx, dy), dz);
    const expected = (load.weightN ?? 0) * Math.sin(lean);
    const missing = Math.hypot(...(drift?.drift?.missingN ?? [0, 0, 0]));
    // Tip sheaves on slings and the ropes' own weight make some hundredths.
    expect(Math.abs(missing / expected - 1)).toBeLessThan(0.15);
  });

  it("tells every kind of problem of a stage once: a load that drifts and one that goes through the ladder", () => {
    // Hauled in under the ladder by a crew behind the vehicle, from a place beside the ladder where nothing holds it.
    const held = crossingExample.evolution.stages[2] as Stage;
    const plan: Plan = {
      ...crossingExample,
      scene: { ...crossingExample.scene, structures: [] },
      rig: {
        ...crossingExample.rig,
        taglines: crossingExample.rig.taglines.map((t, i) => (i === 0 ? { ...t, handler: [0, -25, 1.1] } : t)),
      },
      evolution: {
        startM: [1.5, 10.6, 2],
        stages: [
          {
            ...held,
            path: [
              [0, 10.6, 12],
              [0, 6, 12],
            ],
            lines: { "tag-west": NEEDED, "tag-east": OFF },
          },
        ],
      },
    };
    const stage = evolve(plan).stages[0];
    const through = stage?.problems.find((p) => writePhrase(p.says, "metric").includes("goes through the ladder"));
    expect(through).toMatchObject({ status: "over" });
    expect(through?.between[1]).toBeGreaterThan(through?.between[0] ?? 1);
    expect(new Set(stage?.problems.map((p) => p.id)).size).toBe(stage?.problems.length);
    expect(stage?.problems.length).toBeGreaterThan(1);
  });
});
