import { describe, expect, it } from "vitest";
import { STANDARD_GRAVITY_MS2 } from "../../base/constants.ts";
import type { SiteVector } from "../../base/vector.ts";
import { asSite, site } from "../../base/vector.ts";
import { extrudedOutline } from "../../scene/solids.ts";
import { exampleLetGo } from "../testing/example-let-go.ts";
import { dampingOfRatio } from "./damping-of-ratio.ts";
import { letGo } from "./let-go.ts";
import type { LetGo, LetGoLine, LetGoOptions, LetGoSystem } from "./let-go-types.ts";

const G = STANDARD_GRAVITY_MS2;
const FINE: LetGoOptions = { tolerance: 1e-9 };

function gone(system: LetGoSystem, cut: string | readonly string[], options?: LetGoOptions): LetGo {
  const found = letGo(system, cut, options);
  if (!found.ok) throw new Error(`${found.code} at ${found.where}: ${found.hint}`);
  expect(found.energy.closureShare).toBeLessThan(1e-3);
  return found;
}

interface Plumb {
  readonly massKg: number;
  readonly stiffnessN: number;
  readonly lengthM: number;
  /** Of the weight, on the line that stays. */
  readonly share: number;
  readonly slackM?: number;
  readonly rest?: Partial<LetGoLine>;
}

/** A load plumb under two lines, of which `goes` is cut. */
function plumb({ massKg, stiffnessN, lengthM, share, slackM = 0, rest = {} }: Plumb): LetGoSystem {
  const topM = lengthM * (1 + (share * massKg * G) / stiffnessN) - slackM;
  return {
    nodes: { load: { positionM: [0, 0, 0], massKg }, top: { positionM: [0, 0, topM] } },
    lines: {
      stays: { through: ["load", "top"], axialStiffnessN: stiffnessN, lengthM, ...rest },
      goes: { through: ["load", "top"], axialStiffnessN: null, startTensionN: (1 - share) * massKg * G },
    },
    load: "load",
  };
}

