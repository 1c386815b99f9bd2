import { distance, forceInBeamAxes, STANDARD_GRAVITY_MS2, site } from "@gantline/engine";
import { describe, expect, it } from "vitest";
import { assess } from "../assess.ts";
import { momentPlan } from "../evolve/moment-plan.ts";
import { crossingExample } from "../examples/crossing.ts";
import { roofExample } from "../examples/roof.ts";
import type { Plan } from "../schema/plan.ts";
import { letGoAt } from "./let-go-at.ts";
import type { LetGoCase } from "./let-go-plan-types.ts";
import { letGoMoments } from "./sweep-cuts.ts";
import { plumbPlan, withGear } from "./testing/plumb-plan.ts";

const W = 120 * STANDARD_GRAVITY_MS2;
const figuresOf = (found: LetGoCase): NonNullable<LetGoCase["figures"]> => {
  if (found.figures === null) throw new Error(`${found.outcome}: ${JSON.stringify(found.says)}`);
  return found.figures;
};

describe("the tether's pulley", () => {
  const { tether } = roofExample.rig;
  if (!tether) throw new Error("no tether");
  const onOne: Plan = { ...roofExample, rig: { ...roofExample.rig, tether: { ...tether, rides: ["main-a"] } } };

  it("that falls with the only rope it rides is not a person who falls", () => {
    for (const along of [0.09, 1 / 3]) {
      const found = letGoAt(onOne, { stage: 2, along }, "main-a");
      expect(found.outcome).toBe("held");
      expect(found.fall).toBeNull();
      expect(figuresOf(found).hits.map((h) => h.what)).not.toContain("what is below");
    }
  });

  it("with its tether gone is let go at once by the ropes it kinks, followed or not", () => {
    for (const [stage, along] of [
      [2, 0.5],
      [2, 1],
      [3, 0.5],
      [8, 0.5],
    ] as const) {
      const [stays, moves] = (["stays", "moves"] as const).map((rider) =>
        letGoAt(roofExample, { stage, along }, "tether", { rider }),
      );
      expect(moves?.outcome).toBe("held");
      expect(moves?.figures).toEqual(stays?.figures);
    }
  });
});

describe("structures", () => {
  it("bar the load on all sides, from above too: over the parapet, nothing of it comes into the building", () => {
    const [store] = roofExample.scene.structures;
    if (!store) throw new Error("no structure");
    const [west, south] = store.outline[0] ?? [0, 0];
    const [east, north] = store.outline[2] ?? [0, 0];
    const { box, bridle } = roofExample.rig.load;
    for (const along of [0.5, 0.65, 0.8, 0.9, 1]) {
      const found = letGoAt(roofExample, { stage: 2, along }, "tether", { replay: true });
      expect(["held", "falls"]).toContain(found.outcome);
      const places = [...(found.undamped?.places.yoke ?? []), ...(found.motion?.places.yoke ?? [])];
      if (found.outcome === "held") expect(places.length).toBeGreaterThan(100);
      const half = Math.min(box.lengthM, box.widthM) / 2;
      for (const [x, y, z] of places) {
        const footM = z - bridle.heightM - box.heightM;
        // As deep as it is in the walls, whose outer faces are the outline, or in the roof: the least of all.
        const depth = Math.min(
          x + half - west,
          east - x + half,
          y + half - south,
          north - y + half,
          store.topZM - footM,
        );
        expect(depth).toBeLessThan(1e-4);
      }
    }
  });

  it("are told with the speed the load comes at them", () => {
    const { hits, nearest } = figuresOf(letGoAt(roofExample, { stage: 2, along: 1 }, "tether"));
    const [hit] = hits;
    expect(hit?.what).toBe("Grain store");
    expect(hit?.bandMS.low).toBeLessThanOrEqual(hit?.bandMS.entered ?? 0);
    expect(hit?.speedMS).toBe(hit?.bandMS.high);
    expect(nearest[0]).toMatchObject({ what: "Grain store", distanceM: 0 });
  });
});

describe("the soft end of a rope's stiffness", () => {
  it("gives the drop its high end: 2 (1 − s) W/k of the rope's slow stiffness", () => {
    const plan = plumbPlan();
    const rope = plan.gear.find((g) => g.kind === "rope" && g.id === plan.rig.mainLines[1]?.rope);
    if (rope?.kind !== "rope" || rope.staticStiffnessN === null || rope.dynamicStiffnessN === null)
      throw new Error("no rope");
    const { dropM } = figuresOf(letGoAt(plan, null, "main-a"));
    // Reference page on mechanics, one-rope failure: the drop goes inversely with the stiffness.
    expect(dropM.high / dropM.entered).toBeCloseTo(rope.dynamicStiffnessN / rope.staticStiffnessN, 2);
    expect(dropM.low).toBeLessThan(dropM.entered);
  });

  it("decides what is hit, how near it comes, and whether that is a fall", () => {
    const base = plumbPlan({ slipN: 8000, share: 1 });
    const [x, y] = base.rig.load.positionM;
    const at = (z: number): LetGoCase =>
      letGoAt({ ...base, rig: { ...base.rig, load: { ...base.rig.load, positionM: [x, y, z] } } }, null, "main-a");
    // As entered it stops 0.09 m above the ground; with the slow stiffness it comes down at 2.4 m/s.
    expect(at(2.3)).toMatchObject({ outcome: "falls" });
    const near = figuresOf(at(2.7));
    expect(near.hits[0]?.what).toBe("what is below");
    expect(near.hits[0]?.bandMS.entered).toBe(0);
    const ground = near.nearest.find((n) => n.what === "what is below");
    expect(ground?.distanceM).toBeLessThan(1e-6);
    expect(ground?.bandM.entered).toBeGreaterThan(0.3);
  });
});

