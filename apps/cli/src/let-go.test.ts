import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { EXAMPLES, LET_GO_LIMITS, type Plan, writePlanText } from "@gantline/plan";
import { afterAll, describe, expect, it } from "vitest";
import { runGantline } from "./run-gantline.ts";

const folder = mkdtempSync(join(tmpdir(), "gantline-"));
afterAll(() => rmSync(folder, { recursive: true }));

const crossing = EXAMPLES.find((e) => e.key === "crossing")?.plan as Plan;
/** Its first stages, with a brake whose slip is known: quick, and with nothing unknown. */
const known: Plan = {
  ...crossing,
  evolution: { ...crossing.evolution, stages: crossing.evolution.stages.slice(0, 2) },
  gear: crossing.gear.map((g) => (g.kind === "brake" ? { ...g, slipN: 8000 } : g)),
};
/** With brakes that hold only while a hand is on them. */
const handsOn: Plan = {
  ...known,
  gear: known.gear.map((g) => (g.kind === "brake" ? { ...g, holdsHandsOff: false } : g)),
};
const unknown: Plan = { ...known, gear: crossing.gear };

/** Told once, looked at by several tests. */
const told = new Map<string, ReturnType<typeof runGantline>>();

const letGo = (plan: Plan, ...options: readonly string[]) => {
  const text = writePlanText(plan);
  const key = JSON.stringify([options, text]);
  const run = told.get(key) ?? afresh(text, options);
  told.set(key, run);
  return run;
};

const afresh = (text: string, options: readonly string[]) => {
  const path = join(folder, `plan-${told.size}.json`);
  writeFileSync(path, text);
  return runGantline(["let-go", path, ...options]);
};