describe("a load plumb under the line that is left", () => {
  it("falls freely to where the line comes taut, and not a hair farther, by the tolerance", () => {
    const of = { massKg: 200, stiffnessN: 60_000, lengthM: 30, share: 0, slackM: 1 };
    // Standard equation: W + √(W² + 2kWh), k = EA/L.
    const weight = 200 * G;
    const peak = weight + Math.sqrt(weight ** 2 + 2 * 2000 * weight * 1);
    for (const tolerance of [1e-5, 1e-6, 1e-7, 1e-8, 1e-9]) {
      const { peakN } = gone(plumb(of), "goes", { tolerance }).lines.stays!;
      expect(Math.abs(peakN / peak - 1) / tolerance).toBeLessThan(50);
    }
  });

  it("takes as long to its lowest place as a half swing of the spring", () => {
    const found = gone(plumb({ massKg: 200, stiffnessN: 60_000, lengthM: 30, share: 0.5 }), "goes", FINE);
    // Half of 2π√(m/k); textbook.
    expect(found.lines.stays!.atS).toBeCloseTo(Math.PI * Math.sqrt(200 / 2000), 5);
    expect(found.ended).toBe("time");
    expect(found.load.swingM).toBeLessThan(1e-12);
  });

  it("comes to rest where the line holds its weight, all that was lost being in the rope's damping", () => {
    const dampingNsM = dampingOfRatio(0.2, 60_000, 30, 200);
    const found = gone(
      plumb({ massKg: 200, stiffnessN: 60_000, lengthM: 30, share: 0.5, rest: { dampingNsM } }),
      "goes",
      FINE,
    );
    expect(found.ended).toBe("rest");
    // (1 − s) W/k below where it was.
    const sag = (0.5 * 200 * G) / 2000;
    expect(found.load.last[2]).toBeCloseTo(-sag, 2);
    // Of the height lost half is kept as stretch of a linear spring: k((x+d)² − x²)/2, and the rest is lost.
    const [before, after] = [sag, 2 * sag];
    expect(found.energy.dampingJ).toBeCloseTo(200 * G * sag - 1000 * (after ** 2 - before ** 2), 1);
  });

  it("pulls harder on what holds it where a sheave takes part of the stretch away, if there is slack", () => {
    const over = (efficiency: number) => {
      const system: LetGoSystem = {
        nodes: {
          load: { positionM: [0, 0, 0], massKg: 200 },
          tip: { positionM: [0, 0, 18] },
          brake: { positionM: [0, 0, -2] },
        },
        lines: {
          stays: {
            through: ["load", "tip", "brake"],
            axialStiffnessN: 4e6,
            lengthM: 38.5,
            efficiency: [efficiency],
            travel: "toStart",
          },
          goes: { through: ["load", "tip"], axialStiffnessN: null, startTensionN: 200 * G },
        },
        load: "load",
      };
      return gone(system, "goes", { tolerance: 1e-7, durationS: 1 }).lines.stays!;
    };
    // Rope that comes round the sheave at r of the load's tension stretches r as much there: EA/(l₀ + r l₁); stiff, so that
    // stretch does not change the lengths.
    const of = (r: number) => {
      const [weight, slack] = [200 * G, 0.5];
      const k = 4e6 / (18.5 + r * 20);
      return weight + Math.sqrt(weight ** 2 + 2 * k * weight * slack);
    };
    const [free, held] = [over(1), over(0.5)];
    expect(free.peakN / of(1)).toBeCloseTo(1, 2);
    expect(held.peakN / of(0.5)).toBeCloseTo(1, 2);
    expect(held.peakN).toBeGreaterThan(free.peakN * 1.07);
    expect(held.segmentPeaksN[1]! / held.segmentPeaksN[0]!).toBeCloseTo(0.5, 9);
  });

  it("feels a tip that gives as a spring in series, the less the tip's own mass the nearer", () => {
    const weight = 200 * G;
    const [rope, tip, slack] = [2000, 2000, 0.8];
    const peakWith = (massKg: number) => {
      const base = plumb({ massKg: 200, stiffnessN: 60_000, lengthM: 30, share: 0, slackM: slack });
      const system = {
        ...base,
        nodes: {
          ...base.nodes,
          top: { ...base.nodes.top!, massKg, gives: { along: [0, 0, 2] as const, stiffnessNM: tip } },
          ground: { positionM: [0, 0, -5] as const },
        },
        lines: { ...base.lines, goes: { ...base.lines.goes!, through: ["load", "ground"], startTensionN: 0 } },
      };
      return gone(system, "goes", { tolerance: 1e-8, durationS: 2 }).lines.stays!.peakN;
    };
    const k = 1 / (1 / rope + 1 / tip);
    const series = weight + Math.sqrt(weight ** 2 + 2 * k * weight * slack);
    const off = [4, 1, 0.25].map((massKg) => Math.abs(peakWith(massKg) / series - 1));
    expect(off[0]).toBeLessThan(0.03);
    expect(off[1]!).toBeLessThan(off[0]!);
    expect(off[2]!).toBeLessThan(0.008);
    // And with the tip stiff it would be this much more: the test can tell.
    expect((weight + Math.sqrt(weight ** 2 + 2 * rope * weight * slack)) / series).toBeGreaterThan(1.1);
  });
});

