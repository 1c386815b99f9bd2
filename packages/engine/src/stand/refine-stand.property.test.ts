import { describe, expect, test } from "vitest";
import { assessStand } from "./assess-stand.ts";
import { refineStand } from "./refine-stand.ts";
import { searchStands } from "./search-stands.ts";
import { STAND_FIGURES, type StandBand, type StandFigure } from "./stand-band.ts";
import { standGrid } from "./stand-grid.ts";
import type { StandQuestion } from "./stand-question.ts";
import { randomYard } from "./testing/example-question.ts";

const whole = (question: StandQuestion): StandBand =>
  searchStands(question, { fromRow: 0, toRow: standGrid(question).rows }) ?? expect.unreachable();

/** The best figure of all feasible cells; `null` for none. */
function bestOf(band: StandBand, figure: StandFigure): number | null {
  const least = figure === "shortest" || figure === "leastUsed";
  const { figure: values, candidate } = band.best[figure];
  return band.cells.reduce<number | null>((best, _, i) => {
    const value = values[i] as number;
    if (band.status[i] !== 0 || (candidate[i] as number) < 0) return best;
    return best === null || (least ? value < best : value > best) ? value : best;
  }, null);
}

/** From as many cells as the product starts from. */
const STARTS = 6;
let yardsWithout = 0;

describe("refineStand, against brute force on a grid ten times finer", () => {
  test.each(Array.from({ length: 50 }, (_, i) => i + 1))(
    "yard %i",
    (seed) => {
      const coarse: StandQuestion = {
        ...randomYard(seed),
        steps: { cellM: 2, headings: 8, tipPlaces: 3, tipHeights: 4 },
      };
      const band = whole(coarse);
      const fine = whole({ ...coarse, steps: { cellM: 0.2, headings: 8, tipPlaces: 4, tipHeights: 3 } });
      if (bestOf(fine, "shortest") === null) yardsWithout++;
      for (const figure of STAND_FIGURES) {
        const brute = bestOf(fine, figure);
        const found = refineStand(coarse, band, figure, { starts: STARTS });
        if (brute !== null) {
          const least = figure === "shortest" || figure === "leastUsed";
          const reached = found?.figure ?? expect.unreachable(`${figure}: nothing found, ${brute} on the fine grid`);
          expect(least ? reached / brute - 1 : 1 - reached / brute, figure).toBeLessThan(0.01);
        }
        if (!found) continue;
        const again = assessStand(coarse, found);
        expect(again.status).toBe("feasible");
        expect(again.figures[figure]).toBeCloseTo(found.figure, 12);
      }
    },
    120_000,
  );

  test("most yards have somewhere to stand", () => {
    expect(yardsWithout).toBeLessThan(15);
  });
});