describe("gantline let-go", () => {
  it("says 0 where every check is within or close, 1 where a brake's slip is not known", async () => {
    expect((await letGo(known, "--units", "imperial")).exitStatus).toBe(0);
    const { exitStatus, output } = await letGo(unknown);
    expect(exitStatus).toBe(1);
    expect(output).toMatch(/^unknown .*slip force of the brake/m);
  });

  it("prints lines, checks and critical points, worst first, with what the model does not have beside them", async () => {
    const { output = "" } = await letGo(known, "--units", "imperial");
    expect(output).toMatch(/^Main A gone \(stage 2, /m);
    expect(output).toMatch(/^falls, one on any such rig: Nothing: it lies on what is below already/m);
    expect(output).not.toContain("shared by both ropes");
    expect(output.indexOf("falls, one")).toBeLessThan(output.indexOf("held: "));
    for (const limit of LET_GO_LIMITS) expect(output).toContain(limit);
    expect(output).toMatch(/\d\u202flbf/);
    expect(output.toLowerCase()).not.toMatch(/\bsafe\b|nan|infinity/);
  });

  it("says 1 where both ropes hang on one anchor, or everyone's letting go drops the load", async () => {
    const anchorage = { on: "vehicle" as const, anchorId: "right-low-2" };
    const mainLines = known.rig.mainLines.map((l) => ({ ...l, brake: { ...l.brake, anchorage } }));
    const shared = await letGo({ ...known, rig: { ...known.rig, mainLines } });
    expect(shared.exitStatus).toBe(1);
    expect(shared.output).toMatch(/^over .*shared, and gone/m);
    expect(shared.output).toMatch(/^falls, shared by both ropes: /m);
    const open = await letGo(handsOn);
    expect(open.exitStatus).toBe(1);
    expect(open.output).toMatch(/^over .*Everyone lets go at once/m);
  });

  it("prints all of it as JSON, at the moment asked for", async () => {
    const { output = "" } = await letGo(known, "--json", "--stage", "2", "--along", "0");
    const report = JSON.parse(output);
    expect(report).toMatchObject({
      ok: true,
      ready: true,
      tip: "stiff",
      moment: { stage: 1, along: 0 },
      limits: LET_GO_LIMITS,
    });
    expect(report.exampleData).toMatch(/^Example data, invented/);
    expect(report.worst.length).toBeGreaterThan(1);
    expect(report.criticalPoints.length).toBeGreaterThan(30);
    expect(report.techniques).toHaveLength(10);
    expect(report.map.cells).toHaveLength(report.map.shares.length);
  });

  it("tells of rope that runs through a brake: over beyond what is allowed, and not held where it lets the load down", async () => {
    const slipping = (slipN: number): Plan => ({
      ...crossing,
      gear: crossing.gear.map((g) => (g.kind === "brake" ? { ...g, slipN } : g)),
    });
    const at = ["--line", "main-a", "--stage", "4", "--along", "0"] as const;
    const runs = await letGo(slipping(1000), ...at);
    expect(runs.exitStatus).toBe(1);
    expect(runs.output).toMatch(/^ {4}Main B .*\d\.\d\d\u202fm through its brake/m);
    expect(runs.output).toMatch(/^over .*rope through the brake of Main B/m);
    const down = await letGo(slipping(980), ...at);
    expect(down.exitStatus).toBe(1);
    expect(down.output).toMatch(/^Main A gone .*Main B does not hold: its brake lets \d\.\d\d\u202fm of rope through/m);
    expect(JSON.parse((await letGo(slipping(980), ...at, "--json")).output ?? "")).toMatchObject({
      outcome: "falls",
      fall: { onto: "what is below" },
      ledger: [{ id: "let-go/holds/main-a", status: "over" }],
    });
  });

  it("prints the techniques as CSV", async () => {
    const { exitStatus, output = "" } = await letGo(unknown, "--csv");
    expect(exitStatus).toBe(0);
    const rows = output.trimEnd().split("\r\n");
    expect(rows).toHaveLength(12);
    expect(rows[0]).toMatch(/^technique,attendant,tip_compression \[N\],/);
  });

  it("prints techniques and the map too, and everyone at once as no part that both ropes share", async () => {
    const { output = "" } = await letGo(handsOn);
    expect(output).toMatch(/^Force at the tip when Main A goes/m);
    expect(output).toMatch(/^This plan, 50 % and no slack: at most [\d.]+\u202fkN \([\d.]+\u202fkN to /m);
    expect(output.match(/with attendant$/gm)).toHaveLength(5);
    expect(output).toMatch(/^falls: .*\n {4}.*Everyone lets go at once/m);
    expect(output).not.toMatch(/shared by both ropes: .*\n {4}.*Everyone lets go/);
  });

  it("tells of one line at one moment, with its motion as JSON", async () => {
    const { exitStatus, output = "" } = await letGo(known, "--line", "main-a", "--stage", "2");
    expect(exitStatus).toBe(0);
    expect(output).toMatch(/^Main A gone \(stage 2, .*: .*Main B/m);
    expect(output).toMatch(/along the ladder, .* square to it/);
    expect(output).toMatch(/(at rest|still moving) after /);
    const json = JSON.parse((await letGo(known, "--line", "main-a", "--stage", "2", "--json")).output ?? "");
    expect(json).toMatchObject({ cut: ["main-a"], outcome: "held" });
    expect(json.undamped.timesS.length).toBeGreaterThan(50);
    expect(json.undamped.pointsN["tip-right"]).toHaveLength(json.undamped.timesS.length);
    const giving = JSON.parse(
      (await letGo(known, "--line", "main-a", "--stage", "2", "--tip-gives", "--json")).output ?? "",
    );
    expect(giving.figures.tipN.entered).not.toBe(json.figures.tipN.entered);
  });

  it("tells of a load that falls how far, how long and how fast, with its fall as JSON", async () => {
    const [first] = known.rig.mainLines;
    if (!first) throw new Error("no main line");
    const alone = {
      ...known,
      evolution: { ...known.evolution, stages: [] },
      rig: { ...known.rig, mainLines: [{ ...first, share: 1 }] },
    };
    const { output = "" } = await letGo(alone, "--line", "main-a");
    expect(output).toMatch(/Nothing: a person falls .*, hitting at .*\n {4}down after [\d.]+\u202fs/);
    const { fall, motion } = JSON.parse((await letGo(alone, "--line", "main-a", "--json")).output ?? "");
    // Any textbook: v = g t, h = v²/2g.
    expect(fall.speedMS).toBeCloseTo(9.80665 * fall.timeS, 9);
    expect(fall.heightM).toBeCloseTo(fall.speedMS ** 2 / (2 * 9.80665), 9);
    expect(motion.timesS.at(-1)).toBeCloseTo(fall.timeS, 9);
  });

  it("takes the tip to give in techniques too where it is asked to", async () => {
    const [stiff, gives] = await Promise.all([letGo(known, "--csv"), letGo(known, "--csv", "--tip-gives")]);
    expect(gives.exitStatus).toBe(0);
    const rows = ({ output = "" }: typeof stiff) => output.split("\r\n");
    expect(rows(gives)[0]).toBe(rows(stiff)[0]);
    // The fourth, the tackle, falls with either.
    for (const k of [1, 2, 3, 5]) expect(rows(gives)[k]).not.toBe(rows(stiff)[k]);
  });

  it("draws the techniques as one sheet", async () => {
    const { output = "" } = await letGo(known, "--svg", "--stage", "2");
    expect(output).toMatch(/^<svg /);
    expect(output).toContain("with attendant");
  });

  it("refuses what it cannot use in a plain sentence", async () => {
    for (const options of [
      ["--json", "--csv"],
      ["--stage", "9"],
      ["--along", "50"],
      ["--stage", "1", "--along", "120"],
      ["--units", "cubits"],
      ["--json", "--svg"],
      ["--line", "main-a"],
      ["--line", "no-such", "--stage", "1"],
    ])
      expect(await letGo(known, ...options)).toMatchObject({
        exitStatus: 2,
        complaint: expect.stringContaining("See: gantline let-go"),
      });
    expect((await runGantline(["let-go"])).exitStatus).toBe(2);
  });
});