describe("what holds a line", () => {
  it("a brake that slips stops the load after Wh/(F − W) where the rope hardly stretches", () => {
    // Energy: W(h + d) = F d. Rope of 4 MN so that its stretch is some millimetres.
    for (const slipsAtN of [6000, 8000, 12_000]) {
      const system = plumb({
        massKg: 200,
        stiffnessN: 4e7,
        lengthM: 3,
        share: 0,
        slackM: 1,
        rest: { holding: { kind: "brake", slipsAtN } },
      });
      const found = gone(system, "goes", { tolerance: 1e-8, durationS: 1 });
      expect(found.lines.stays!.paidOutM).toBeCloseTo((200 * G) / (slipsAtN - 200 * G), 2);
      expect(found.lines.stays!.peakN).toBeCloseTo(slipsAtN, 6);
      expect(found.energy.brakeJ / (slipsAtN * found.lines.stays!.paidOutM)).toBeCloseTo(1, 3);
    }
  });

  it("a belay's drop test is met by any brake that slips between twice the weight and the force limit", () => {
    // ASTM F2436 as told by a secondary source: 200 kg, 1 m on 3 m of rope, slip of 1 m and 15 kN at most. EA: reference page, 40 kN.
    const test = (slipsAtN: number) =>
      gone(
        plumb({
          massKg: 200,
          stiffnessN: 40_000,
          lengthM: 3,
          share: 0,
          slackM: 1,
          rest: { holding: { kind: "brake", slipsAtN } },
        }),
        "goes",
        { tolerance: 1e-8, durationS: 2 },
      ).lines.stays!;
    // Energy, with all of the stretch: d metres of rope come through, x = 3 F/EA, W(1 + x + d(1 + F/EA)) = F x/2 + F d(1 + F/EA).
    for (const slipsAtN of [4000, 6000, 9000]) {
      const weight = 200 * G;
      const stretch = (3 * slipsAtN) / 40_000;
      const slip = (weight * (1 + stretch) - (slipsAtN * stretch) / 2) / (slipsAtN - weight) / (1 + slipsAtN / 40_000);
      expect(test(slipsAtN).paidOutM).toBeCloseTo(slip, 5);
      expect(test(slipsAtN).paidOutM).toBeLessThan(1);
    }
    expect(test(3000).paidOutM).toBeGreaterThan(1);
    // 9.45 kN is what the rope takes without slip, so this brake never slips.
    expect(test(10_000)).toMatchObject({ paidOutM: 0 });
  });

  it("a brake that slips below the weight lowers the load to the ground, or holds nothing where there is none", () => {
    const system = plumb({
      massKg: 200,
      stiffnessN: 40_000,
      lengthM: 20,
      share: 0.4,
      rest: { holding: { kind: "brake", slipsAtN: 1500 } },
    });
    expect(letGo(system, "goes")).toMatchObject({ ok: false, code: "nothing-holds", where: "load" });
    const ground = { pointM: [0, 0, -6], normal: [0, 0, 3] } as const;
    const found = gone({ ...system, stops: { ground } }, "goes");
    expect(found.touches).toHaveLength(1);
    expect(found.load.dropM).toBeCloseTo(6, 6);
    // Falls with W − F once the brake slips: v² = 2 (g − F/m) d, from where it slips with what speed it has there.
    const { speedMS } = found.touches[0]!;
    expect(0.5 * 200 * speedMS ** 2).toBeCloseTo(found.energy.hitsJ, 6);
    expect(speedMS).toBeGreaterThan(Math.sqrt(2 * (G - 1500 / 200) * 5));
    expect(speedMS).toBeLessThan(Math.sqrt(2 * G * 6));
    expect(found.approaches.ground!.distanceM).toBeLessThan(1e-6);
  });

  it("hands keep their tension, whichever way the line runs", () => {
    const found = gone(exampleLetGo(), "right", FINE);
    const tensions = found.motion.tensionsN.tag!;
    expect(new Set(tensions)).toEqual(new Set([60]));
    expect(found.lines.tag!.paidOutM).not.toBe(0);
    expect(found.nodes.hand!.peakN).toBeCloseTo(60, 9);
  });

  it("a grip holds to its limit and then not at all; what is left must hold, or nothing does", () => {
    const weight = 200 * G;
    const base = plumb({ massKg: 200, stiffnessN: 60_000, lengthM: 30, share: 0.5 });
    const gripped = (letsGoAtN: number, others: LetGoSystem["lines"] = {}) => ({
      ...base,
      lines: {
        ...base.lines,
        ...others,
        stays: { ...base.lines.stays!, holding: { kind: "fixed" as const, letsGoAtN } },
      },
    });
    expect(gone(gripped(1.51 * weight), "goes", FINE).lines.stays!.letGoAtS).toBeNull();
    expect(letGo(gripped(1.49 * weight), "goes", FINE)).toMatchObject({ ok: false, code: "nothing-holds" });
    const spare = { through: ["load", "top"], axialStiffnessN: 60_000, lengthM: 32 };
    const found = gone(gripped(1.49 * weight, { spare }), "goes", FINE);
    expect(found.lines.stays!.letGoAtS).toBeGreaterThan(0.5);
    expect(found.lines.stays!.peakN).toBeCloseTo(1.49 * weight, 5);
    expect(found.energy.letGoJ).toBeCloseTo((1.49 * weight) ** 2 / (2 * 2000), 3);
    expect(found.lines.spare!.peakN).toBeGreaterThan(2 * weight);
  });
});

