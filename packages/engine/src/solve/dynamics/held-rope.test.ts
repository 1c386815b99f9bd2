import { describe, expect, it } from "vitest";
import { STANDARD_GRAVITY_MS2 } from "../../base/constants.ts";
import { exampleLetGo } from "../testing/example-let-go.ts";
import { letGo } from "./let-go.ts";
import type { LetGo, LetGoOptions, LetGoSystem } from "./let-go-types.ts";

/** A load plumb under a sheave with loss, a brake at the rope's other end, and some slack. */
const OF = {
  massKg: 200,
  stiffnessN: 30_000,
  dropM: 12,
  returnM: 15,
  ropeM: 27.4,
  /** Over half a turn. */
  efficiency: 0.9,
  slipsAtN: 3600,
  durationS: 12,
};

const SYSTEM: LetGoSystem = {
  nodes: {
    load: { positionM: [0, 0, 0], massKg: OF.massKg },
    tip: { positionM: [0, 0, OF.dropM] },
    brake: { positionM: [0, 0, OF.dropM - OF.returnM] },
  },
  lines: {
    rope: {
      through: ["load", "tip", "brake"],
      axialStiffnessN: OF.stiffnessN,
      lengthM: OF.ropeM,
      efficiency: [OF.efficiency],
      holding: { kind: "brake", slipsAtN: OF.slipsAtN },
    },
  },
  load: "load",
};

function gone(options: LetGoOptions): LetGo {
  const found = letGo(SYSTEM, [], options);
  if (!found.ok) throw new Error(found.hint);
  return found;
}

/**
 * The same by brute force, in plain arithmetic: even, tiny steps of leapfrog; in each a little rope is let over the sheave, and
 * out at the brake, by bisection, until neither holds more than it can.
 */
function bruteForce(stepS: number) {
  const { massKg, stiffnessN, efficiency, slipsAtN } = OF;
  let [fallen, speed] = [0, 0];
  let [front, back] = [OF.ropeM - OF.returnM, OF.returnM];
  let [peak, lowest, paidOut] = [0, 0, 0];
  const pull = (length: number, rope: number) => Math.max(0, stiffnessN * (length / rope - 1));
  for (let step = 0; step < OF.durationS / stepS; step++) {
    fallen += speed * stepS;
    const length = OF.dropM + fallen;
    for (let round = 0; round < 3; round++) {
      const held = (moved: number) =>
        pull(length, front + moved) * efficiency - pull(OF.returnM, back - moved) <= 0 &&
        pull(OF.returnM, back - moved) * efficiency - pull(length, front + moved) <= 0;
      if (!held(0)) {
        // Toward the greater pull.
        const way = pull(length, front) > pull(OF.returnM, back) ? 1 : -1;
        let [less, more] = [0, 0.5];
        for (let k = 0; k < 45; k++) {
          const middle = (less + more) / 2;
          const over =
            way > 0
              ? pull(length, front + middle) * efficiency > pull(OF.returnM, back - middle)
              : pull(OF.returnM, back + middle) * efficiency > pull(length, front - middle);
          if (over) less = middle;
          else more = middle;
        }
        front += way * more;
        back -= way * more;
      }
      if (pull(OF.returnM, back) > slipsAtN) {
        const let_ = OF.returnM / (1 + slipsAtN / stiffnessN) - back;
        back += let_;
        paidOut += let_;
      }
    }
    const tension = pull(length, front);
    speed += (STANDARD_GRAVITY_MS2 - tension / massKg) * stepS;
    peak = Math.max(peak, tension);
    lowest = Math.max(lowest, fallen);
  }
  return { peak, lowest, paidOut };
}

describe("a rope that its sheave and its brake hold", () => {
  it("does what tiny steps of brute force do, the nearer the smaller they are", () => {
    const ours = gone({ tolerance: 1e-9, durationS: OF.durationS });
    const { rope } = ours.lines;
    const [coarse, fine] = [1e-3, 1e-4].map((stepS) => {
      const { peak, lowest, paidOut } = bruteForce(stepS);
      return [peak / rope!.peakN - 1, lowest / ours.load.dropM - 1, paidOut / rope!.paidOutM - 1].map(Math.abs);
    });
    // First order: a tenth of the step, about a tenth of the error.
    for (const i of [0, 1, 2]) {
      expect(fine![i]!).toBeLessThan(2e-4);
      expect(fine![i]!).toBeLessThan(Math.max(0.3 * coarse![i]!, 1e-5));
    }
    expect(rope!.paidOutM).toBeGreaterThan(0.05);
    expect(ours.energy.frictionJ).toBeGreaterThan(100);
    expect(ours.energy.brakeJ).toBeGreaterThan(100);
  });

  it("gives the same the finer the tolerance, in proportion to it", () => {
    const best = gone({ tolerance: 1e-11, durationS: 6 });
    for (const tolerance of [1e-5, 1e-6, 1e-7, 1e-8, 1e-9]) {
      const found = gone({ tolerance, durationS: 6 });
      expect(Math.abs(found.lines.rope!.peakN / best.lines.rope!.peakN - 1)).toBeLessThan(100 * tolerance);
      expect(Math.abs(found.load.dropM - best.load.dropM)).toBeLessThan(200 * tolerance);
      expect(Math.abs(found.lines.rope!.paidOutM - best.lines.rope!.paidOutM)).toBeLessThan(200 * tolerance);
    }
  });

  it("slides only as far as the ratio of its sheave asks", () => {
    const found = gone({ tolerance: 1e-9 });
    const [atLoad, atBrake] = found.lines.rope!.segmentPeaksN as [number, number];
    expect(atBrake).toBeCloseTo(OF.slipsAtN, 6);
    expect(atLoad).toBeCloseTo(OF.slipsAtN / OF.efficiency, 6);
    // Both pulls on the tip, at once.
    expect(found.nodes.tip!.peakN).toBeCloseTo(atLoad + atBrake, 6);
    expect(found.nodes.tip!.forceN[2]).toBeCloseTo(-atLoad - atBrake, 6);
  });
});

describe("the energy book", () => {
  const rigs = {
    "sheaves with loss": { efficiency: 0.85 },
    "slipping brakes": { slipsAtN: 2500, efficiency: 0.95 },
    "damped ropes and a tip that gives": { dampingNsM: 40, tipNM: 15_000 },
    "a tether on a riding pulley": { tether: true, efficiency: 0.9 },
    "all of it": { tether: true, efficiency: 0.9, slipsAtN: 1500, dampingNsM: 30, tipNM: 15_000 },
  };
  const runs = Object.entries(rigs).flatMap(([name, of]) =>
    ["left", "right", "tag", ...("tether" in of ? ["tether"] : [])].map((cut) => [name, cut, of] as const),
  );

  it.each(runs)("closes with %s when %s goes, and loses nothing back", (_name, cut, of) => {
    const found = letGo(exampleLetGo(of), cut, { durationS: 8 });
    if (!found.ok) throw new Error(found.hint);
    const { energy } = found;
    expect(energy.closureShare).toBeLessThan(1e-3);
    for (const lost of [energy.frictionJ, energy.dampingJ, energy.brakeJ, energy.hitsJ])
      expect(lost).toBeGreaterThan(-0.5);
  });
});
