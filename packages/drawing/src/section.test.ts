import { norm, site } from "@gantline/engine";
import { EXAMPLES, evaluate, type Plan, parkingLevel } from "@gantline/plan";
import { describe, expect, it } from "vitest";
import type { Primitive, WorldPoint } from "./primitives.ts";
import { groundProfile } from "./section/ground-profile.ts";
import { sectionFrame } from "./section/section-frame.ts";
import { drawSection } from "./section.ts";
import { fitViewport, worldToScreen } from "./viewport.ts";

const example = (key: string): Plan => {
  const found = EXAMPLES.find((e) => e.key === key);
  if (!found) throw new Error(`no example ${key}`);
  return found.plan;
};
const roof = example("roof");
const crossing = example("crossing");
const draw = (plan: Plan) => drawSection(plan, evaluate(plan), { system: "metric" });
const titled = (primitives: readonly Primitive[], title: string): Primitive => {
  const found = primitives.find((p) => "title" in p && p.title?.startsWith(title));
  if (!found) throw new Error(`nothing drawn as "${title}"`);
  return found;
};
const pointsOf = (p: Primitive): readonly WorldPoint[] => (p.kind === "path" ? p.points : []);
const long = ([a, b]: readonly WorldPoint[]): number => (a && b ? Math.hypot(b[0] - a[0], b[1] - a[1]) : Number.NaN);
const texts = (primitives: readonly Primitive[]): string =>
  primitives.flatMap((p) => (p.kind === "text" || p.kind === "dimension" ? [p.text] : [])).join("\n");