describe("a load on its way", () => {
  it("swings as a pendulum, and pulls W(3 − 2 cos θ₀) at the lowest place where the rope hardly stretches", () => {
    const [ropeM, massKg] = [12, 200];
    for (const degrees of [10, 20, 30]) {
      const angle = (degrees * Math.PI) / 180;
      const stiffnessN = 2e7;
      const weight = massKg * G;
      const held = ropeM * (1 + (weight * Math.cos(angle)) / stiffnessN);
      const system: LetGoSystem = {
        nodes: {
          load: { positionM: [held * Math.sin(angle), 0, -held * Math.cos(angle)], massKg },
          tip: { positionM: [0, 0, 0] },
          hand: { positionM: [30, 0, -held * Math.cos(angle)] },
        },
        lines: {
          main: { through: ["load", "tip"], axialStiffnessN: stiffnessN, startTensionN: weight / Math.cos(angle) },
          tag: { through: ["load", "hand"], axialStiffnessN: null, startTensionN: weight * Math.tan(angle) },
        },
        load: "load",
      };
      const found = gone(system, "tag", { tolerance: 1e-7, durationS: 5 });
      // As it is let go the tension falls by W(1/cos θ − cos θ), and the stiff rope rings with that about the pendulum's pull.
      const ring = weight * (1 / Math.cos(angle) - Math.cos(angle));
      const bottom = weight * (3 - 2 * Math.cos(angle));
      expect(Math.abs(found.lines.main!.peakN - bottom)).toBeLessThan(ring + 0.002 * weight);
      expect(found.load.swingM).toBeCloseTo(2 * ropeM * Math.sin(angle), 2);
      expect(found.load.dropM).toBeCloseTo(ropeM * (1 - Math.cos(angle)), 2);
    }
  });

  it("is measured to walls and solids along the way, not only where it is sampled", () => {
    const { nodes, lines, load, stops } = exampleLetGo();
    const box = extrudedOutline(
      [
        [9.4, -1],
        [10.4, -1],
        [10.4, 1],
        [9.4, 1],
      ],
      0,
      3,
    );
    const found = gone({ nodes, lines, load, stops: stops!, solids: { box } }, "right", { mostSamples: 4 });
    // The load's box reaches 0.5 m down and stands over the solid: nearest at the lowest place, from which the rest is plain.
    const below = 8 - found.load.dropM - 0.5;
    expect(found.approaches.box!.distanceM).toBeCloseTo(below - 3, 3);
    expect(found.approaches.ground!.distanceM).toBeCloseTo(below, 3);
    expect(found.approaches.wall!.distanceM).toBeGreaterThan(0);
    expect(found.motion.timesS).toHaveLength(4);
  });

  it("hits a wall that it swings into, does not bounce, and goes no farther", () => {
    const { nodes, ...rest } = exampleLetGo();
    const wall = { pointM: [8, 0, 0], normal: [1, 0, 0] } as const;
    const blown = { ...nodes, load: { ...nodes.load!, forceN: [-300, 0, 0] as const } };
    const found = gone({ ...rest, nodes: blown, stops: { wall } }, "right");
    expect(found.touches.some((t) => t.stop === "wall" && t.node === "load" && t.speedMS > 0)).toBe(true);
    for (const at of found.motion.places.load!) expect(at[0] - 1).toBeGreaterThan(8 - 1e-6);
    expect(found.approaches.wall!.distanceM).toBe(0);
  });

  it("lets a tether's pulley run down the rope to the next block when the tether goes", () => {
    const found = gone(exampleLetGo({ tether: true }), "tether");
    expect(found.touches.some((t) => t.node === "rider" && t.stop === "left redirect")).toBe(true);
    // Swung out from where the tether had drawn it, on long ropes.
    expect(found.load.swingM).toBeGreaterThan(0.2);
  });
});

