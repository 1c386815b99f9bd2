import { assessStand, poseOfStand, STAND_PASSES, STAND_STATUSES, searchStands, standGrid } from "@gantline/engine";
import { describe, expect, it } from "vitest";
import { evolve } from "../evolve/evolve.ts";
import { crossingExample } from "../examples/crossing.ts";
import { deviceById } from "../library/device-by-id.ts";
import type { Plan } from "../schema/plan.ts";
import { facingAsNow } from "./as-now.ts";
import { servesAll } from "./serves-all.ts";
import { standAims } from "./stand-aims.ts";
import { aspectCost, bestByAspect, markFront } from "./stand-front.ts";
import { standShortList } from "./stand-short-list.ts";
import { STAND_ASPECTS, type StandAim, type StandEntry } from "./stand-types.ts";
import { sweepStand } from "./sweep-stand.ts";
import { openGround, rectangle, searched } from "./testing/open-ground.ts";
import { withStand } from "./with-stand.ts";

const STEPS = { cellM: 1 };

describe("the short list", () => {
  const found = searched(crossingExample, { steps: STEPS });
  const entries = standShortList(crossingExample, [found]) ?? [];
  const few = { most: 3, effort: 0.15 };

  it("holds stands that fit wherever there are any: nothing over at any moment", () => {
    expect(entries.length).toBeGreaterThan(4);
    expect(entries.length).toBeLessThanOrEqual(10);
    expect(entries.map((e) => e.fit)).not.toContain("fails");
    expect(entries.some((e) => e.fit === "fits")).toBe(true);
    for (const e of [entries[0], entries.at(-1)]) {
      if (!e) continue;
      const { ledger } = evolve(withStand(crossingExample, e.choice));
      expect(ledger.filter((c) => c.counts && c.status === "over")).toEqual([]);
      expect(e.counts.over).toBe(0);
    }
  });

  it("is the same each time, however the search was split into bands", () => {
    const { question } = found.asked;
    const { rows } = standGrid(question);
    const bands = [...STAND_PASSES].reverse().map((pass) => {
      const band = searchStands(question, { fromRow: 0, toRow: rows, pass });
      if (!band) throw new Error("not cancelled, and yet no answer");
      return band;
    });
    expect(standShortList(crossingExample, [{ asked: found.asked, bands }], few)).toEqual(
      standShortList(crossingExample, [found], few),
    );
  });

  it("holds the steepest within a hundredth of what the vehicle can do, and the shortest of stands spread evenly and swept one by one", () => {
    const { question, device } = found.asked;
    const steepest = bestByAspect(entries, "steepest");
    expect(steepest?.figures.elevationRad).toBeGreaterThan(0.99 * device.elevationMaxRad);
    const shortestM = bestByAspect(entries, "shortest")?.figures.lengthM ?? 0;
    const { minZM, maxZM, xM, yM } = question.target;
    let shorter = 0;
    for (let n = 0; n < 20_000 && shorter < 25; n++) {
      const candidate = facingAsNow(crossingExample, question, {
        turntable: [-7 + 14 * ((n * 0.8191725) % 1), -14 + 21 * ((n * 0.6710436) % 1)],
        headingRad: 0,
        point: [xM, yM, minZM + (maxZM - minZM) * ((n * 0.5497005) % 1)],
      });
      const assessed = candidate && assessStand(question, candidate);
      if (!candidate || assessed?.status !== "feasible") continue;
      const posed = (assessed.figures.shortest ?? 99) < 0.99 * shortestM ? poseOfStand(question, candidate) : null;
      if (!posed) continue;
      shorter++;
      const { turntable, headingRad } = candidate;
      const swept = sweepStand(withStand(crossingExample, { device, turntable, headingRad, pose: posed.pose }));
      expect(swept.fit).toBe("fails");
    }
    expect(shorter).toBe(25);
  });

  it("is within a hundredth of the shortest ladder and the least rope that ten minutes of random search found", () => {
    // Found by an audit, off the grid, each swept: 22.18 m of ladder and 163.0 m of rope.
    expect(bestByAspect(entries, "shortest")?.figures.lengthM).toBeLessThan(1.01 * 22.18);
    expect(bestByAspect(entries, "leastRope")?.figures.ropeM).toBeLessThan(1.01 * 163.0);
  });

  it.each(["cut in two", "half of which is to be kept off"])(
    "is no worse in a yard than in the same yard %s",
    (how) => {
      const [yard] = crossingExample.scene.parking;
      if (!yard) throw new Error("no yard");
      const { scene } = crossingExample;
      const cut: Plan = {
        ...crossingExample,
        scene:
          how === "cut in two"
            ? {
                ...scene,
                parking: [
                  { ...yard, outline: rectangle(-7, -4, 7, 7) },
                  { ...yard, id: "lower", name: "Lower yard", outline: rectangle(-7, -14, 7, -4) },
                ],
              }
            : {
                ...scene,
                areas: [
                  ...scene.areas,
                  { id: "half", name: "East half", kind: "keepOut", outline: rectangle(0, -14, 7, 7), zM: 0 },
                ],
              },
      };
      const fewer = standShortList(cut, [searched(cut, { steps: STEPS })]) ?? [];
      expect(fewer.some((e) => e.fit === "fits")).toBe(true);
      for (const aspect of STAND_ASPECTS) {
        const [whole, part] = [bestByAspect(entries, aspect), bestByAspect(fewer, aspect)];
        if (!whole || !part) throw new Error("nothing was found");
        const [a, b] = [aspectCost(whole.figures, aspect), aspectCost(part.figures, aspect)];
        // The clearest is found to within less: it lies anywhere, with the vehicle facing any way.
        expect(a - b, aspect).toBeLessThan((aspect === "clearest" ? 0.05 : 0.01) * Math.abs(b));
      }
    },
  );

  it("comes best first, and ends when it is told to", () => {
    const ranks = entries.map((e) => ["fits", "unknown", "fails"].indexOf(e.fit));
    expect(ranks).toEqual([...ranks].sort());
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

/** The load below where the rigging points hang now: it goes along to another place. */
function plumb(plan: Plan): Plan {
  const now = standAims(plan).find((aim) => aim.id === "present");
  const positionM: [number, number, number] = [now?.xM ?? 0, now?.yM ?? 0, 6];
  return { ...plan, rig: { ...plan.rig, load: { ...plan.rig.load, positionM } } };
}

describe("several places from one stand", () => {
  const plan = plumb(openGround());
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
    const entries = standShortList(plan, found, { most: 5, effort: 0.2 }) ?? [];
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
  const entries = standShortList(plan, found, { most: 8, effort: 0.2 }) ?? [];
  for (const device of devices) expect(entries.some((e) => e.choice.device.id === device.id)).toBe(true);
  for (const e of entries) expect(e.choice.pose.lengthM).toBeLessThanOrEqual(e.choice.device.lengthMaxM + 1e-6);
});
