import { spawn, spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { readNetworks } from "@gantline/engine";
import {
  CAUTION,
  EXAMPLES,
  evaluate,
  evaluateAt,
  evolve,
  type Plan,
  planJsonSchema,
  readPlanText,
  writeAmount,
  writePlanText,
} from "@gantline/plan";
import { afterAll, describe, expect, it } from "vitest";
import { networkJsonSchema } from "./network-json-schema.ts";

/** The command as people start it: the built bundle, in a process of its own. */
const BIN = fileURLToPath(new URL("../bin/gantline.mjs", import.meta.url));
const gantline = (args: readonly string[], input = "") => {
  const { status, stdout, stderr } = spawnSync(process.execPath, [BIN, ...args], {
    input,
    encoding: "utf8",
    maxBuffer: 1 << 28,
  });
  return { status, stdout, stderr };
};

const folder = mkdtempSync(join(tmpdir(), "gantline-"));
afterAll(() => rmSync(folder, { recursive: true }));
const fileOf = (name: string, text: string): string => {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
};

const [crossing] = EXAMPLES.map((e) => e.plan);
if (!crossing) throw new Error("no example");

/** The same plan, taken to be real: no longer held back by its own example marks. */
const asReal = (plan: Plan): Plan => ({
  ...plan,
  example: false,
  scene: { ...plan.scene, example: false },
  aerial: { ...plan.aerial, device: { ...plan.aerial.device, example: false } },
  gear: plan.gear.map((g) => ({ ...g, example: false })),
});

/** 100 kg on one rope: 980.665 N (g = 9.80665 m/s², CGPM 1901). */
const HANGING = {
  nodes: { load: { position: [0, 0, 5], free: true, massKg: 100 }, anchor: { position: [0, 0, 10] } },
  lines: { rope: { through: ["load", "anchor"], lengthM: 4, axialStiffnessN: 50_000 } },
};
const FALLING = { nodes: HANGING.nodes, lines: {} };

describe("gantline solve", () => {
  it("answers a network with a network, from a file and from standard input", () => {
    for (const got of [
      gantline(["solve", fileOf("one.json", JSON.stringify(HANGING))]),
      gantline(["solve", "-"], JSON.stringify(HANGING)),
    ]) {
      expect(got.status).toBe(0);
      expect(got.stderr).toBe("");
      const answer = JSON.parse(got.stdout);
      expect(answer.ok).toBe(true);
      expect(answer.lines.rope.slack).toBe(false);
      expect(answer.lines.rope.tensionsN[0]).toBeCloseTo(980.665, 6);
      // Hooke: 4 m × 980.665 / 50,000 of stretch.
      expect(answer.nodes.load.position[2]).toBeCloseTo(10 - 4 * (1 + 980.665 / 50_000), 9);
      expect(answer.forcesOnFixedN.anchor[2]).toBeCloseTo(-980.665, 6);
      expect(answer.residualN).toBeLessThan(1e-6 * 980.665);
    }
  });
  it("answers a list with a list in order, and says 1 where one has no answer", () => {
    const heavier = { ...HANGING, nodes: { ...HANGING.nodes, load: { ...HANGING.nodes.load, massKg: 200 } } };
    const got = gantline(["solve", "-"], JSON.stringify([HANGING, FALLING, heavier]));
    expect(got.status).toBe(1);
    const answers = JSON.parse(got.stdout);
    expect(answers.map((a: { ok: boolean }) => a.ok)).toEqual([true, false, true]);
    expect(answers[1]).toMatchObject({ code: "nothing-holds", where: "load", hint: expect.stringMatching(/\w/) });
    expect(answers[2].lines.rope.tensionsN[0]).toBeCloseTo(2 * 980.665, 6);
    expect(gantline(["solve", "-"], "[]")).toMatchObject({ status: 0, stdout: "[]\n" });
  });
  it("names the field of what it cannot read, and says 2", () => {
    const bad = JSON.stringify([
      HANGING,
      { ...HANGING, nodes: { ...HANGING.nodes, load: { position: [0, 0], massKg: "heavy" } } },
    ]);
    for (const args of [
      ["solve", "-"],
      ["solve", "-", "--json"],
    ]) {
      const got = gantline(args, bad);
      expect(got.status).toBe(2);
      expect(got.stderr).toContain("[1].nodes.load.position: got a list of 2");
      expect(got.stderr).toContain('[1].nodes.load.massKg: got "heavy"');
      const refusal = JSON.parse(got.stdout);
      expect(refusal).toMatchObject({ ok: false, code: "bad-input", where: "[1].nodes.load.position" });
      expect(refusal.hint).toContain("got a list of 2");
      expect(refusal.problems.map((p: { path: string }) => p.path)).toContain("[1].nodes.load.massKg");
    }
    for (const text of ["", "{", "[".repeat(20_000), "null", "7", '"text"']) {
      const got = gantline(["solve", "-"], text);
      expect(got.status).toBe(2);
      expect(got.stderr).toMatch(/^\(whole input\): got .+, expected .+\.\n$/);
      expect(JSON.parse(got.stdout)).toMatchObject({
        ok: false,
        code: "bad-input",
        where: "(whole input)",
        hint: expect.stringMatching(/\w/),
      });
    }
    const missing = gantline(["solve", join(folder, "none.json")]);
    expect(missing.status).toBe(2);
    expect(JSON.parse(missing.stdout)).toMatchObject({
      ok: false,
      code: "bad-input",
      where: "(whole input)",
      hint: expect.stringContaining("there is no such file"),
    });
  });
  it("takes no rope and no node for another of the same name", () => {
    const twice = JSON.stringify(HANGING).replace(
      '"rope":',
      '"rope":{"through":["load","anchor"],"tensionN":9},"rope":',
    );
    const got = gantline(["solve", "-"], `[${twice}]`);
    expect(got.status).toBe(2);
    expect(JSON.parse(got.stdout)).toMatchObject({ ok: false, code: "bad-input", where: "[0].lines.rope" });
    expect(got.stderr).toBe("[0].lines.rope: got the same name more than once, expected each name once.\n");
  });
});

describe("gantline check", () => {
  it("says 0 where all that counts is within or close, 1 where something is over or unknown", () => {
    const real = asReal(crossing);
    const stormy = { ...real, scene: { ...real.scene, wind: { ...real.scene.wind, gustMS: 25 } } };
    const unmeasured = { ...real, scene: { ...real.scene, wind: { ...real.scene.wind, gustMS: null } } };
    expect(gantline(["check", "-"], writePlanText(real))).toMatchObject({ status: 0, stderr: "" });
    const over = gantline(["check", "-"], writePlanText(stormy));
    expect(over.status).toBe(1);
    expect(over.stdout).toMatch(/^over .*Wind /m);
    const unknown = gantline(["check", "-"], writePlanText(unmeasured));
    expect(unknown.status).toBe(1);
    expect(unknown.stdout).toMatch(/^unknown .*Wind .*not measured/m);
    expect(gantline(["check", "-"], writePlanText(crossing)).status).toBe(1);
  });
  it("prints to JSON just what the app works out, to the last digit", () => {
    for (const { key, plan } of EXAMPLES) {
      const got = gantline(["check", "-", "--json"], gantline(["example", key]).stdout);
      const { geometry: _drawn, ...worked } = evaluate(plan);
      const report = JSON.parse(got.stdout);
      expect(report).toMatchObject(JSON.parse(JSON.stringify(worked)));
      expect(report.ledger).toHaveLength(worked.ledger.length);
      expect(report.ready).toBe(got.status === 0);
    }
  });
  it("prints the head, then the ledger worst first, in the units asked for", () => {
    const metric = gantline(["check", "-"], writePlanText(crossing)).stdout;
    const imperial = gantline(["check", "-", "--units", "imperial"], writePlanText(crossing)).stdout;
    const why = gantline(["check", "-", "--why"], writePlanText(crossing)).stdout;
    expect(metric.split("\n")[0]).toBe(crossing.name);
    for (const text of [metric, imperial, why]) {
      expect(text).toContain("Example data, invented:");
      expect(text).toContain("A planning aid.");
      expect(text.toLowerCase()).not.toContain("safe");
    }
    expect(metric).toMatch(/\d\u202fkN /);
    expect(imperial).toMatch(/\d\u202flbf /);
    expect(imperial).not.toMatch(/\d\u202fkN/);
    expect(why).toContain(
      `R rated = ${writeAmount({ value: evaluate(crossing).ratedTipLoadN ?? Number.NaN, quantity: "force" }, "metric")}: `,
    );
    expect(why.length).toBeGreaterThan(2 * metric.length);
    const rank = ["over", "unknown", "close", "within"];
    const rowsOf = (text: string): readonly string[] =>
      text
        .slice(0, text.indexOf("Shown beside"))
        .split("\n")
        .flatMap((line) => /^(over|unknown|close|within) /.exec(line)?.[1] ?? []);
    const [moments = "", position = ""] = metric.split("Beside it the one position");
    for (const [text, { ledger }] of [
      [moments, evolve(crossing)],
      [position, evaluate(crossing)],
    ] as const) {
      const rows = rowsOf(text);
      expect(rows.length).toBe(ledger.filter((c) => c.counts).length);
      expect(rows).toEqual([...rows].sort((a, b) => rank.indexOf(a) - rank.indexOf(b)));
    }
  });
  it("lists what is wrong with a plan, and says 2", () => {
    const bad = JSON.stringify({
      ...crossing,
      aerial: { ...crossing.aerial, pose: { bearingRad: 0, elevationRad: "70", lengthM: 24 } },
      extra: 1,
    });
    const got = gantline(["check", "-"], bad);
    expect(got).toMatchObject({ status: 2, stdout: "" });
    expect(got.stderr).toContain('aerial.pose.elevationRad: got "70", expected a finite number (rad).');
    expect(got.stderr).toContain("extra: got 1, expected no field of this name.");
    const newer = gantline(["check", "-", "--json"], JSON.stringify({ ...crossing, formatVersion: 99 }));
    expect(newer.status).toBe(2);
    expect(JSON.parse(newer.stdout).problems[0].path).toBe("formatVersion");
  });
  it("keeps what a file brings along from upsetting the terminal", () => {
    const got = gantline(["check", "-"], writePlanText({ ...crossing, name: "one\u001b[2J\ntwo" }));
    expect(got.stdout).not.toContain("\u001b");
    expect(got.stdout.split("\n")[0]).toBe("one [2J two");
  });
});

describe("gantline evolve", () => {
  const faulty = EXAMPLES.find((e) => e.key === "fault")?.plan as Plan;
  const stageless: Plan = { ...asReal(crossing), evolution: { ...crossing.evolution, stages: [] } };
  /** One record of RFC 4180, quotes taken off. */
  const cellsOf = (row: string): string[] =>
    [...`${row},`.matchAll(/("(?:[^"]|"")*"|[^,"]*),/g)].map((m) =>
      (m[1] ?? "").replace(/^"|"$/g, "").replaceAll('""', '"'),
    );

  it("says 0 where all is within or close at every moment, 1 where something is over or unknown or has no stages", () => {
    expect(gantline(["evolve", "-"], writePlanText(asReal(crossing)))).toMatchObject({ status: 0, stderr: "" });
    expect(gantline(["evolve", "-"], writePlanText(crossing)).status).toBe(1);
    const fault = gantline(["evolve", "-"], writePlanText(asReal(faulty)));
    expect(fault.status).toBe(1);
    expect(fault.stdout).toContain("A person is on the ropes while the ladder moves.");
    expect(fault.stdout).toMatch(/^over .*Stage 4/m);
    expect(fault.stdout).toMatch(/^ 4\. .*; worst over —, Stage 4, /m);
    const none = gantline(["evolve", "-"], writePlanText(stageless));
    expect(none.status).toBe(1);
    expect(none.stdout).toContain("This plan has no stages.");
  });
  it("prints each stage, then the worst checks with their moments, in the units asked for", () => {
    const { stdout } = gantline(["evolve", "-"], writePlanText(crossing));
    expect(stdout.split("\n")[0]).toBe(crossing.name);
    expect(stdout).toContain("Example data, invented:");
    for (const [i, { name }] of crossing.evolution.stages.entries())
      expect(stdout).toMatch(
        new RegExp(`^ *${i + 1}\\. ${name}: .*worst (within|close) .*stage ${i + 1}, \\d+\u202f% along`, "m"),
      );
    const worst = evolve(crossing).ledger.find((c) => c.rule === "off-plane");
    const { stage, along } = worst?.when ?? { stage: -1, along: -1 };
    expect(stdout).toMatch(
      new RegExp(`^close .*\\(stage ${stage + 1}, ${Math.round(along * 100)}\u202f% along\\): `, "m"),
    );
    expect(stdout.slice(stdout.indexOf("Worst of all")).match(/^(over|unknown|close|within) /gm)).toHaveLength(20);
    expect(stdout.toLowerCase()).not.toMatch(/safe|nan/);
    const imperial = gantline(["evolve", "-", "--units", "imperial"], writePlanText(crossing)).stdout;
    expect(imperial).toMatch(/\d\u202fft/);
    expect(imperial).not.toMatch(/\d\u202fm\b/);
  });
  it("calls a stage whose load has an unknown mass unknown, not over", () => {
    const parts = crossing.rig.load.parts.map((p) => ({ ...p, massKg: p.id === "casualty" ? null : p.massKg }));
    const plan: Plan = { ...crossing, rig: { ...crossing.rig, load: { ...crossing.rig.load, parts } } };
    const { stdout, status } = gantline(["evolve", "-"], writePlanText(plan));
    expect(status).toBe(1);
    expect(stdout).toMatch(/^ +unknown: The mass of Casualty is not known/m);
  });
  it("prints to JSON and to CSV just what is worked out, to the last digit", () => {
    for (const plan of [crossing, faulty]) {
      const evolution = evolve(plan);
      const report = JSON.parse(gantline(["evolve", "-", "--json"], writePlanText(plan)).stdout);
      expect(report).toMatchObject(JSON.parse(JSON.stringify(evolution)));
      expect(report.caution).toBe(CAUTION);
      expect(report.exampleData).toMatch(/^Example data, invented: the plan, /);
      const rows = gantline(["evolve", "-", "--csv"], writePlanText(plan)).stdout.trimEnd().split("\r\n").map(cellsOf);
      const head = rows[0] ?? [];
      expect(rows).toHaveLength(1 + evolution.moments.length);
      for (const row of rows) expect(row).toHaveLength(head.length);
      const column = (name: string): number => {
        expect(head).toContain(name);
        return head.indexOf(name);
      };
      const [holds, wanted, problems] = [column("holds"), column("wanted_z_m"), column("problems")];
      const tension = column("tension/main-a [N]");
      const height = column("yoke_z_m");
      const clear = column("clearance/load/load/flood-wall [m]");
      const series = new Map(evolution.series.map((s) => [s.id, s.values]));
      for (const [i, moment] of evolution.moments.entries()) {
        const row = rows[i + 1] ?? [];
        expect(Number(row[height])).toBe(moment.yoke[2]);
        expect(Number(row[wanted])).toBe(moment.wanted[2]);
        expect(row[holds]).toBe(moment.holds);
        expect(row[column("status")]).toBe(moment.worst.status);
        expect(row[problems]?.includes("A person is on the ropes") ?? false).toBe(
          plan === faulty && moment.when.stage === 3,
        );
        for (const [at, id] of [
          [tension, "tension/main-a"],
          [clear, "clearance/load/load/flood-wall"],
        ] as const) {
          const value = series.get(id)?.[i] ?? null;
          expect(row[at]).toBe(value === null ? "" : String(value));
        }
      }
    }
  });
  it("keeps a stage's name from upsetting a spreadsheet", () => {
    const [first, ...rest] = crossing.evolution.stages;
    const stages = [{ ...first, name: '=SUM(1,"2")' }, ...rest] as typeof crossing.evolution.stages;
    const { stdout } = gantline(
      ["evolve", "-", "--csv"],
      writePlanText({ ...crossing, evolution: { ...crossing.evolution, stages } }),
    );
    expect(stdout.split("\r\n")[1]).toMatch(/^1,"'=SUM\(1,""2""\)",0,/);
  });
  it("says 2 where it cannot be done", () => {
    for (const args of [["evolve"], ["evolve", "-", "--json", "--csv"], ["evolve", "-", "--units", "cubits"]])
      expect(gantline(args, writePlanText(crossing))).toMatchObject({ status: 2, stdout: "" });
    expect(gantline(["evolve", "-"], "{}")).toMatchObject({ status: 2, stdout: "" });
  });
  it("has check count the worst of all moments of a plan with stages first, and say that the one position is no moment", () => {
    const { stdout, status } = gantline(["check", "-"], writePlanText(asReal(faulty)));
    expect(status).toBe(1);
    const [first = "", second = ""] = stdout.split(
      /^Beside it the one position that the rig names, no moment of the evolution: /m,
    );
    expect(first).toMatch(/^Worst of all moments of the evolution: 2 over, /m);
    expect(first).toMatch(/\n\nover .*\(stage 4, 0\u202f% along\) .*A person is on the ropes/);
    expect(first).not.toContain("0 over");
    expect(second).toMatch(/^0 over, /);
    const without = gantline(["check", "-"], writePlanText(stageless));
    expect(without.stdout).not.toMatch(/moments|position that the rig/);
    expect(without.stdout).toMatch(/^Checks: 0 over, 0 unknown, /m);
    expect(without.status).toBe(0);
  });
});