describe("section", () => {
  it("draws the ladder to scale: pivot to tip is its length times pixels per metre, at its elevation", () => {
    const plan: Plan = { ...roof, aerial: { ...roof.aerial, useSag: false } };
    const { bounds, primitives } = draw(plan);
    const view = fitViewport(bounds, 1200, 900, 80);
    const ladder = titled(primitives, "Length from pivot to tip");
    if (ladder.kind !== "dimension") throw new Error("not a dimension");
    const [a, b] = [worldToScreen(view, ladder.a), worldToScreen(view, ladder.b)];
    expect(Math.hypot(b[0] - a[0], b[1] - a[1])).toBeCloseTo(plan.aerial.pose.lengthM * view.pxPerM, 6);
    expect(Math.atan2(a[1] - b[1], b[0] - a[0])).toBeCloseTo(plan.aerial.pose.elevationRad, 9);
    const sections = primitives.filter((p) => p.kind === "path" && p.title?.startsWith("Ladder, section"));
    const alongs = sections
      .flatMap(pointsOf)
      .map(
        ([x, y]) =>
          ((x - ladder.a[0]) * (ladder.b[0] - ladder.a[0]) + (y - ladder.a[1]) * (ladder.b[1] - ladder.a[1])) /
          plan.aerial.pose.lengthM,
      );
    expect(Math.min(...alongs)).toBeCloseTo(0, 9);
    expect(Math.max(...alongs)).toBeCloseTo(plan.aerial.pose.lengthM, 9);
  });

  // By hand from the example's inputs: the turntable is at the origin, the ladder points north, the store runs from
  // 6.2 m to 22 m north, its roof is at 15 m, its parapet 1 m high and 0.3 m thick.
  it("cuts a building with its parapets", () => {
    const cut = pointsOf(
      titled(
        draw({
          ...roof,
          aerial: {
            ...roof.aerial,
            pose: { ...roof.aerial.pose, bearingRad: 0 },
            place: { ...roof.aerial.place, turntableX: 0, turntableY: 0 },
          },
        }).primitives,
        "Grain store, cut",
      ),
    );
    const expected = [
      [8, 0],
      [8, 9.9],
      [8.3, 9.9],
      [8.3, 9],
      [21.7, 9],
      [21.7, 9.9],
      [22, 9.9],
      [22, 0],
    ];
    for (const [x, y] of expected)
      expect(cut.some((p) => Math.hypot(p[0] - (x ?? 0), p[1] - (y ?? 0)) < 1e-9)).toBe(true);
    const area = cut.reduce(
      (sum, p, i) =>
        sum + (p[0] * (cut[(i + 1) % cut.length]?.[1] ?? 0) - (cut[(i + 1) % cut.length]?.[0] ?? 0) * p[1]) / 2,
      0,
    );
    expect(Math.abs(area)).toBeCloseTo(14 * 9 + 2 * 0.3 * 0.9, 9);
  });

  it("follows parking ground where it slopes", () => {
    const sloped: Plan = {
      ...crossing,
      scene: {
        ...crossing.scene,
        parking: crossing.scene.parking.map((p) => ({ ...p, slopeRad: 0.08, downhillBearingRad: 2.5 })),
      },
    };
    const frame = sectionFrame(sloped);
    const { stretches } = groundProfile(sloped, frame, -40, 40);
    const yard = sloped.scene.parking[0];
    const drawn = stretches.find((s) => s.kind === "parking");
    if (!yard || !drawn) throw new Error("no parking drawn");
    for (const end of [drawn.from, drawn.to]) {
      const [x, y] = frame.fromSection(end);
      expect(end[1]).toBeCloseTo(parkingLevel(yard, [x, y]), 9);
    }
    expect(Math.abs(drawn.to[1] - drawn.from[1])).toBeGreaterThan(0.5);
  });

  it("drops the ground into a gap at its own level", () => {
    const gap = {
      id: "pit",
      name: "Pit",
      kind: "gap" as const,
      outline: [
        [-3, 30],
        [3, 30],
        [3, 34],
        [-3, 34],
      ] as [number, number][],
      zM: -5,
    };
    const plan: Plan = { ...crossing, scene: { ...crossing.scene, areas: [gap] } };
    const { line } = groundProfile(plan, sectionFrame(plan), -40, 60);
    const north = plan.aerial.place.turntableY;
    expect(line.filter(([, z]) => z === -5).map(([x]) => x)).toEqual([30 - north, 34 - north]);
  });

  it("draws forces to the scale it states, and the parts make the whole", () => {
    const evaluation = evaluate(roof);
    const drawing = drawSection(roof, evaluation, { system: "metric" });
    const felt = evaluation.felt[evaluation.cases[0] ?? "raise"];
    if (!felt) throw new Error("not solved");
    const arrows = drawing.primitives.flatMap((p) => (p.kind === "arrow" ? [p] : []));
    const whole = arrows.find((a) => a.title === "Force of the ropes on the tip");
    const along = arrows.find((a) => a.title?.endsWith(" along"));
    const square = arrows.find((a) => a.title?.endsWith(" square"));
    if (!whole || !along || !square) throw new Error("an arrow is missing");
    const inPlane = Math.sqrt(norm(felt.resultantN) ** 2 - felt.inBeam.lateralN ** 2);
    expect(long([whole.from, whole.to]) * drawing.forceScaleNPerM).toBeCloseTo(inPlane, 6);
    expect(long([along.from, along.to]) * drawing.forceScaleNPerM).toBeCloseTo(Math.abs(felt.inBeam.compressionN), 6);
    for (const axis of [0, 1] as const)
      expect(along.to[axis] + square.to[axis] - whole.from[axis]).toBeCloseTo(whole.to[axis], 9);
    const key = drawing.forceCaseText;
    expect(key).toBe("as when raising");
  });

  it("shows the case of travel that is asked for, where it was solved", () => {
    const evaluation = evaluate(crossing);
    expect([...evaluation.cases].sort()).toEqual(["lower", "raise"]);
    const of = (forceCase: "raise" | "lower") => drawSection(crossing, evaluation, { system: "metric", forceCase });
    expect(of("lower").forceCaseText).toBe("as when lowering");
    expect(texts(of("lower").primitives)).not.toBe(texts(of("raise").primitives));
  });

  it("still draws scene, vehicle, ladder and load where nothing can be solved, and says so", () => {
    const weightless: Plan = {
      ...roof,
      rig: { ...roof.rig, load: { ...roof.rig.load, parts: roof.rig.load.parts.map((p) => ({ ...p, massKg: null })) } },
    };
    const evaluation = evaluate(weightless);
    expect(evaluation.holding.state).toBe("unsolved");
    const drawing = drawSection(weightless, evaluation, { system: "metric" });
    for (const title of ["Grain store, cut", "Vehicle", "Ladder, section", "Load", "Ground", "Main A, as meant to run"])
      titled(drawing.primitives, title);
    expect(drawing.forceCaseText).toBeNull();
    expect(drawing.primitives.some((p) => p.kind === "arrow")).toBe(false);
    expect(texts(drawing.primitives)).toContain("mass unknown");
    expect(texts(drawing.primitives)).toContain("forces unknown");
    expect(drawing.description).toContain("could not be worked out");
  });

  it("says a status with a sign and a word, never by tone alone", () => {
    const low: Plan = { ...roof, aerial: { ...roof.aerial, pose: { ...roof.aerial.pose, elevationRad: 0.7 } } };
    const said = draw(low).primitives.flatMap((p) =>
      p.kind === "text" && ["over", "close", "unknown", "within"].includes(p.tone) ? [p] : [],
    );
    expect(said.length).toBeGreaterThan(1);
    for (const text of said) {
      expect(text.sign).toBeDefined();
      if (text.tone !== "within") expect(text.text).toMatch(/over|close|unknown|not held/);
    }
  });

  it("offers the tip, the load and hands that lie toward the plane, each with its value in the reader's units", () => {
    const [crew] = EXAMPLES.flatMap((e) => e.plan.rig.taglines);
    if (!crew) throw new Error("no example has a tagline");
    const taglines = [{ ...crew, id: "tag-lane", handler: [-9, -13, 1.1] as [number, number, number] }];
    const withCrew = { ...roof, rig: { ...roof.rig, taglines } };
    const handles = drawSection(withCrew, evaluate(withCrew), { system: "imperial" }).handles;
    expect(handles.map((h) => h.id)).toEqual(["tip", "load", "tagline:tag-lane"]);
    for (const handle of handles) expect(handle.valueText).toMatch(/\d+\sft/);
    // Both crews of the crossing stand square to the plane: dragging them in it would move them nowhere.
    expect(draw(crossing).handles.map((h) => h.id)).toEqual(["tip", "load"]);
  });

  it("has a frame that returns every point of the plane to itself", () => {
    const frame = sectionFrame({
      ...roof,
      aerial: {
        ...roof.aerial,
        pose: { ...roof.aerial.pose, bearingRad: 2.2 },
        place: { ...roof.aerial.place, turntableX: -7, turntableY: 31 },
      },
    });
    const [x, y] = frame.toSection(frame.fromSection([12.5, -3.25]));
    expect(x).toBeCloseTo(12.5, 12);
    expect(y).toBe(-3.25);
    expect(frame.before(frame.fromSection([12.5, -3.25]))).toBeCloseTo(0, 12);
    // Looking out along a bearing of 2.2 rad, the right is at 2.2 rad + 90°.
    expect(frame.before(site(-7 + Math.sin(2.2 + Math.PI / 2), 31 + Math.cos(2.2 + Math.PI / 2), 4))).toBeCloseTo(
      1,
      12,
    );
  });
});
