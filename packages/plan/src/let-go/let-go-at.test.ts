import { STANDARD_GRAVITY_MS2 } from "@gantline/engine";
import { describe, expect, it } from "vitest";
import { evaluate } from "../evaluate.ts";
import { crossingExample } from "../examples/crossing.ts";
import { roofExample } from "../examples/roof.ts";
import { mutatePlan } from "../fuzz/mutate-plan.ts";
import { unsoundNumbers } from "../fuzz/unsound-numbers.ts";
import { readPlan } from "../read-plan.ts";
import { letGoChecks } from "../rules/let-go.ts";
import type { Plan } from "../schema/plan.ts";
import { mirroredPlan } from "../testing/mirrored-plan.ts";
import { letGoAt } from "./let-go-at.ts";
import type { LetGoFigures } from "./let-go-plan-types.ts";
import { letGoMoments, linesOn } from "./sweep-cuts.ts";
import { plumbPlan, withGear } from "./testing/plumb-plan.ts";

const W = 120 * STANDARD_GRAVITY_MS2;

function figuresOf(
  plan: Plan,
  cut: string,
  options: Parameters<typeof letGoAt>[3] = {},
  when: Parameters<typeof letGoAt>[1] = null,
): LetGoFigures {
  const found = letGoAt(plan, when, cut, options);
  if (found.figures === null) throw new Error(`${found.outcome}: ${JSON.stringify(found.says)}`);
  return found.figures;
}

const peakOf = (figures: LetGoFigures, line: string) => {
  const found = figures.lines.find((l) => l.lineId === line);
  if (!found) throw new Error(`no ${line}`);
  return found.peakN;
};

describe("a line goes, through the plan, against closed forms: vertical, one mass, no friction", () => {
  // Reference page on mechanics, one-rope failure: survivor with share s → W(2 − s); confirmed there by integration.
  it.each([
    [0.5, 1.5],
    [0.7, 1.7],
    [1, 2],
  ])("%f of the load on the line that goes: %f W", (share, peak) => {
    const { entered } = peakOf(figuresOf(plumbPlan({ share }), "main-a"), "main-b");
    expect(entered / W).toBeCloseTo(peak, 3);
  });

  it("slack h in a survivor that carried nothing: W + √(W² + 2kWh), k of all its rope", () => {
    const plan = plumbPlan({ share: 1 });
    const line = evaluate(plan).lines.find((l) => l.id === "main-b");
    const k = 170_000 / (line?.pathM ?? Number.NaN);
    for (const slackM of [0.2, 0.5, 1]) {
      const { entered } = peakOf(figuresOf(plan, "main-a", { slackM: { "main-b": slackM } }), "main-b");
      // Standard equation of impact force. The slack is in the rope too: k of the longer rope differs by h/L.
      const peak = W + Math.sqrt(W ** 2 + (2 * k * W * slackM) / (1 + slackM / (line?.pathM ?? 1)));
      expect(entered / peak).toBeCloseTo(1, 3);
    }
  });

  it("a brake that slips at F pays out about W h ÷ (F − W) less what the rope stretches, and no tension passes it", () => {
    const plan = plumbPlan({ share: 1, slipN: 3000 });
    const figures = figuresOf(plan, "main-a", { slackM: { "main-b": 1 } });
    expect(peakOf(figures, "main-b").high).toBeLessThan(3000 * 1.001);
    const slipped = figures.lines[0]?.slippedM ?? 0;
    // Force limiter, rope stretch ignored: reference page, one-rope failure.
    const stiff = (W * 1) / (3000 - W);
    expect(slipped).toBeGreaterThan(0);
    expect(slipped).toBeLessThan(stiff * 1.5);
  });

  it("is at the tip what a sheave makes of it: 2 T cos of half the angle between the ropes", () => {
    const plan = plumbPlan();
    const figures = figuresOf(plan, "main-a");
    const [yoke, tip, base] = evaluate(plan).lines[0]?.nodes.map((n) => n.at) ?? [];
    if (!yoke || !tip || !base) throw new Error("no path");
    const to = (a: readonly number[]) => a.map((x, i) => x - (tip[i] ?? 0));
    const [u, v] = [to(yoke), to(base)];
    const cos = u.reduce((s, x, i) => s + x * (v[i] ?? 0), 0) / (Math.hypot(...u) * Math.hypot(...v));
    const peak = peakOf(figures, "main-b").entered;
    expect(figures.tipN.entered / (2 * peak * Math.cos(Math.acos(cos) / 2))).toBeCloseTo(1, 3);
    expect(figures.points).toHaveLength(1);
  });

  it("a tip that gives lowers the blow after slack, and never below that of the stiff one by more than a series spring", () => {
    const plan = plumbPlan({ share: 1 });
    const slackM = { "main-b": 0.5 };
    const stiff = peakOf(figuresOf(plan, "main-a", { slackM }), "main-b").entered;
    const soft = peakOf(
      figuresOf(plan, "main-a", { slackM, tip: { stiffnessNM: 20_000, massKg: 5 } }),
      "main-b",
    ).entered;
    expect(soft).toBeLessThan(stiff);
    expect(soft).toBeGreaterThan(0.7 * stiff);
  });
});