describe("a part of a force that is watched", () => {
  it("peaks when it does, which is not when the whole force does", () => {
    const system = exampleLetGo();
    const wind = { ...system.nodes.load!, forceN: [0, 250, 0] as const };
    const watched: LetGoSystem = {
      ...system,
      nodes: { ...system.nodes, load: wind },
      stops: {},
      watch: {
        sideways: { node: "left tip", along: [0, 5, 0] },
        // Along the force at its own peak: the same peak.
        whole: { node: "left tip", along: gone(system, "right", FINE).nodes["left tip"]!.forceN },
      },
    };
    const found = gone(watched, "right", FINE);
    const { sideways } = found.watched;
    expect(Math.abs(sideways!.forceN[1])).toBeCloseTo(sideways!.peakN, 9);
    expect(sideways!.peakN).toBeGreaterThan(1.2 * Math.abs(found.nodes["left tip"]!.forceN[1]));
    expect(sideways!.atS).not.toBeCloseTo(found.nodes["left tip"]!.atS, 1);
    // Every sample of the motion lies below it: pulls of both parts of the rope, worked out anew.
    const [tip, redirect] = [asSite([9, 0.4, 26]), asSite([0.5, 0.5, 1.5])];
    const side = (to: SiteVector, tension: number) =>
      (tension * (to[1] - tip[1])) / Math.hypot(...to.map((x, c) => x - tip[c]!));
    const samples = found.motion.places.load!.map((at, i) => {
      const tension = found.motion.tensionsN.left![i]!;
      return Math.abs(side(at, tension) + side(redirect, tension));
    });
    expect(Math.max(...samples)).toBeLessThanOrEqual(sideways!.peakN + 1e-6);
    expect(Math.max(...samples)).toBeGreaterThan(0.9 * sideways!.peakN);
    const still = gone({ ...watched, nodes: system.nodes }, "right", FINE);
    expect(still.watched.whole!.peakN / still.nodes["left tip"]!.peakN).toBeCloseTo(1, 9);
  });
});

describe("what does not matter", () => {
  const cases = [{}, { efficiency: 0.9, slipsAtN: 2500, dampingNsM: 30 }, { tipNM: 15_000, tether: true }];

  it.each(cases)("where north is, and on which side things are: %j", (of) => {
    const system = exampleLetGo(of);
    const [cos, sin] = [Math.cos(1.1), Math.sin(1.1)];
    // A turn about plumb, then a mirror.
    const moved = ([x, y, z]: readonly [number, number, number]): SiteVector =>
      site(cos * x - sin * y, -(sin * x + cos * y), z);
    const nodes = Object.fromEntries(
      Object.entries(system.nodes).map(([name, node]) => [
        name,
        {
          ...node,
          positionM: moved(node.positionM),
          ...(node.gives ? { gives: { ...node.gives, along: moved(node.gives.along) } } : {}),
        },
      ]),
    );
    const options = { tolerance: 1e-8, durationS: 3 };
    const [a, b] = [
      { ...system, stops: {} },
      { ...system, nodes, stops: {} },
    ].map((s) => gone(s, "right", options));
    expect(b!.lines.left!.peakN / a!.lines.left!.peakN).toBeCloseTo(1, 5);
    expect(b!.load.dropM).toBeCloseTo(a!.load.dropM, 4);
    const tip = moved(asSite(a!.nodes["left tip"]!.forceN));
    for (const c of [0, 1, 2]) expect(Math.abs(b!.nodes["left tip"]!.forceN[c]! - tip[c]!)).toBeLessThan(0.5);
  });

  it("shows every line's peak, the lowest and the farthest place, however few samples there are", () => {
    for (const mostSamples of [12, 40]) {
      const { motion, lines, load } = gone(exampleLetGo(cases[1]), "right", { mostSamples });
      expect(motion.timesS.length).toBeLessThanOrEqual(mostSamples);
      expect(motion.timesS).toEqual([...motion.timesS].sort((a, b) => a - b));
      for (const [name, { peakN }] of Object.entries(lines)) expect(Math.max(...motion.tensionsN[name]!)).toBe(peakN);
      expect(motion.places.load).toContainEqual(load.lowest);
      expect(motion.places.load).toContainEqual(load.farthest);
    }
  });

  it("samples what ropes do to the places that hold them, where it is asked for", () => {
    const { motion, nodes, lines } = gone(exampleLetGo(cases[1]), "right", { sampleForces: true });
    expect(Object.keys(motion.forcesN).sort()).toEqual(Object.keys(nodes).sort());
    for (const [name, { peakN }] of Object.entries(nodes)) {
      const sizes = motion.forcesN[name]!.map((f) => Math.hypot(...f));
      expect(sizes).toHaveLength(motion.timesS.length);
      expect(Math.max(...sizes)).toBeLessThanOrEqual(peakN * (1 + 1e-9));
      expect(Math.max(...sizes)).toBeGreaterThan(0.98 * peakN);
    }
    // A sheave without loss bears both parts of its rope: 2 T cos of half the angle between them, T from the same sample.
    const k = motion.tensionsN.left!.indexOf(lines.left!.peakN);
    expect(Math.hypot(...motion.forcesN["left tip"]![k]!)).toBeLessThan(2 * lines.left!.peakN);
    expect(Math.hypot(...motion.forcesN["left tip"]![k]!)).toBeGreaterThan(lines.left!.peakN);
    expect(gone(exampleLetGo(cases[1]), "right").motion.forcesN).toEqual({});
  });

  it("follows a part of the force on several places as one sum", () => {
    const system = exampleLetGo();
    const watch = {
      both: { node: ["left tip", "left redirect"], along: [0, 0, 1] },
      tip: { node: "left tip", along: [0, 0, 1] },
    } as const;
    const { both, tip } = gone({ ...system, watch }, "right").watched;
    // What the rope between them draws the tip down it draws the redirect up: left are the load's part and that to the brake.
    const rope = gone(system, "right").lines.left!.peakN;
    expect(both!.peakN).toBeLessThan(tip!.peakN);
    expect(both!.peakN / (rope * (1 + 0.5 / Math.hypot(4.5, 1.5, 0.5)))).toBeCloseTo(1, 2);
    expect(Math.abs(both!.forceN[2])).toBeCloseTo(both!.peakN, 6);
  });

  it("is the same each time", () => {
    const system = exampleLetGo(cases[1]);
    expect(letGo(system, "right")).toEqual(letGo(system, "right"));
  });
});

