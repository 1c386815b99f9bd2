import { describe, expect, it } from "vitest";
import { evaluate } from "../evaluate.ts";
import type { When } from "../evolve/evolution-types.ts";
import { momentPlan } from "../evolve/moment-plan.ts";
import { crossingExample } from "../examples/crossing.ts";
import { roofExample } from "../examples/roof.ts";
import { unsoundNumbers } from "../fuzz/unsound-numbers.ts";
import { letGoChecks } from "../rules/let-go.ts";
import type { Plan } from "../schema/plan.ts";
import { letGoAt } from "./let-go-at.ts";
import { doLetGoTask, gatherLetGo, letGoEvolution, letGoTasks } from "./let-go-evolution.ts";
import { roomBelowM } from "./load-falls.ts";
import { roomiestMoment } from "./most-room.ts";
import { shareSlackMap } from "./share-slack-map.ts";
import { letGoMoments, linesOn, sweepCuts } from "./sweep-cuts.ts";
import { plumbPlan, withGear } from "./testing/plumb-plan.ts";
import { worstCases, worstTasks } from "./worst-cuts.ts";

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

  it("gives the same answer each time, and tells how far it is", () => {
    const seen: number[] = [];
    expect(letGoEvolution(short, { progress: (done, of) => seen.push(done / of) })).toEqual(found);
    expect(seen.at(-1)).toBe(1);
    expect(seen).toEqual([...seen].sort((a, b) => a - b));
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
      expect(own?.ratio ?? 0, id).toBeGreaterThanOrEqual(ratio * 0.998);
    }
  });

  const swept = sweepCuts(short, letGoMoments(short)) ?? [];

  it("is the same whoever does the pieces, in whatever order they come", () => {
    const parts = letGoTasks(short, swept).map((task) => doLetGoTask(short, task));
    expect(gatherLetGo(short, swept, [...parts].reverse())).toEqual(found);
  });

  it("looks between the sweep's moments for what is highest, and judges that", () => {
    const tasks = letGoTasks(short, swept).flatMap((task) => (task.kind === "worst" ? [task.of] : []));
    expect(tasks.flatMap((task) => task.figures)).toEqual(
      expect.arrayContaining(["tip", "person", "sideways", "drop"]),
    );
    const task = tasks.find(({ cuts }) => cuts[0]?.beside.length === 2);
    const [top] = task?.cuts ?? [];
    if (!task || !top) throw new Error("none within a stage");
    const [before, after] = top.beside.map((w) => w.along);
    expect((before ?? 1) < top.when.along && top.when.along < (after ?? 0)).toBe(true);
    const best = Math.max(...worstCases(short, task).map((one) => one.figures?.tipN.high ?? 0));
    const there = letGoAt(short, top.when, top.lineId).figures?.tipN.high ?? 0;
    if (task.figures.includes("tip")) expect(best).toBeGreaterThanOrEqual(there);
  });

  it("chooses among the highest of each line by what comes later than a sweep looks", () => {
    const [when] = letGoMoments(short).slice(30);
    if (!when) throw new Error("no moment");
    const cuts = ["main-a", "tag-west"].map((lineId) => ({ when, lineId, beside: [] }));
    const [chosen] = worstCases(short, { figures: ["swing"], cuts });
    const swings = cuts.map(({ lineId }) => letGoAt(short, when, lineId).figures?.swingM.high ?? 0);
    expect(chosen?.figures?.swingM.high).toBe(Math.max(...swings));
    // A main line's loss has swung less by the sweep's 2.5 s than it does in all.
    const swept = letGoAt(short, when, "main-a", { pass: "ends" }).figures?.swingM.high ?? 0;
    const long = letGoAt(short, when, "main-a", { pass: "long" }).figures?.swingM.high ?? 0;
    expect(long).toBeGreaterThan(1.02 * swept);
  });

  it("follows a slipping brake on: what falls, falls in the sweep too, and the hardest is what is shown", () => {
    const slipping = withGear(short, "brake-g", { slipN: 900 });
    const swept = sweepCuts(slipping, letGoMoments(slipping).slice(-25)) ?? [];
    const falls = swept.filter((c) => c.outcome === "falls");
    expect(falls.length).toBeGreaterThan(20);
    for (const { fall } of falls) expect(fall?.slippedM ?? 0).toBeGreaterThan(0);
    const hardest = Math.max(...falls.map(({ fall }) => fall?.speedMS ?? 0));
    const tasks = worstTasks(swept).filter(({ figures }) => figures.some((f) => f.startsWith("falls/")));
    expect(
      worstTasks(sweepCuts(withGear(short, "brake-g", { slipN: 1100 }), letGoMoments(short).slice(-8)) ?? []).flatMap(
        ({ figures }) => figures,
      ),
    ).toContain("slip/main-b");
    const speeds = tasks.flatMap((task) => worstCases(slipping, task).map((one) => one.fall?.speedMS ?? 0));
    expect(Math.max(...speeds)).toBeGreaterThan(0.95 * hardest);
  });

  it("stops when cancelled", () => {
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
  const peaks = map.cells.map((row) => row.map((cell) => cell.tipN?.high ?? null));
  const peak = (share: number, slack: number): number | null => peaks[share]?.[slack] ?? null;

  it("rises with the share that goes and with slack, and has this plan on it", () => {
    expect(map.cut).toBe("main-a");
    expect(map.here.share).toBeCloseTo(0.6, 12);
    expect((map.here.tipN?.high ?? 0) / (peak(1, 0) ?? Number.NaN)).toBeCloseTo(1, 2);
    const rises = (values: readonly (number | null)[]): boolean =>
      values.every((v, i) => v === null || i === 0 || v > (values[i - 1] ?? Number.POSITIVE_INFINITY));
    for (const row of peaks) expect(rises(row)).toBe(true);
    for (const [k] of map.slacksM.entries()) expect(rises(peaks.map((row) => row[k] ?? null))).toBe(true);
  });

  it("has the closed form without slack: W(2 − s) over that of even shares", () => {
    const even = peak(0, 0) ?? Number.NaN;
    // Reference page, one-rope failure; the survivor carries 1 − share.
    for (const [i, share] of map.shares.entries())
      expect((peak(i, 0) ?? Number.NaN) / even).toBeCloseTo((1 + share) / 1.5, 2);
  });

  it("is by the high end that checks are judged by, and says that a brake is only taken to hold", () => {
    const judged = letGoAt(plan, null, "main-a");
    expect(map.here.tipN?.high).toBe(judged.figures?.tipN.high);
    expect(map.slipUnknown).toEqual(["main-b"]);
    expect(shareSlackMap(plumbPlan({ slipN: 8000 }), null)?.slipUnknown).toEqual([]);
    // With slack the stiffest is the hardest, here and in the fine pass.
    const slack = letGoAt(plumbPlan({ share: 1 }), null, "main-a", { slackM: { "main-b": 0.4 } });
    expect((peak(5, 2) ?? 0) / (slack.figures?.tipN.high ?? 1)).toBeCloseTo(1, 1);
    expect(peak(5, 2)).toBeGreaterThan(1.1 * (slack.figures?.tipN.entered ?? 0));
  });

  it("marks where the load comes down first, which a lower force does not tell", () => {
    expect(map.cells.flat().some((cell) => cell.lands)).toBe(false);
    const { load } = plan.rig;
    // Its foot 0.3 m above the ground: 1 m of slack is not run in.
    const [x, y] = load.positionM;
    const footM = load.bridle.heightM + load.box.heightM;
    const low = {
      ...plan,
      rig: { ...plan.rig, load: { ...load, positionM: [x, y, 0.3 + footM] as typeof load.positionM } },
    };
    const found = shareSlackMap(low, null);
    expect(found?.cells.map((row) => row.at(-1)?.lands)).toEqual(map.shares.map(() => true));
    expect(found?.cells.at(-1)?.at(-1)).toMatchObject({ outcome: "falls", tipN: null });
  });

  it("has the plan's own figure on its own cell at rest, where sheaves may hold as after a lower", () => {
    const when = roomiestMoment(crossingExample);
    const found = shareSlackMap(crossingExample, when);
    const [own, cell] = [found?.here.tipN, found?.cells[0]?.[0]?.tipN];
    expect(found?.here.share).toBe(0.5);
    for (const end of ["low", "high"] as const)
      expect(Math.abs((own?.[end] ?? 0) / (cell?.[end] ?? Number.NaN) - 1)).toBeLessThan(0.01);
  });

  it("says of each cell that it is not known, and not that nothing holds, where a stiffness is not", () => {
    const found = shareSlackMap(withGear(plan, "rope-12", { dynamicStiffnessN: null }), null);
    expect(new Set(found?.cells.flat().map((cell) => cell.outcome))).toEqual(new Set(["unknown"]));
    expect(found?.here).toMatchObject({ outcome: "unknown", tipN: null, lands: false });
  });

  it("is of the moment with most room to fall, which is not that of the highest load over a wall", () => {
    for (const example of [crossingExample, roofExample]) {
      const room = (when: When) => roomBelowM(momentPlan(example, when));
      const when = roomiestMoment(example);
      expect(when && room(when)).toBe(Math.max(...letGoMoments(example).map(room)));
      const [task] = letGoTasks(example, []);
      expect(task).toEqual({ kind: "map", when });
    }
    // Above the wall, with any part of its box, it hangs less than 1 m over its top; beside it more than 7 m over the ground.
    const when = roomiestMoment(crossingExample);
    expect(when && letGoAt(crossingExample, when, "main-a").roomM).toBeGreaterThan(7);
    const [wall] = crossingExample.scene.structures;
    const west = Math.min(...(wall?.outline ?? []).map(([x]) => x));
    const { box, positionM } = momentPlan(crossingExample, when ?? { stage: 0, along: 0 }).rig.load;
    expect(wall?.name).toBe("Flood wall");
    expect(positionM[0] + Math.min(box.lengthM, box.widthM) / 2).toBeLessThan(west);
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