describe("gantline draw", () => {
  it("draws both views as SVG, to a file and to standard output", () => {
    const plan = fileOf("plan.json", writePlanText(crossing));
    const section = gantline(["draw", plan]);
    expect(section).toMatchObject({ status: 0, stderr: "" });
    expect(section.stdout).toMatch(/^<svg [\s\S]*<\/svg>\s*$/);
    expect(section.stdout).toContain("Example data, invented:");
    expect(section.stdout).toContain("planning aid");
    const out = join(folder, "plan.svg");
    expect(gantline(["draw", plan, "--view", "plan", "--out", out, "--width", "800", "--height", "600"])).toEqual({
      status: 0,
      stdout: "",
      stderr: "",
    });
    const drawn = readFileSync(out, "utf8");
    expect(drawn).toContain('width="800" height="600"');
    expect(drawn).not.toContain("NaN");
    expect(gantline(["draw", plan, "--night"]).stdout).not.toBe(section.stdout);
    expect(gantline(["draw", plan, "--units", "imperial"]).stdout).toContain("\u202fft");
  });
  it("draws the storyboard of a plan with stages, marked as the other drawings are", () => {
    const plan = fileOf("plan.json", writePlanText(crossing));
    const got = gantline(["draw", plan, "--view", "storyboard", "--width", "900"]);
    expect(got).toMatchObject({ status: 0, stderr: "" });
    expect(got.stdout).toMatch(/^<svg [^>]*width="900"[\s\S]*<\/svg>\s*$/);
    // One picture a stage, and the curve under them.
    expect(got.stdout.match(/<svg /g)).toHaveLength(1 + crossing.evolution.stages.length + 1);
    for (const [i] of crossing.evolution.stages.entries()) expect(got.stdout).toContain(`>${i + 1}  `);
    expect(got.stdout).toContain("Example data, invented: the plan");
    expect(got.stdout).toContain("A planning aid. The maker's manual");
    expect(got.stdout).not.toMatch(/NaN|undefined/);
    const real = gantline(["draw", "-", "--view", "storyboard"], writePlanText(asReal(crossing)));
    expect(real.stdout).toContain("A planning aid.");
    expect(real.stdout).not.toContain("Example data");
    const stageless = { ...crossing, evolution: { ...crossing.evolution, stages: [] } };
    expect(gantline(["draw", "-", "--view", "storyboard"], writePlanText(stageless))).toEqual({
      status: 2,
      stdout: "",
      stderr: "This plan has no stages: there is no storyboard to draw.\n",
    });
  });
  it("draws one moment of the stages, and the space that load and ropes take up", () => {
    const plan = fileOf("plan.json", writePlanText(crossing));
    const when = { stage: 3, along: 0.25 };
    for (const view of ["section", "plan"]) {
      const at = gantline(["draw", plan, "--view", view, "--stage", "4", "--along", "25"]);
      expect(at).toMatchObject({ status: 0, stderr: "" });
      expect(at.stdout).toContain("stage 4, 25\u202f% along: Across, from crew to crew");
      const pull = evaluateAt(crossing, when).lines.find((l) => l.id === "tag-west")?.tensionsN.raise[0] ?? Number.NaN;
      expect(at.stdout).toContain(writeAmount({ value: pull, quantity: "force" }, "metric"));
      expect(at.stdout).not.toContain("Swept by");
      const swept = gantline(["draw", plan, "--view", view, "--stage", "4", "--along", "25", "--swept"]).stdout;
      expect(swept).toContain("Swept by the load");
      // Over all stages more is swept than in one.
      const all = gantline(["draw", plan, "--view", view, "--swept"]).stdout;
      const sweptBy = (svg: string) => [...svg.matchAll(/Swept by ([^<]*)</g)].map((m) => m[1]);
      expect(sweptBy(all)).toEqual(sweptBy(swept));
      expect(all.length - gantline(["draw", plan, "--view", view]).stdout.length).toBeGreaterThan(
        swept.length - at.stdout.length,
      );
    }
    // Unsaid, half way along.
    expect(gantline(["draw", plan, "--stage", "4"]).stdout).toBe(
      gantline(["draw", plan, "--stage", "4", "--along", "50"]).stdout,
    );
    expect(JSON.parse(gantline(["draw", plan, "--json", "--stage", "4", "--along", "25"]).stdout).moment).toEqual(when);
    const stageless = { ...crossing, evolution: { ...crossing.evolution, stages: [] } };
    expect(gantline(["draw", "-", "--swept"], writePlanText(stageless))).toEqual({
      status: 2,
      stdout: "",
      stderr: "This plan has no stages: there is no swept space to draw.\n",
    });
  });
  it("puts the drawing into JSON where it is asked to, or says which file it is in", () => {
    const plan = fileOf("plan.json", writePlanText(crossing));
    const { stdout: svg } = gantline(["draw", plan, "--view", "plan"]);
    const report = JSON.parse(gantline(["draw", plan, "--view", "plan", "--json"]).stdout);
    expect(report).toMatchObject({ ok: true, plan: crossing.name, caution: CAUTION, view: "plan", svg });
    const out = join(folder, "section.svg");
    const written = gantline(["draw", plan, "--json", "--out", out]);
    expect(written).toMatchObject({ status: 0, stderr: "" });
    expect(JSON.parse(written.stdout)).toMatchObject({ ok: true, view: "section", file: out });
    expect(readFileSync(out, "utf8")).toBe(gantline(["draw", plan]).stdout);

    const stageless = writePlanText({ ...crossing, evolution: { ...crossing.evolution, stages: [] } });
    const refusals: readonly [string[], string, string][] = [
      [["draw", "-", "--json", "--view", "storyboard"], "no-stages", "evolution.stages"],
      [
        ["draw", "-", "--json", "--out", join(folder, "no", "where.svg")],
        "not-written",
        join(folder, "no", "where.svg"),
      ],
    ];
    for (const [args, code, where] of refusals) {
      const got = gantline(args, stageless);
      expect(got.status).toBe(2);
      const { hint, ...refusal } = JSON.parse(got.stdout);
      expect(refusal).toEqual({ ok: false, code, where });
      expect(got.stderr).toBe(`${hint}\n`);
    }
    expect(JSON.parse(gantline(["draw", "-", "--json"], "{}").stdout)).toMatchObject({ ok: false, code: "bad-input" });
  });
  it("says 2 in a plain sentence", () => {
    const plan = fileOf("plan.json", writePlanText(crossing));
    for (const args of [
      ["--view", "side"],
      ["--view", "storyboard", "--height", "900"],
      ["--view", "storyboard", "--stage", "2"],
      ["--view", "storyboard", "--swept"],
      ["--stage", "0"],
      ["--stage", "7"],
      ["--stage", "two"],
      ["--stage", "2", "--along", "101"],
      ["--along", "50"],
      ["--width", "0"],
      ["--height", "1e9"],
      ["--units", "cubits"],
      ["--out", join(folder, "no", "where.svg")],
    ]) {
      const got = gantline(["draw", plan, ...args]);
      expect(got).toMatchObject({ status: 2, stdout: "" });
      expect(got.stderr).toMatch(/^\S.*\.\n/);
      expect(got.stderr).not.toMatch(/\n\s+at /);
    }
  });
});

