import { pointInSolid, site } from "@gantline/engine";
import {
  EXAMPLES,
  evaluate,
  evaluateAt,
  evolve,
  letOuts,
  momentPlan,
  moveHandle,
  type Plan,
  type When,
} from "@gantline/plan";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { notFinite } from "../fuzz/not-finite.ts";
import { drawPlan } from "../plan-view.ts";
import type { Drawing, Primitive, WorldPoint } from "../primitives.ts";
import { sectionFrame } from "../section/section-frame.ts";
import { drawSection } from "../section.ts";
import { sweptStages } from "./swept-stages.ts";
import type { ViewOptions } from "./view-options.ts";

const SEED = 20261125;
const example = (key: string): Plan => {
  const found = EXAMPLES.find((e) => e.key === key);
  if (!found) throw new Error(`no example ${key}`);
  return found.plan;
};
const roof = example("roof");
const crossing = example("crossing");

const at = (plan: Plan, when: When, more: Partial<ViewOptions> = {}): readonly [Drawing, Drawing] => {
  const then = momentPlan(plan, when);
  const evaluation = evaluate(then);
  const options: ViewOptions = { system: "metric", evolution: when, ...more };
  return [drawSection(then, evaluation, options), drawPlan(then, evaluation, options)];
};
const titled = (drawing: Drawing, title: string): readonly Primitive[] =>
  drawing.primitives.filter((p) => "title" in p && p.title?.startsWith(title));
const texts = (drawing: Drawing): readonly string[] =>
  drawing.primitives.flatMap((p) => (p.kind === "text" ? [p.text] : []));

/** Between two moments of the sweep the load hangs where a straight line has it to within this, m. */
const STRAIGHT_M = 0.003;
/** Is a point in or on a convex outline that turns anticlockwise? */
const inside = (ring: readonly WorldPoint[], [x, y]: WorldPoint): boolean =>
  ring.every(([ax, ay], i) => {
    const [bx, by] = ring[(i + 1) % ring.length] as WorldPoint;
    return (bx - ax) * (y - ay) - (by - ay) * (x - ax) >= -STRAIGHT_M * Math.hypot(bx - ax, by - ay);
  });

describe("tether", () => {
  it("is drawn as two lines from the yoke to its riding pulley, which is drawn once", () => {
    const when = { stage: 2, along: 0.6 };
    const { tether, load } = evaluate(momentPlan(roof, when));
    if (!tether) throw new Error("no tether");
    for (const [drawing, project] of [
      [at(roof, when)[0], sectionFrame(roof).toSection],
      [at(roof, when)[1], (p: readonly [number, number, number]): WorldPoint => [p[0], p[1]]],
    ] as const) {
      const lines = titled(drawing, "Tether, 0.").filter((p) => p.kind === "path");
      expect(lines).toHaveLength(2);
      for (const p of lines)
        expect(p.kind === "path" && p.points).toEqual([project(load.yoke), project(tether.pulleyAt)]);
      const rings = drawing.primitives.filter(
        (p) =>
          p.kind === "circle" &&
          Math.hypot(p.at[0] - project(tether.pulleyAt)[0], p.at[1] - project(tether.pulleyAt)[1]) < 1e-9,
      );
      expect(rings).toHaveLength(2);
      expect(texts(drawing)).toContainEqual(expect.stringMatching(/^S {2}0\.\d\d\skN, \d\.\d\d\sm$/));
    }
  });

  it("says what its pulley has run up against, with a sign", () => {
    const then = momentPlan(roof, { stage: 2, along: 0.6 });
    const evaluation = evaluate(then);
    if (!evaluation.tether) throw new Error("no tether");
    const says = (against: "tip" | "redirect" | "yoke" | null) =>
      drawSection(
        then,
        { ...evaluation, tether: { ...(evaluation.tether as NonNullable<typeof evaluation.tether>), against } },
        { system: "metric" },
      ).primitives.flatMap((p) => (p.kind === "text" && p.text.includes("up against") ? [p] : []));
    expect(says(null)).toEqual([]);
    for (const [against, words] of [
      ["tip", "tip sheave"],
      ["redirect", "first redirect"],
      ["yoke", "yoke"],
    ] as const) {
      expect(says(against).map((t) => t.text)).toEqual([`Tether: pulley up against the ${words}`]);
      expect(says(against)[0]?.sign).toBe("cross");
    }
  });
});

