import { EXAMPLES, evaluate, evolve, momentPlan, type Plan } from "@gantline/plan";
import { describe, expect, it } from "vitest";
import { notFinite } from "../fuzz/not-finite.ts";
import { xmlFault } from "../fuzz/xml-fault.ts";
import { svgText } from "../svg-text.ts";
import { storyboard } from "./storyboard.ts";
import { storyboardSheet } from "./storyboard-sheet.ts";
import { storyboardWords } from "./storyboard-words.ts";

const example = (key: string): Plan => {
  const found = EXAMPLES.find((e) => e.key === key);
  if (!found) throw new Error(`no example ${key}`);
  return found.plan;
};
const crossing = example("crossing");
const boardOf = (plan: Plan) => storyboard(plan, evolve(plan), { system: "metric" });

describe("storyboard", () => {
  it("has a frame for each stage in order, all of one view to one scale", () => {
    const frames = boardOf(crossing);
    expect(frames.map((f) => f.title)).toEqual(crossing.evolution.stages.map((s) => s.name));
    expect(frames.map((f) => f.number)).toEqual([1, 2, 3, 4, 5, 6]);
    const sections = frames.filter((f) => f.drawing.id === "section");
    expect(new Set(sections.map((f) => JSON.stringify(f.drawing.bounds))).size).toBe(1);
    // Carried from west to east while the ladder points north: seen from above.
    expect(frames.map((f) => f.drawing.id)).toEqual(["section", "section", "section", "plan", "section", "section"]);
    expect(notFinite(frames, "frames")).toEqual([]);
  });

  // By hand from the example's inputs: casualty 90 kg, litter 16 kg, bridle and yoke 10 kg.
  it("tells what is aboard", () => {
    const aboard = boardOf(crossing).map((f) => f.facts[0]);
    expect(aboard).toEqual([
      "Nothing on the ropes",
      ...Array.from({ length: 4 }, () => "116\u202fkg aboard"),
      "Nothing on the ropes",
    ]);
    const parts = crossing.rig.load.parts.map((p) => ({ ...p, massKg: null }));
    const unknown = boardOf({ ...crossing, rig: { ...crossing.rig, load: { ...crossing.rig.load, parts } } });
    expect(unknown[2]?.facts).toEqual(expect.arrayContaining(["Mass aboard unknown", "Force at the tip unknown"]));
    expect(unknown[2]?.status).toBe("unknown");
  });

  it("gives as a stage's numbers no less than any of its moments, each evaluated alone, shows", () => {
    const figure = (text: string | undefined): number =>
      Number.parseFloat(/(\d+\.\d+)\s(?:kN|m)$/.exec(text ?? "")?.[1] ?? "");
    for (const [stage, frame] of boardOf(crossing).entries()) {
      if (crossing.evolution.stages[stage]?.aboard.length === 0) continue;
      const tip = figure(frame.facts.find((f) => f.startsWith("Tip at most")));
      const near = figure(frame.facts.at(-1));
      for (const along of [0, 0.25, 0.5, 0.75, 1]) {
        const { felt, cases, clearances } = evaluate(momentPlan(crossing, { stage, along }));
        for (const c of cases) expect(tip).toBeGreaterThanOrEqual((felt[c]?.inBeam.resultantN ?? 0) / 1000 - 0.006);
        for (const c of clearances) expect(near).toBeLessThanOrEqual(c.distanceM + 0.006);
      }
    }
  });

  it("says in words alone what it says beside its pictures", () => {
    for (const { plan } of EXAMPLES) {
      const evolution = evolve(plan);
      const alone = storyboardWords(plan, evolution, { system: "imperial" });
      const pictured = storyboard(plan, evolution, { system: "imperial" }).map(({ drawing: _, ...words }) => words);
      expect(pictured).toEqual(alone);
    }
  });

  it("says what is wrong with a stage that cannot be carried out as written, before any check", () => {
    const frames = boardOf(example("fault"));
    expect(frames[3]?.status).toBe("over");
    expect(frames[3]?.worstText).toContain("while the ladder moves");
  });

  it("shows each frame at the stage's worst moment", () => {
    const evolution = evolve(crossing);
    for (const [i, frame] of boardOf(crossing).entries()) {
      const [first, last] = evolution.stages[i]?.moments ?? [0, 0];
      const ratios = evolution.moments.slice(first, last + 1).flatMap((m) => m.worst.ratio ?? []);
      const shown = evolution.moments.find((m) => m.when.stage === i && m.when.along === frame.when.along);
      expect(shown?.worst.ratio).toBe(Math.max(...ratios));
    }
  });
});

describe("storyboard sheet", () => {
  it.each(EXAMPLES.map((e) => [e.key, e.plan] as const))("of %s is well-formed, and as wide as asked", (_, plan) => {
    const evolution = evolve(plan);
    for (const [widthPx, theme] of [
      [420, "day"],
      [1240, "night"],
    ] as const) {
      const sheet = storyboardSheet(plan, evolution, {
        widthPx,
        system: "imperial",
        theme,
        captions: ["Caution & care"],
      });
      const text = svgText(sheet);
      expect(xmlFault(text)).toBeNull();
      expect(text).not.toMatch(/NaN|Infinity|undefined|null/);
      expect(sheet.attrs.width).toBe(widthPx);
      const placed = sheet.children.filter((c) => c.tag === "svg");
      expect(placed).toHaveLength(plan.evolution.stages.length + 1);
      for (const { attrs } of placed) {
        expect(Number(attrs.x) + Number(attrs.width)).toBeLessThanOrEqual(widthPx);
        expect(Number(attrs.y) + Number(attrs.height)).toBeLessThanOrEqual(Number(sheet.attrs.height));
      }
      placed.forEach(({ attrs: a }, i) => {
        for (const { attrs: b } of placed.slice(i + 1)) {
          const apart =
            Number(a.x) + Number(a.width) <= Number(b.x) + 0.1 ||
            Number(b.x) + Number(b.width) <= Number(a.x) + 0.1 ||
            Number(a.y) + Number(a.height) <= Number(b.y) + 0.1;
          expect(apart).toBe(true);
        }
      });
    }
  });

  it("of a plan without stages is a sheet all the same", () => {
    const plan: Plan = { ...crossing, evolution: { ...crossing.evolution, stages: [] } };
    const text = svgText(storyboardSheet(plan, evolve(plan), { widthPx: 800, system: "metric" }));
    expect(xmlFault(text)).toBeNull();
    expect(text).not.toMatch(/NaN|Infinity|undefined|null/);
  });
});