describe("gantline example and schema", () => {
  it("lists the examples and prints one as a file that opens", () => {
    const listed = gantline(["example"]).stdout;
    for (const { key, plan } of EXAMPLES) {
      expect(listed).toContain(key);
      const read = readPlanText(gantline(["example", key]).stdout);
      expect(read.ok && read.plan).toEqual(plan);
    }
    expect(gantline(["example", "none-such"])).toMatchObject({ status: 2, stdout: "" });
  });
  it("takes --json, as every command does", () => {
    expect(JSON.parse(gantline(["example", "--json"]).stdout)).toEqual(
      EXAMPLES.map(({ key, title }) => ({ key, title, example: true })),
    );
    for (const args of [["example", "crossing"], ["schema"], ["schema", "--network"]])
      expect(gantline([...args, "--json"])).toEqual(gantline(args));
  });
  it("prints the schema of the plan, and of a network", () => {
    expect(JSON.parse(gantline(["schema"]).stdout)).toEqual(JSON.parse(JSON.stringify(planJsonSchema())));
    expect(JSON.parse(gantline(["schema", "--network"]).stdout)).toEqual(networkJsonSchema());
  });
});

describe("networkJsonSchema", () => {
  /** The reader lists the fields it knows when it meets one it does not. */
  const known = (path: string, input: unknown): string[] => {
    const read = readNetworks(input);
    const problem = read.ok ? undefined : read.problems.find((p) => p.path === path);
    return problem?.expected.replace("one of ", "").split(", ").sort() ?? [];
  };
  it("has the fields the reader knows, no more and no fewer", () => {
    const odd = {
      nodes: { a: { position: [0, 0, 0], odd: 1 } },
      lines: { l: { through: ["a", "a"], tensionN: 1, odd: 1 } },
      odd: 1,
    };
    // biome-ignore lint/suspicious/noExplicitAny: a schema is looked into by its own keys
    const { network } = networkJsonSchema().$defs as any;
    const fields = (of: { properties: object }) => Object.keys(of.properties).sort();
    expect(fields(network)).toEqual(known("odd", odd));
    expect(fields(network.properties.nodes.additionalProperties)).toEqual(known("nodes.a.odd", odd));
    expect(fields(network.properties.lines.additionalProperties)).toEqual(known("lines.l.odd", odd));
  });
});

