import { describe, expect, it } from "vitest";
import { evaluate } from "../evaluate.ts";
import { momentPlan } from "../evolve/moment-plan.ts";
import { crossingExample } from "../examples/crossing.ts";
import { roofExample } from "../examples/roof.ts";
import { unsoundNumbers } from "../fuzz/unsound-numbers.ts";
import { letGoChecks } from "../rules/let-go.ts";
import type { Plan } from "../schema/plan.ts";
import { letGoAt } from "./let-go-at.ts";
import { doLetGoTask, gatherLetGo, letGoEvolution, letGoTasks } from "./let-go-evolution.ts";
import { shareSlackMap } from "./share-slack-map.ts";
import { letGoMoments, linesOn, sweepCuts } from "./sweep-cuts.ts";
import { plumbPlan, withGear } from "./testing/plumb-plan.ts";
import { worstCases } from "./worst-cuts.ts";

/** The crossing with what comes after its first stages left out. */
const short: Plan = {
  ...withGear(crossingExample, "brake-g", { slipN: 6000 }),
  evolution: {
    ...crossingExample.evolution,
    stages: crossingExample.evolution.stages
      .slice(0, 3)
      .map((s, i) => (i === 2 ? { ...s, path: [[-1.55, 10.66, 4]] } : s)),
  },
};

describe("every line cut at every moment", () => {
  it("is at least 400 cuts for the examples", () => {
    for (const plan of [crossingExample, roofExample]) {
      const cuts = letGoMoments(plan).reduce((n, when) => n + linesOn(momentPlan(plan, when)).length, 0);
      expect(cuts).toBeGreaterThanOrEqual(400);
    }
  });

  const found = letGoEvolution(short);
  if (found === null) throw new Error("cancelled");

  it("gives the same answer each time", () => {
    expect(letGoEvolution(short)).toEqual(found);
    expect(unsoundNumbers(found)).toEqual([]);
  });

  it("keeps each line's worst: no cut of the sweep is above it by more than the loose pass may be off", () => {
    for (const { lineId, worst } of found.worst) {
      const tips = found.cuts.filter((c) => c.lineId === lineId).map((c) => c.tipN ?? 0);
      expect(Math.max(...tips)).toBeLessThan((worst.figures?.tipN.high ?? 0) * 1.01);
    }
    expect(found.cuts.length).toBe(letGoMoments(short).length * 3);
    // The east tagline is off the load in these stages.
    expect(found.worst.map((w) => w.lineId).sort()).toEqual(["main-a", "main-b", "tag-west"]);
  });

  it("judges with a moment: no fine case is worse than what the ledger says", () => {
    const tip = found.ledger.find((c) => c.id === "let-go/tip");
    const highest = Math.max(...found.deciding.map((c) => c.figures?.tipN.high ?? 0));
    expect(tip?.demand?.value).toBe(highest);
    expect(tip?.when).not.toBeNull();
    expect(found.ledger.find((c) => c.id === "let-go/holds/main-a")?.status).toBe("within");
  });

  it("misses nothing that cuts followed finely here and there would find", () => {
    const cases = letGoMoments(short)
      .filter((_, i) => i % 12 === 5)
      .flatMap((when) => linesOn(short).map(({ id }) => letGoAt(short, when, id)));
    for (const { id, ratio } of letGoChecks(short, cases)) {
      const own = found.ledger.find((c) => c.id === id);
      if (ratio === null) continue;
      expect(own?.ratio ?? 0, id).toBeGreaterThan(ratio * 0.998);
    }
  });

  it("is the same whoever does the pieces, in whatever order they come", () => {
    const swept = sweepCuts(short, letGoMoments(short)) ?? [];
    const parts = letGoTasks(short, swept).map((task) => doLetGoTask(short, task));
    expect(gatherLetGo(short, swept, [...parts].reverse())).toEqual(found);
  });

  it("looks between the sweep's moments for what is highest, and judges that", () => {
    const swept = sweepCuts(short, letGoMoments(short)) ?? [];
    const tasks = letGoTasks(short, swept).flatMap((task) => (task.kind === "worst" ? [task.of] : []));
    expect(tasks.flatMap((task) => task.figures)).toEqual(
      expect.arrayContaining(["tip", "person", "sideways", "drop"]),
    );
    const between = tasks.find((task) => task.beside.length === 2);
    if (!between) throw new Error("none within a stage");
    const [before, after] = between.beside.map((w) => w.along);
    expect((before ?? 1) < between.when.along && between.when.along < (after ?? 0)).toBe(true);
    const best = Math.max(...worstCases(short, between).map((one) => one.figures?.tipN.high ?? 0));
    const there = letGoAt(short, between.when, between.lineId).figures?.tipN.high ?? 0;
    if (between.figures.includes("tip")) expect(best).toBeGreaterThanOrEqual(there);
  });

  it("tells how far it is, and stops when cancelled", () => {
    const seen: number[] = [];
    letGoEvolution(short, { progress: (done, of) => seen.push(done / of) });
    expect(seen.at(-1)).toBe(1);
    expect(seen).toEqual([...seen].sort((a, b) => a - b));
    let asked = 0;
    expect(letGoEvolution(short, { cancelled: () => ++asked > 3 })).toBeNull();
    expect(asked).toBe(4);
  });

  it("judges a plan without stages at its one position", () => {
    const one = letGoEvolution(plumbPlan());
    expect(one?.cuts).toEqual([]);
    expect(one?.worst.map((w) => [w.lineId, w.worst.when, w.worst.outcome])).toEqual([
      ["main-a", null, "held"],
      ["main-b", null, "held"],
    ]);
  });
});