describe("what is not known or cannot be", () => {
  const system = exampleLetGo();
  const withLine = (name: string, change: object): LetGoSystem => ({
    ...system,
    lines: { ...system.lines, [name]: { ...system.lines[name]!, ...change } },
  });

  it.each([
    ["lines.left.axialStiffnessN", withLine("left", { axialStiffnessN: null })],
    ["lines.left.startTensionN", withLine("left", { startTensionN: null })],
    ["lines.left.efficiency[1]", withLine("left", { efficiency: [0.9, null] })],
    ["lines.left.holding.slipsAtN", withLine("left", { holding: { kind: "brake", slipsAtN: null } })],
    ["lines.tag.holding.tensionN", withLine("tag", { holding: { kind: "hands", tensionN: null } })],
  ])("%s, not known, is refused by name", (where, of) => {
    expect(letGo(of, "right")).toMatchObject({ ok: false, code: "unknown", where });
  });

  it("asks nothing of a line that is gone", () => {
    expect(letGo(withLine("right", { axialStiffnessN: null, startTensionN: null }), "right").ok).toBe(true);
  });

  it.each([
    ["lines.left.axialStiffnessN", withLine("left", { axialStiffnessN: -1 })],
    ["lines.left.through[1]", withLine("left", { through: ["load", "nowhere"] })],
    ["lines.left", withLine("left", { lengthM: 40 })],
    ["load", { ...system, load: "hand" }],
    [
      "nodes.load.positionM",
      { ...system, nodes: { ...system.nodes, load: { positionM: [0, Number.NaN, 0], massKg: 1 } } },
    ],
    ["nodes.load.massKg", { ...system, nodes: { ...system.nodes, load: { positionM: [0, 0, 5], massKg: 0 } } }],
  ] as const)("%s, if it cannot be, is refused by name", (where, of) => {
    expect(letGo(of as LetGoSystem, "right")).toMatchObject({ ok: false, code: "bad-input", where });
  });

  it("refuses a line that is not there, and options that cannot be", () => {
    expect(letGo(system, "nowhere")).toMatchObject({ ok: false, code: "bad-input", where: "cut" });
    expect(letGo(system, "right", { tolerance: 0 })).toMatchObject({ code: "bad-input", where: "tolerance" });
    expect(letGo(system, "right", { durationS: Infinity })).toMatchObject({ code: "bad-input", where: "durationS" });
    expect(letGo(system, "right", { mostSamples: 1 })).toMatchObject({ code: "bad-input", where: "mostSamples" });
  });

  it("gives what brings a failure about again", () => {
    const found = letGo({ ...system, stops: {} }, ["left", "right"]);
    expect(found).toMatchObject({ ok: false, code: "nothing-holds" });
    if (found.ok || !found.replay) throw new Error("no replay");
    const { replay } = found;
    expect(letGo(replay.system, replay.cut, replay.options)).toEqual(found);
  });
});
