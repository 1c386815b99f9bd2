import { EXAMPLES, evaluate, type Plan } from "@gantline/plan";
import { describe, expect, it } from "vitest";
import { drawPlan } from "./plan-view.ts";
import type { Primitive } from "./primitives.ts";

const found = EXAMPLES.find((e) => e.key === "crossing");
if (!found) throw new Error("no example");
const crossing: Plan = found.plan;
const draw = (plan: Plan) => drawPlan(plan, evaluate(plan), { system: "metric" });
const dimensions = (primitives: readonly Primitive[]) => primitives.flatMap((p) => (p.kind === "dimension" ? [p] : []));
const written = (primitives: readonly Primitive[]): readonly string[] =>
  primitives.flatMap((p) => (p.kind === "text" ? [p.text] : []));

describe("plan of the site", () => {
  it("draws every outline where the scene has it, and nothing else of that name", () => {
    const { primitives } = draw(crossing);
    for (const { name, outline } of [
      ...crossing.scene.structures,
      ...crossing.scene.parking,
      ...crossing.scene.areas,
    ]) {
      const drawn = primitives.filter((p) => p.kind === "path" && p.title === name);
      expect(drawn.map((p) => (p.kind === "path" ? p.points : []))).toEqual([outline]);
    }
  });

  // By hand: from a datum at (−1.5, 8) to a turntable at (4, −2.25) is 5.5 m east and 10.25 m south.
  it("gives the turntable's tape offsets from the datum in two legs that meet at a right angle", () => {
    const place = { ...crossing.aerial.place, turntableX: 4, turntableY: -2.25 };
    const scene = { ...crossing.scene, datum: { name: "Corner", position: [-1.5, 8] as [number, number] } };
    const legs = dimensions(draw({ ...crossing, scene, aerial: { ...crossing.aerial, place } }).primitives).filter(
      (d) => d.title?.startsWith("Offset"),
    );
    expect(legs.map((l) => l.text.replace("\u202f", " ")).sort()).toEqual(["10.25 m south", "5.50 m east"]);
    const [first, second] = legs;
    if (!first || !second) throw new Error("a leg is missing");
    expect(first.a).toEqual([-1.5, 8]);
    expect(first.b).toEqual(second.a);
    expect(second.b).toEqual([4, -2.25]);
    const turn =
      (first.b[0] - first.a[0]) * (second.b[0] - second.a[0]) + (first.b[1] - first.a[1]) * (second.b[1] - second.a[1]);
    expect(turn).toBe(0);
  });

  // By hand: crews due west and due north of the load stand at a right angle.
  it("tells the angle between tagline crews as the load sees it", () => {
    const [x, y] = evaluate(crossing).load.yoke;
    const hands: readonly [number, number, number][] = [
      [x - 9, y, 1],
      [x, y + 6, 1],
    ];
    const taglines = crossing.rig.taglines.map((t, i) => ({
      ...t,
      drive: "tension" as const,
      tensionN: 0,
      handler: hands[i] ?? t.handler,
    }));
    const plan: Plan = {
      ...crossing,
      rig: { ...crossing.rig, taglines, load: { ...crossing.rig.load, positionM: [x, y, 10] } },
    };
    const evaluation = evaluate(plan);
    const drawing = drawPlan(
      plan,
      { ...evaluation, load: { ...evaluation.load, yoke: evaluation.load.wanted } },
      { system: "metric" },
    );
    expect(written(drawing.primitives)).toContain("90.0° between taglines");
  });

  it("shows an unknown gust and an unknown voltage as unknown", () => {
    const { scene } = crossing;
    const drawing = draw({
      ...crossing,
      scene: {
        ...scene,
        wind: { ...scene.wind, gustMS: null },
        powerLines: scene.powerLines.map((p) => ({ ...p, voltageKv: null })),
      },
    });
    expect(drawing.wind?.text).toBe("gust unknown");
    expect(written(drawing.primitives).some((t) => t.includes("voltage unknown"))).toBe(true);
  });

  it("offers vehicle, heading, tip, load and each pair of hands", () => {
    const { handles } = draw(crossing);
    expect(handles.map((h) => h.id)).toEqual([
      "vehicle",
      "heading",
      "tip",
      "load",
      "tagline:tag-west",
      "tagline:tag-east",
    ]);
    expect(handles[0]?.at).toEqual([crossing.aerial.place.turntableX, crossing.aerial.place.turntableY]);
    // Dragging the load does nothing where its place follows from measured ropes.
    const byLength: Plan = { ...crossing, rig: { ...crossing.rig, load: { ...crossing.rig.load, drive: "length" } } };
    expect(draw(byLength).handles.map((h) => h.id)).not.toContain("load");
  });
});