describe("the map of shares and slack", () => {
  const plan = plumbPlan({ share: 0.6 });
  const map = shareSlackMap(plan, null);
  if (map === null) throw new Error("no map");

  it("rises with the share that goes and with slack, and has this plan on it", () => {
    expect(map.cut).toBe("main-a");
    expect(map.here.share).toBeCloseTo(0.6, 12);
    expect((map.here.peakTipN ?? 0) / (map.peakTipN[1]?.[0] ?? Number.NaN)).toBeCloseTo(1, 2);
    const rises = (values: readonly (number | null)[]): boolean =>
      values.every((v, i) => v === null || i === 0 || v > (values[i - 1] ?? Number.POSITIVE_INFINITY));
    for (const row of map.peakTipN) expect(rises(row)).toBe(true);
    for (const [k] of map.slacksM.entries()) expect(rises(map.peakTipN.map((row) => row[k] ?? null))).toBe(true);
  });

  it("has the closed form without slack: W(2 − s) over that of even shares", () => {
    const even = map.peakTipN[0]?.[0] ?? Number.NaN;
    // Reference page, one-rope failure; the survivor carries 1 − share.
    for (const [i, share] of map.shares.entries())
      expect((map.peakTipN[i]?.[0] ?? Number.NaN) / even).toBeCloseTo((1 + share) / 1.5, 2);
  });

  it("is by the high end that checks are judged by, and says that a brake is only taken to hold", () => {
    const judged = letGoAt(plan, null, "main-a");
    expect(map.here.peakTipN).toBe(judged.figures?.tipN.high);
    expect(map.slipUnknown).toEqual(["main-b"]);
    expect(shareSlackMap(plumbPlan({ slipN: 8000 }), null)?.slipUnknown).toEqual([]);
    // With slack the stiffest is the hardest, here and in the fine pass.
    const slack = letGoAt(plumbPlan({ share: 1 }), null, "main-a", { slackM: { "main-b": 0.4 } });
    expect((map.peakTipN[5]?.[2] ?? 0) / (slack.figures?.tipN.high ?? 1)).toBeCloseTo(1, 1);
    expect(map.peakTipN[5]?.[2]).toBeGreaterThan(1.1 * (slack.figures?.tipN.entered ?? 0));
  });

  it("marks where the load comes down first, which a lower force does not tell", () => {
    expect(map.lands.flat()).not.toContain(true);
    const { load } = plan.rig;
    // Its foot 0.3 m above the ground: 1 m of slack is not run in.
    const [x, y] = load.positionM;
    const footM = load.bridle.heightM + load.box.heightM;
    const low = {
      ...plan,
      rig: { ...plan.rig, load: { ...load, positionM: [x, y, 0.3 + footM] as typeof load.positionM } },
    };
    const found = shareSlackMap(low, null);
    expect(found?.lands.map((row) => row.at(-1))).toEqual(map.shares.map(() => true));
    expect(found?.peakTipN.at(-1)?.at(-1)).toBeNull();
  });

  it("is none of a single line", () => {
    expect(
      shareSlackMap({ ...plan, rig: { ...plan.rig, mainLines: plan.rig.mainLines.slice(0, 1) } }, null),
    ).toBeNull();
  });
});

describe("evaluate", () => {
  it("has none of it: these checks are asked for apart", () => {
    expect(evaluate(crossingExample).ledger.filter((c) => c.rule === "let-go")).toEqual([]);
    expect(letGoAt(crossingExample, null, "main-a").outcome).toBe("held");
  });
});