describe("letting go", () => {
  it("draws the swing from the yoke to its far end, only of the line that is asked for", () => {
    const when = { stage: 3, along: 0.5 };
    const then = momentPlan(crossing, when);
    const swing = letOuts(then).find((l) => l.lineId === "tag-west");
    if (!swing) throw new Error("no swing");
    const [, drawing] = at(crossing, when, { letOut: "tag-west" });
    const [arc] = titled(drawing, "Swing if West tagline is let go");
    const [far] = titled(drawing, "Far end of the swing");
    if (arc?.kind !== "path" || far?.kind !== "mark") throw new Error("not drawn");
    expect(arc.style.dash).toBe("dotted");
    expect(arc.points.map(([x, y]) => [x, y])).toEqual(swing.arc.map((p) => [p[0], p[1]]));
    expect([far.at[0], far.at[1]]).toEqual([swing.farAt[0], swing.farAt[1]]);
    expect(texts(drawing).find((t) => t.startsWith("West tagline let go"))).toContain("each side of plumb");
    for (const letOut of [null, "no-such-line"]) expect(titled(at(crossing, when, { letOut })[1], "Swing")).toEqual([]);
  });
});

describe("way of the load", () => {
  const wayIds = ({ handles }: Drawing) =>
    handles.map((h) => h.id).filter((id) => id === "start" || id.startsWith("waypoint:"));

  it("offers the way points of its stage and the place it starts from, where the plan has them", () => {
    const ids = (plan: Plan, stage: number) => wayIds(at(plan, { stage, along: 0.5 })[0]);
    expect(ids(roof, 0)).toEqual(["start"]);
    expect(ids(roof, 2)).toEqual(["start", "waypoint:2:0", "waypoint:2:1"]);
    expect(ids(roof, 3)).toEqual(["waypoint:2:1", "waypoint:3:0"]);
    const [section, site] = at(crossing, { stage: 3, along: 0.5 });
    expect(wayIds(site)).toEqual(["waypoint:2:0", "waypoint:3:0", "waypoint:3:1"]);
    const second = site.handles.find((h) => h.id === "waypoint:3:1");
    expect(second?.label).toBe("Stage 4, way point 2");
    expect(second?.at).toEqual([1.55, 10.66]);
    expect(section.handles.map((h) => h.id)).not.toContain("load");
  });

  // Carried 3.1 m square to the section at one height: there its three places are one behind the other.
  it("hands out one of the way points that lie behind each other: the stage's own nearest to the moment", () => {
    const inSection = (along: number) => wayIds(at(crossing, { stage: 3, along })[0]);
    expect(inSection(0)).toEqual(["waypoint:3:0"]);
    expect(inSection(0.5)).toEqual(["waypoint:3:0"]);
    expect(inSection(1)).toEqual(["waypoint:3:1"]);
    // Straight up: seen from above its end covers its start, which the section has below it.
    const [section, site] = at(crossing, { stage: 2, along: 0 });
    expect(wayIds(site)).toEqual(["waypoint:2:0"]);
    expect(wayIds(section)).toEqual(["start", "waypoint:2:0"]);
  });

  it("leaves no way point of a stage without a hold, in one view or the other", () => {
    for (const plan of [roof, crossing]) {
      for (const [stage, { path }] of plan.evolution.stages.entries()) {
        const held = new Set([0, 0.25, 0.5, 0.75, 1].flatMap((along) => at(plan, { stage, along }).flatMap(wayIds)));
        for (const k of path.keys()) expect(held).toContain(`waypoint:${stage}:${k}`);
      }
    }
  });

  it("has handles that move nothing when they are dropped where they are", () => {
    for (const plan of [roof, crossing]) {
      for (const stage of plan.evolution.stages.keys()) {
        const when = { stage, along: 0.3 };
        for (const drawing of at(plan, when)) {
          for (const handle of drawing.handles.filter((h) => /^start$|^waypoint:/.test(h.id))) {
            const moved = moveHandle(plan, drawing.id, handle.id, handle.at, when);
            const places = (p: Plan) => [p.evolution.startM, ...p.evolution.stages.flatMap((s) => s.path)].flat();
            places(moved).forEach((v, i) => {
              expect(v).toBeCloseTo(places(plan)[i] ?? Number.NaN, 9);
            });
          }
        }
      }
    }
  });

  it("draws the stage that is looked at strong and the others thin, none without a moment", () => {
    const [section] = at(roof, { stage: 2, along: 0 });
    const [own] = titled(section, "Way of the yoke in stage 3, Up beside the wall");
    const [others] = titled(section, "Way of the yoke in the other stages");
    if (own?.kind !== "path" || others?.kind !== "paths") throw new Error("no way");
    expect(own.points).toHaveLength(3);
    expect(own.style.widthPx).toBeGreaterThan(2 * (others.style.widthPx ?? 0));
    expect(others.parts).toHaveLength(roof.evolution.stages.filter((s) => s.path.length > 0).length - 1);
    const plain = drawSection(roof, evaluate(roof), { system: "metric" });
    expect(titled(plain, "Way of the yoke")).toEqual([]);
  });

  it("says that nothing is on the ropes where nothing is, and judges no load there", () => {
    const [section] = at(roof, { stage: 0, along: 0 });
    expect(texts(section)).toContain("nothing on the ropes");
    expect(texts(section).join("\n")).not.toMatch(/unknown|Load:/);
    expect(titled(section, "Load")).toEqual([]);
  });
});