describe("a force in beam axes", () => {
  it("has each part at its own highest: none less than when the whole is, some much more", () => {
    const ratios: number[] = [];
    for (const when of letGoMoments(crossingExample).filter((_, i) => i % 12 === 2)) {
      for (const id of ["main-a", "tag-west"]) {
        const found = letGoAt(crossingExample, when, id);
        for (const { inBeam, forceN, peakN } of found.figures?.points ?? []) {
          const whole = forceInBeamAxes(assess(momentPlan(crossingExample, when)).geometry.posed, forceN);
          expect(inBeam.resultantN).toBeCloseTo(peakN.high, 6);
          for (const part of ["compressionN", "normalN", "lateralN"] as const) {
            expect(Math.abs(inBeam[part])).toBeGreaterThan(Math.abs(whole[part]) - 1e-6);
            if (Math.abs(inBeam[part]) > 20) ratios.push(Math.abs(inBeam[part] / whole[part]));
          }
        }
      }
    }
    expect(Math.max(...ratios)).toBeGreaterThan(1.2);
  });

  it("is what bending and compression of the ladder are judged by", () => {
    const figures = figuresOf(letGoAt(plumbPlan({ slipN: 8000 }), null, "main-a"));
    expect(figures.utilisations.compression.demand).toBeCloseTo(figures.tipInBeam.compressionN, 6);
    expect(figures.utilisations.resultant.demand).toBeCloseTo(figures.tipN.high, 6);
  });
});

describe("curves of what happens", () => {
  const plan = withGear(crossingExample, "brake-g", { slipN: 8000 });
  const found = letGoAt(plan, { stage: 3, along: 0.5 }, "main-a", { replay: true });
  const figures = figuresOf(found);

  it("are as entered and without damping, with every peak in them as it is in the figures", () => {
    for (const { lineId, peakN } of figures.lines.filter((l) => l.role === "main")) {
      const curve = Math.max(...(found.undamped?.tensionsN[lineId] ?? []));
      expect(curve).toBeGreaterThan(peakN.low);
      expect(curve).toBeLessThanOrEqual(peakN.entered);
    }
    const lowest = Math.min(...(found.undamped?.places.yoke ?? []).map((p) => p[2]));
    expect(found.yoke[2] - lowest).toBeCloseTo(figures.dropM.entered, 9);
    expect(found.undamped?.timesS.at(-1)).toBeCloseTo(8, 9);
  });

  it("tell at the same instants what each rigging point feels and how near the load is to everything", () => {
    const { undamped, motion } = found;
    if (!undamped || !motion) throw new Error("no motion");
    for (const { pointId, peakN } of figures.points) {
      const sizes = (undamped.pointsN[pointId] ?? []).map((f) => f.resultantN);
      expect(sizes).toHaveLength(undamped.timesS.length);
      expect(Math.max(...sizes)).toBeLessThanOrEqual(peakN.entered * (1 + 1e-9));
      expect(Math.max(...sizes)).toBeGreaterThanOrEqual(0.98 * peakN.entered);
      for (const f of undamped.pointsN[pointId] ?? [])
        expect(Math.hypot(f.compressionN, f.normalN, f.lateralN)).toBeCloseTo(f.resultantN, 6);
    }
    expect(Object.keys(undamped.nearestM).sort()).toEqual(figures.nearest.map((n) => n.what).sort());
    for (const { what, bandM } of figures.nearest) {
      const least = Math.min(...(undamped.nearestM[what] ?? []));
      expect(least).toBeGreaterThanOrEqual(bandM.entered - 1e-6);
      expect(least - bandM.entered).toBeLessThan(0.05);
      expect(motion.nearestM[what]).toHaveLength(motion.timesS.length);
    }
  });

  it("end with how the damped motion does: what hangs then on what", () => {
    const { settled, motion } = found;
    if (!settled || !motion) throw new Error("no motion");
    expect(settled.timeS).toBe(motion.timesS.at(-1));
    expect(distance(settled.yoke, motion.places.yoke?.at(-1) ?? site(0, 0, 0))).toBe(0);
    // What is left hangs in balance: about the weight on the one main line, drawn aside by the taglines.
    expect(settled.tensionsN["main-b"]).toBeGreaterThan(0.9 * W);
    expect(settled.atRest || settled.timeS === 20).toBe(true);
  });

  it("are not there where they are not asked for", () => {
    expect(letGoAt(plan, { stage: 3, along: 0.5 }, "main-a")).toMatchObject({
      motion: null,
      undamped: null,
      settled: null,
    });
  });
});
