import { assessStand, poseOfStand, STAND_STATUSES } from "@gantline/engine";
import { describe, expect, it } from "vitest";
import { evolve } from "../evolve/evolve.ts";
import { crossingExample } from "../examples/crossing.ts";
import { deviceById } from "../library/device-by-id.ts";
import type { Plan } from "../schema/plan.ts";
import { servesAll } from "./serves-all.ts";
import { standAims } from "./stand-aims.ts";
import { bestByAspect, markFront } from "./stand-front.ts";
import { standShortList } from "./stand-short-list.ts";
import { STAND_ASPECTS, type StandAim, type StandEntry } from "./stand-types.ts";
import { openGround, searched } from "./testing/open-ground.ts";
import { withStand } from "./with-stand.ts";

const STEPS = { cellM: 1 };

describe("the short list", () => {
  const found = searched(crossingExample, { steps: STEPS });
  const entries = standShortList(crossingExample, [found]) ?? [];

  it("sweeps every stand with every check: what fits has nothing over at any moment", () => {
    expect(entries.length).toBeGreaterThan(5);
    expect(entries.length).toBeLessThanOrEqual(14);
    expect(entries.some((e) => e.fit === "fits")).toBe(true);
    expect(entries.some((e) => e.fit === "fails")).toBe(true);
    for (const e of [entries[0], entries.at(-1)]) {
      if (!e) continue;
      const { ledger } = evolve(withStand(crossingExample, e.choice));
      const over = ledger.filter((c) => c.counts && c.status === "over");
      expect(e.fit === "fails").toBe(over.length > 0);
      expect(e.counts.over).toBe(over.length);
      if (over[0]) expect(e.worst?.status).toBe("over");
    }
  });

  it("comes best first, the same each time, and ends when it is told to", () => {
    const ranks = entries.map((e) => ["fits", "unknown", "fails"].indexOf(e.fit));
    expect(ranks).toEqual([...ranks].sort());
    const few = { most: 3 };
    expect(standShortList(crossingExample, [found], few)).toEqual(standShortList(crossingExample, [found], few));
    let asked = 0;
    expect(standShortList(crossingExample, [found], { cancelled: () => ++asked > 2 })).toBeNull();
    expect(asked).toBe(3);
  });

  it("finds the best by each figure of those that fit", () => {
    const fits = entries.filter((e) => e.fit === "fits");
    expect(bestByAspect(entries, "steepest")?.figures.elevationRad).toBe(
      Math.max(...fits.map((e) => e.figures.elevationRad)),
    );
    expect(bestByAspect(entries, "shortest")?.figures.lengthM).toBe(Math.min(...fits.map((e) => e.figures.lengthM)));
    expect(bestByAspect(entries, "leastRope")?.figures.ropeM).toBe(
      Math.min(...fits.map((e) => e.figures.ropeM ?? 1e9)),
    );
    // Whoever is best by a figure alone is in front.
    for (const aspect of STAND_ASPECTS) expect(bestByAspect(entries, aspect)).not.toBeNull();
    expect(entries.filter((e) => e.inFront).length).toBeGreaterThan(0);
    expect(entries.some((e) => e.inFront && e.fit === "fails")).toBe(false);
  });

  it("puts in front exactly what nothing beats", () => {
    const [some] = entries;
    if (!some) throw new Error("nothing was found");
    const make = (elevationRad: number, lengthM: number): Omit<StandEntry, "inFront"> => ({
      ...some,
      fit: "fits",
      figures: { ...some.figures, elevationRad, lengthM },
    });
    const front = markFront([make(1.2, 20), make(1.1, 18), make(1.1, 21), make(1.2, 20)]).map((e) => e.inFront);
    expect(front).toEqual([true, true, false, true]);
  });
});

describe("several places from one stand", () => {
  const plan = openGround();
  const aims: readonly StandAim[] = [
    standAims(plan)[0],
    { id: "second", name: "Second landing", xM: 9, yM: -1, landingZM: 0 },
  ];
  const found = aims.map((aim) => searched(plan, { aim, steps: { cellM: 2 } }));

  it("serves all from the cells that serve each, and from no other", () => {
    const cells = servesAll(found);
    const feasible = found.map(
      ({ band }) => new Set([...band.cells].filter((_, i) => STAND_STATUSES[band.status[i] ?? 2] === "feasible")),
    );
    const [a, b] = feasible;
    expect(cells.size).toBeGreaterThan(5);
    expect(cells.size).toBeLessThan(Math.max(a?.size ?? 0, b?.size ?? 0));
    for (const cell of new Set([...(a ?? []), ...(b ?? [])]))
      expect(cells.has(cell)).toBe((a?.has(cell) ?? false) && (b?.has(cell) ?? false));
  });

  it("gives a pose over each place from the same place and heading, by the search's own exact check", () => {
    const entries = standShortList(plan, found, { most: 5 }) ?? [];
    expect(entries.length).toBeGreaterThan(0);
    for (const { choice, alsoServes } of entries) {
      expect(alsoServes.map((s) => s.aim.id)).toEqual(["second"]);
      const question = found[1]?.asked.question;
      const pose = alsoServes[0]?.pose;
      if (!question || !pose) throw new Error("no second aim");
      const heights = Array.from({ length: 2000 }, (_, k) => question.target.minZM + k * 0.01);
      const works = heights.some((z) => {
        const candidate = { turntable: choice.turntable, headingRad: choice.headingRad, point: [9, -1, z] as const };
        const posed = poseOfStand(question, candidate);
        return (
          posed !== null &&
          Math.abs(posed.pose.lengthM - pose.lengthM) < 0.02 &&
          assessStand(question, candidate).status === "feasible"
        );
      });
      expect(works).toBe(true);
    }
  });
});

it("tries several vehicles turn by turn", () => {
  const plan: Plan = openGround();
  const devices = [plan.aerial.device, deviceById("example-ladder-23")];
  const found = devices.map((device) => searched(plan, { device, steps: { cellM: 2 } }));
  const entries = standShortList(plan, found, { most: 8 }) ?? [];
  for (const device of devices) expect(entries.some((e) => e.choice.device.id === device.id)).toBe(true);
  for (const e of entries) expect(e.choice.pose.lengthM).toBeLessThanOrEqual(e.choice.device.lengthMaxM + 1e-6);
});
