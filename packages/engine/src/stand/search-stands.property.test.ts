import { describe, expect, test } from "vitest";
import { seededRandom } from "../numerics/seeded-random.ts";
import { assessStand } from "./assess-stand.ts";
import { searchStands } from "./search-stands.ts";
import { standAt, standReasonAt, standStatusAt } from "./stand-at.ts";
import { STAND_FIGURES } from "./stand-band.ts";
import { cellMiddle, passCells, STAND_PASSES, standGrid } from "./stand-grid.ts";
import type { StandCandidate, StandQuestion } from "./stand-question.ts";
import { evenHeadings, tipHeights, tipPlaces, turnTipPlaces } from "./stand-steps.ts";
import { randomYard } from "./testing/example-question.ts";
import { wholeCheck } from "./testing/whole-check.ts";

const whole = (question: StandQuestion) =>
  searchStands(question, { fromRow: 0, toRow: standGrid(question).rows }) ?? expect.unreachable();

/** Nearer to a limit than this, rounding may decide. */
const ROUNDING = 1e-6;

/** The checks of a reason, by what the general functions call them. */
const GENERAL: Readonly<Record<string, string>> = {
  vehicleOffParking: "onGround",
  jackOffParking: "onGround",
  vehicleOnKeepOut: "offKeepOut",
  jackOnKeepOut: "offKeepOut",
  vehicleClearance: "body",
  jackClearance: "body",
  vehicleToWire: "bodyWires",
  slopeAlong: "slope",
  slopeAcross: "slope",
  tooNear: "reach",
  tooLow: "reach",
  tooSteep: "reach",
  tooShort: "reach",
  tooLong: "reach",
  rating: "rating",
  ladderClearance: "ladder",
  platformClearance: "platform",
  ladderToWire: "ladderWires",
  platformToWire: "platformWires",
};

describe("one candidate, against the engine's general functions", () => {
  test("the yes or no, and the distance that governs, are those of clearance() on the true solids", () => {
    let agreed = 0;
    const seen = new Map<string, number>();
    for (let seed = 1; seed <= 120; seed++) {
      const question = randomYard(seed);
      const random = seededRandom(1000 + seed);
      const { rows, columns } = standGrid(question);
      for (let n = 0; n < 20; n++) {
        const turntable = cellMiddle(standGrid(question), Math.floor(random() * rows * columns));
        const { target } = question;
        const candidate: StandCandidate = {
          turntable,
          headingRad: random() * 2 * Math.PI,
          point: [target.xM + random(), target.yM - random(), target.minZM + random() * 5],
        };
        const general = wholeCheck(question, candidate);
        const found = assessStand(question, candidate);
        if (general === null) {
          expect(found.reason?.check).toBe("offParking");
          continue;
        }
        const known = Object.values(general).filter((v) => !Number.isNaN(v));
        if (known.some((v) => Math.abs(v) < ROUNDING)) continue;
        const fails = known.some((v) => v < 0);
        const inPlan = found.reason && /OffParking|OnKeepOut/.test(found.reason.check);
        // The general check looks at corners alone: an edge across a corner of the ground is the search's to see.
        if (!fails && inPlan) continue;
        agreed++;
        expect(found.status === "rejected", JSON.stringify({ seed, n, general, found })).toBe(fails);
        if (!fails) expect(found.status === "unknown").toBe(known.length < Object.values(general).length);
        if (!found.reason) continue;
        seen.set(found.reason.check, (seen.get(found.reason.check) ?? 0) + 1);
        if (found.reason.unit !== "m" || inPlan || found.status !== "rejected") continue;
        const spare = general[GENERAL[found.reason.check] ?? ""] ?? Number.NaN;
        if (found.reason.check === "tooNear") continue;
        expect(-(found.reason.shortfall ?? 0), JSON.stringify({ seed, n, found, general })).toBeCloseTo(spare, 6);
      }
    }
    expect(agreed).toBeGreaterThan(1000);
    for (const check of ["ladderClearance", "platformClearance", "ladderToWire", "vehicleClearance", "jackClearance"])
      expect(seen.get(check) ?? 0, check).toBeGreaterThan(3);
  });
});