describe("a line goes", () => {
  const moments = letGoMoments(crossingExample).filter((_, i) => i % 25 === 5);

  it("mirrored scenes give mirrored answers", () => {
    const mirrored = mirroredPlan(crossingExample);
    for (const when of moments) {
      for (const { id } of linesOn(crossingExample)) {
        const [one, other] = [letGoAt(crossingExample, when, id), letGoAt(mirrored, when, id)];
        expect(other.outcome).toBe(one.outcome);
        const [a, b] = [one.figures, other.figures];
        if (a === null || b === null) continue;
        expect(b.tipN.entered / a.tipN.entered).toBeCloseTo(1, 4);
        expect(b.swingM.entered).toBeCloseTo(a.swingM.entered, 3);
        expect(b.tipInBeam.lateralN).toBeCloseTo(-a.tipInBeam.lateralN, 0);
        expect(b.lowest[0]).toBeCloseTo(-a.lowest[0], 2);
      }
    }
    expect(moments.length).toBeGreaterThan(3);
  });

  it("a heavier load never gives less", () => {
    for (const when of moments) {
      const peaks = [60, 90, 140, 200].map((massKg) => {
        const parts = crossingExample.rig.load.parts.map((p) => (p.id === "casualty" ? { ...p, massKg } : p));
        const { rig } = crossingExample;
        const plan = { ...crossingExample, rig: { ...rig, load: { ...rig.load, parts } } };
        return figuresOf(plan, "main-a", {}, when).tipN.entered;
      });
      expect(peaks).toEqual([...peaks].sort((a, b) => a - b));
    }
  });

  it("gives a band about what is entered", () => {
    for (const when of moments) {
      const { tipN, dropM } = figuresOf(crossingExample, "main-b", {}, when);
      for (const { low, entered, high } of [tipN, dropM]) {
        expect(low).toBeLessThanOrEqual(entered);
        expect(entered).toBeLessThanOrEqual(high);
      }
      expect(tipN.low).toBeLessThan(tipN.high);
    }
  });

  it("followed loosely gives the peaks of the fine pass to 1 %", () => {
    for (const plan of [crossingExample, roofExample]) {
      for (const when of letGoMoments(plan).filter((_, i) => i % 20 === 3)) {
        for (const { id } of plan.rig.mainLines) {
          const loose = letGoAt(plan, when, id, { pass: "loose", rider: "stays" }).figures?.tipN.entered;
          const fine = letGoAt(plan, when, id, { rider: "stays" }).figures?.tipN.entered;
          if (loose === undefined || fine === undefined) continue;
          expect(Math.abs(loose / fine - 1)).toBeLessThan(0.01);
        }
      }
    }
  });

  it("has in a sweep the high end of the fine pass to 1 %, at rest too, where sheaves may hold either way", () => {
    for (const when of moments) {
      const [swept, fine] = (["ends", "fine"] as const).map(
        (pass) => letGoAt(crossingExample, when, "main-b", { pass }).figures?.tipN.high ?? Number.NaN,
      );
      expect(Math.abs((swept ?? 0) / (fine ?? 0) - 1)).toBeLessThan(0.01);
    }
  });

  it("with the tether's pulley where it is or riding: the survivor's peak by less than 5 %, the tether's by much more", () => {
    const when = { stage: 2, along: 0.5 };
    const stays = figuresOf(roofExample, "main-a", { rider: "stays" }, when);
    const moves = figuresOf(roofExample, "main-a", { rider: "moves" }, when);
    expect(Math.abs(peakOf(moves, "main-b").entered / peakOf(stays, "main-b").entered - 1)).toBeLessThan(0.05);
    expect(peakOf(moves, "tether").entered).toBeGreaterThan(1.3 * peakOf(stays, "tether").entered);
  });

  it("falls where nothing else is on the load, by √(2 g h)", () => {
    const [only] = plumbPlan({ share: 1 }).rig.mainLines;
    if (!only) throw new Error("no line");
    const plan = plumbPlan({ share: 1 });
    const { bridle, box } = plan.rig.load;
    const found = letGoAt({ ...plan, rig: { ...plan.rig, mainLines: [only] } }, null, "main-a");
    expect(found.outcome).toBe("falls");
    const heightM = 12 - bridle.heightM - box.heightM;
    expect(found.fall?.heightM).toBeCloseTo(heightM, 9);
    expect(found.fall?.speedMS).toBeCloseTo(Math.sqrt(2 * STANDARD_GRAVITY_MS2 * heightM), 9);
    expect(letGoChecks(plan, [found]).map((c) => c.status)).toEqual(["over"]);
  });

  it("falls where the brake that is left slips at less than the load", () => {
    expect(letGoAt(plumbPlan({ slipN: 0.8 * W }), null, "main-a").outcome).toBe("falls");
  });

  it("replays with the damped motion of the yoke", () => {
    const { motion, yoke } = letGoAt(crossingExample, { stage: 3, along: 0.5 }, "main-a", { replay: true });
    expect(motion?.places.yoke?.[0]).toEqual(yoke);
    expect(motion?.timesS.length).toBeGreaterThan(20);
    expect(Object.keys(motion?.tensionsN ?? {})).toContain("main-b");
  });

  it("changes nothing where the line is not on the load", () => {
    const found = letGoAt(crossingExample, { stage: 2, along: 0.5 }, "tag-east");
    expect(found).toMatchObject({ outcome: "held", figures: null });
  });

  it("gives no number that is none, of damaged plans", () => {
    const wrong: string[] = [];
    let worked = 0;
    for (let seed = 0; seed < 160; seed++) {
      const read = readPlan(mutatePlan(seed % 2 ? crossingExample : roofExample, 500_000 + seed).value);
      if (!read.ok) continue;
      for (const { id } of linesOn(read.plan)) {
        const found = letGoAt(read.plan, null, id, { pass: "loose" });
        if (found.figures) worked++;
        const checks = letGoChecks(read.plan, [found]);
        wrong.push(...[...unsoundNumbers(found), ...unsoundNumbers(checks)].map((u) => `seed ${seed}: ${u}`));
        if (checks.some((c) => c.status === "unknown" && c.says.length === 0))
          wrong.push(`seed ${seed}: unknown, unsaid`);
      }
    }
    expect(wrong).toEqual([]);
    expect(worked).toBeGreaterThan(50);
  });
});