describe("gantline", () => {
  it("cautions in the words the front page has", () => {
    const readme = readFileSync(fileURLToPath(new URL("../../../README.md", import.meta.url)), "utf8");
    expect(readme).toContain(`**${CAUTION}**`);
    expect(gantline(["--help"]).stdout).toContain(CAUTION);
  });
  it("helps, for each command too", () => {
    const help = gantline(["--help"]);
    expect(help).toMatchObject({ status: 0, stderr: "" });
    for (const name of ["solve", "check", "evolve", "draw", "example", "schema"]) {
      expect(help.stdout).toMatch(new RegExp(`^ {2}${name} `, "m"));
      expect(gantline([name, "--help"]).stdout).toMatch(new RegExp(`^gantline ${name}`));
    }
    expect(gantline(["--version"]).stdout).toMatch(/^\d+\.\d+\.\d+\n$/);
  });
  it("refuses what it does not know in a plain sentence", () => {
    for (const args of [
      [],
      ["lift"],
      ["--lift"],
      ["check"],
      ["check", "--lift"],
      ["solve", "a", "b"],
      ["check", "-", "--units"],
      ["check", join(folder, "none.json")],
      ["check", folder],
    ]) {
      const got = gantline(args);
      expect(got).toMatchObject({ status: 2, stdout: "" });
      expect(got.stderr).toMatch(/^\S/);
      expect(got.stderr).not.toMatch(/\n\s+at /);
    }
    const notText = join(folder, "bytes.json");
    writeFileSync(notText, Buffer.from([0x7b, 0xff, 0xfe, 0x7d]));
    expect(gantline(["check", notText]).stderr).toContain("not UTF-8 text");
    expect(gantline(["check", "-"], `\ufeff${writePlanText(crossing)}`).status).toBe(1);
  });
  it("ends quietly where the reader stops early", async () => {
    const child = spawn(process.execPath, [BIN, "solve", "-"]);
    let complaint = "";
    child.stderr.on("data", (part) => (complaint += part));
    child.stdin.end(JSON.stringify(Array.from({ length: 3000 }, () => HANGING)));
    child.stdout.once("data", () => child.stdout.destroy());
    const status = await new Promise((settle) => child.on("close", settle));
    expect({ status, complaint }).toEqual({ status: 0, complaint: "" });
  });
});