describe("a cell, against trying every candidate one by one", () => {
  test.each([1, 2, 4, 6, 7, 9, 12, 15])("yard %i", (seed) => {
    const question: StandQuestion = {
      ...randomYard(seed),
      steps: { cellM: 10, headings: 4, tipPlaces: 3, tipHeights: 3 },
    };
    const grid = standGrid(question);
    const band = whole(question);
    const { steps, target } = question;
    const tips = tipPlaces(steps.tipPlaces, target.toleranceM);
    expect(band.cells.length).toBe(grid.rows * grid.columns);
    for (let i = 0; i < band.cells.length; i++) {
      const cell = band.cells[i] as number;
      const [cellX, cellY] = cellMiddle(grid, cell);
      turnTipPlaces(tips, target.toleranceM, cellX - target.xM, cellY - target.yM);
      const all = [...evenHeadings(steps.headings)].flatMap((headingRad) =>
        [...tips.x].flatMap((x, t) =>
          [...tipHeights(steps.tipHeights, target)].map((z) =>
            assessStand(question, {
              turntable: cellMiddle(grid, cell),
              headingRad,
              point: [target.xM + x, target.yM + (tips.y[t] as number), z],
            }),
          ),
        ),
      );
      const of = (status: string) => all.filter((a) => a.status === status);
      if (all.every((a) => a.status === "rejected")) {
        // More heights are tried then: they come at least as near, and what they find holds.
        expect(band.miss[i]).toBeLessThanOrEqual(Math.min(...all.map((a) => a.miss)) + 1e-9);
        const more = standAt(question, cell, band.best.shortest.candidate[i] as number);
        expect(more === null).toBe(standStatusAt(band, i) === "rejected");
        if (more) expect(assessStand(question, more).status).toBe(standStatusAt(band, i));
        continue;
      }
      expect(band.feasibleCount[i]).toBe(of("feasible").length);
      expect(band.unknownCount[i]).toBe(of("unknown").length);
      const status = of("feasible").length > 0 ? "feasible" : of("unknown").length > 0 ? "unknown" : "rejected";
      expect(standStatusAt(band, i)).toBe(status);
      expect(standReasonAt(question, band, i) === null).toBe(status === "feasible");
      expect(band.miss[i]).toBeCloseTo(Math.min(...all.map((a) => a.miss)), 9);
      for (const figure of STAND_FIGURES) {
        const values = of(status).flatMap((a) => a.figures[figure] ?? []);
        const stand = standAt(question, cell, band.best[figure].candidate[i] as number);
        expect(stand === null).toBe(values.length === 0);
        if (!stand) continue;
        const least = figure === "shortest" || figure === "leastUsed";
        expect(band.best[figure].figure[i]).toBeCloseTo(least ? Math.min(...values) : Math.max(...values), 9);
        expect(assessStand(question, stand).figures[figure]).toBeCloseTo(band.best[figure].figure[i] as number, 9);
      }
    }
  });
});

test("few heights and places find the cells that many find, against brute force on all of them", () => {
  let fit = 0;
  let missed = 0;
  let withoutLooking = 0;
  for (let seed = 1; seed <= 24; seed++) {
    const yard = randomYard(seed);
    const few: StandQuestion = {
      ...yard,
      // Heights so far apart that what fits lies between them.
      target: { ...yard.target, maxZM: yard.target.minZM + 12 },
      steps: { cellM: 5, headings: 8, tipPlaces: 3, tipHeights: 4 },
    };
    const found = whole(few);
    const brute = whole({ ...few, steps: { ...few.steps, tipPlaces: 24, tipHeights: 121 } });
    const heights = [...tipHeights(4, few.target)];
    for (let i = 0; i < brute.cells.length; i++) {
      if (standStatusAt(brute, i) !== "feasible") continue;
      fit++;
      if (standStatusAt(found, i) !== "feasible") missed++;
      const stand = standAt(few, found.cells[i] as number, found.best.steepest.candidate[i] as number);
      if (!stand || heights.every((z) => Math.abs(z - stand.point[2]) > 1e-6)) withoutLooking++;
    }
  }
  expect(fit).toBeGreaterThan(300);
  // Without looking between the heights this many would be missed.
  expect(withoutLooking).toBeGreaterThan(0.05 * fit);
  expect(missed).toBeLessThan(0.02 * fit);
});

describe("bands and passes", () => {
  const question = randomYard(4);
  const grid = standGrid(question);

  test("the passes look at every cell once", () => {
    const cells = STAND_PASSES.flatMap((pass) => [...passCells(grid, 0, grid.rows, pass)]);
    expect(cells.sort((a, b) => a - b)).toEqual(Array.from({ length: grid.rows * grid.columns }, (_, i) => i));
  });

  test("bands and passes find what one search of everything finds", () => {
    const all = whole(question);
    for (const pass of STAND_PASSES) {
      for (let fromRow = 0; fromRow < grid.rows; fromRow += 5) {
        const band = searchStands(question, { fromRow, toRow: fromRow + 5, pass }) ?? expect.unreachable();
        for (let i = 0; i < band.cells.length; i++) {
          const at = band.cells[i] as number;
          expect(band.status[i]).toBe(all.status[at]);
          expect(band.miss[i]).toBe(all.miss[at]);
          expect(band.best.clearest.figure[i]).toBe(all.best.clearest.figure[at]);
        }
      }
    }
  });

  test("is cancelled", () => {
    let asked = 0;
    const cancelled = () => ++asked > 2;
    expect(searchStands(question, { fromRow: 0, toRow: grid.rows, cancelled })).toBeNull();
    expect(asked).toBe(3);
  });

  test("hands out no NaN and no infinity", () => {
    const band = whole(question);
    const arrays = [band.value, band.limit, band.miss, ...STAND_FIGURES.map((f) => band.best[f].figure)];
    for (const numbers of arrays) expect(numbers.every(Number.isFinite)).toBe(true);
  });
});