describe("checks on a line that goes", () => {
  const slips = withGear(plumbPlan(), "brake-g", { slipN: 8000 });
  const checksOf = (plan: Plan) => letGoChecks(plan, [letGoAt(plan, null, "main-a")]);
  const statusOf = (plan: Plan, id: string) => checksOf(plan).find((c) => c.id === id)?.status;

  it("hold the high end of the band against the policy: points, person, brake, rope, other parts, ladder, way", () => {
    const checks = checksOf(slips);
    expect(checks.map((c) => c.id).sort()).toEqual([
      "let-go/brake/main-b",
      "let-go/clearance/ladder",
      "let-go/contact",
      "let-go/holds/main-a",
      "let-go/parts/load",
      "let-go/parts/main-b",
      "let-go/person",
      "let-go/point/tip-left",
      "let-go/rope/main-b",
      "let-go/side",
      "let-go/slip/main-b",
      "let-go/tip",
      "let-go/tip/bending",
      "let-go/tip/compression",
    ]);
    expect(checks.every((c) => c.status === "within" || c.status === "close")).toBe(true);
    const person = checks.find((c) => c.id === "let-go/person");
    // 1.5 W, all of the load being one person, against the policy's 6 kN.
    expect(person?.ratio).toBeCloseTo((1.5 * W) / 6000, 3);
  });

  it("are unknown, all of them, where the brake's slip is not known, with the upper figure said", () => {
    for (const { id, status, says } of checksOf(plumbPlan())) {
      expect(status, id).toBe("unknown");
      const onTheWay = /contact|clearance|slip/.test(id) ? "how far the load would go" : "upper figure";
      expect(JSON.stringify(says)).toContain(id.startsWith("let-go/holds") ? "its slip is not known" : onTheWay);
    }
  });

  it("are unknown where the dynamic stiffness is not known", () => {
    const checks = checksOf(withGear(slips, "rope-12", { dynamicStiffnessN: null }));
    expect(checks.map((c) => c.status)).toEqual(["unknown"]);
  });

  it.each([
    ["peakPersonN", "let-go/person"],
    ["peakBrakeN", "let-go/brake/main-b"],
    ["peakStrengthFactor", "let-go/rope/main-b"],
    ["peakRatingFactor", "let-go/tip"],
  ] as const)("%s: unknown where it is not set, over where it is tight", (limit, id) => {
    const set = (value: number | null): Plan => ({
      ...slips,
      policy: { ...slips.policy, [limit]: { value, source: "" } },
    });
    expect(statusOf(set(null), id)).toBe("unknown");
    expect(statusOf(set(limit.endsWith("Factor") ? 1000 : 1), id)).toBe("over");
  });
});