describe("swept space", () => {
  it.each([
    ["roof", roof],
    ["crossing", crossing],
  ] as const)("holds the load's box at every moment of every stage of %s", (_, plan) => {
    const evolution = evolve(plan);
    const stages = sweptStages(plan, evolution);
    expect(stages.map((s) => s.stage)).toEqual(
      plan.evolution.stages.flatMap((s, i) => (s.aboard.length > 0 ? [i] : [])),
    );
    let tried = 0;
    for (const swept of stages) {
      for (const along of [0, 0.13, 0.37, 0.5, 0.81, 1]) {
        const when = { stage: swept.stage, along };
        const then = momentPlan(plan, when);
        const { load } = evaluate(then);
        const [section, site] = at(plan, when, { swept: [swept] });
        for (const [drawing, project] of [
          [section, sectionFrame(then).toSection],
          [site, (p: readonly [number, number, number]): WorldPoint => [p[0], p[1]]],
        ] as const) {
          const [area] = titled(drawing, "Swept by the load");
          if (area?.kind !== "paths") throw new Error("nothing swept");
          for (const v of load.box.vertices) {
            tried++;
            expect(area.parts.some((ring) => inside(ring, project(v)))).toBe(true);
          }
        }
      }
    }
    expect(tried).toBeGreaterThan(200);
  });

  it("keeps clear of a wall that nothing strikes: no swept corner of the load lies in it", () => {
    const { geometry } = evaluate(roof);
    const store = geometry.structures.find((s) => s.id === "grain-store");
    if (!store) throw new Error("no store");
    for (const { load } of sweptStages(roof, evolve(roof)))
      for (const corner of load.flat())
        expect(store.solids.some((solid) => pointInSolid(solid, site(corner[0], corner[1], corner[2])))).toBe(false);
  });

  it("follows a long tagline as it hangs, not the straight line", () => {
    const rig = {
      ...crossing.rig,
      taglines: crossing.rig.taglines.map((t) =>
        t.id === "tag-east" ? { ...t, handler: [70, 10.6, 1.1] as typeof t.handler } : t,
      ),
    };
    const plan: Plan = { ...crossing, rig };
    const across = sweptStages(plan, evolve(plan)).find((s) => s.stage === 3);
    const line = evaluateAt(plan, { stage: 3, along: 0 }).lines.find((l) => l.id === "tag-east");
    const [first] = across?.ropes.find((r) => r.id === "tag-east")?.places ?? [];
    const middle = first?.[(first.length - 1) / 2]?.at;
    if (!line || !middle || line.sagM === null) throw new Error("no line that hangs");
    // Below the middle of the chord by its sag, the greatest there is (within a tenth: the lowest of the sag lies beside the middle).
    const chordZ = ((line.nodes[0]?.at[2] ?? 0) + (line.nodes[1]?.at[2] ?? 0)) / 2;
    expect(line.sagM).toBeGreaterThan(1);
    expect(Math.abs((chordZ - middle[2]) / line.sagM - 1)).toBeLessThan(0.1);
    expect(first?.at(-1)?.at).toEqual(line.nodes[1]?.at);
  });

  it("lies under everything else, in one area for the load and one for each rope", () => {
    const swept = sweptStages(roof, evolve(roof));
    const [section] = at(roof, { stage: 4, along: 0.5 }, { swept });
    const areas = section.primitives.flatMap((p, i) => ("title" in p && p.title?.startsWith("Swept by") ? [i] : []));
    expect(areas).toEqual([0, 1, 2, 3]);
  });
});

describe("moments, whichever", () => {
  it("draw with finite numbers and no undefined name", () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...EXAMPLES.map((e) => e.plan)),
        fc.nat(),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.constantFrom("metric" as const, "imperial" as const),
        fc.constantFrom(null, "tether", "tag-west", "tag-east"),
        (plan, n, along, system, letOut) => {
          const stage = n % (plan.evolution.stages.length + 1);
          for (const drawing of at(plan, { stage, along }, { system, letOut })) {
            expect(notFinite(drawing, drawing.id)).toEqual([]);
            expect(JSON.stringify(drawing)).not.toMatch(/undefined|NaN|Infinity|\[object/);
          }
        },
      ),
      { seed: SEED, numRuns: 60 },
    );
  });
});
