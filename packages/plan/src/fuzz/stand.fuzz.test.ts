import { searchStands, standGrid } from "@gantline/engine";
import { expect, it } from "vitest";
import { EXAMPLES } from "../examples/all-examples.ts";
import { readPlan } from "../read-plan.ts";
import type { Plan } from "../schema/plan.ts";
import { standAims } from "../stand/stand-aims.ts";
import { standPlacement } from "../stand/stand-placement.ts";
import { standQuestion } from "../stand/stand-question.ts";
import { withStand } from "../stand/with-stand.ts";
import { mutatePlan } from "./mutate-plan.ts";
import { unsoundNumbers } from "./unsound-numbers.ts";

const SEEDS = 360;
/** Wider grids are asked for but not searched here: they take long and show nothing new. */
const MOST_CELLS = 400;

it("asks, searches, takes and paints stands of damaged plans without throwing, and gives nothing but numbers", () => {
  const plans = EXAMPLES.map((e) => e.plan);
  let searched = 0;
  let placed = 0;
  let refused = 0;
  const found: string[] = [];
  for (let seed = 0; seed < SEEDS; seed++) {
    const read = readPlan(mutatePlan(plans[seed % plans.length] ?? {}, 700_000 + seed).value);
    if (!read.ok) continue;
    const { plan } = read;
    for (const aim of standAims(plan)) {
      const asked = standQuestion(plan, { aim, steps: { cellM: 3, headings: 4, tipHeights: 3 } });
      if (!asked.ok) {
        refused++;
        expect(asked.problems.length).toBeGreaterThan(0);
        continue;
      }
      found.push(...unsoundNumbers(asked.question).map((path) => `seed ${seed}: question ${path}`));
      const { columns, rows } = standGrid(asked.question);
      expect(columns * rows).toBeLessThan(1_000_000);
      if (columns * rows > MOST_CELLS) continue;
      searched++;
      const band = searchStands(asked.question, { fromRow: 0, toRow: rows });
      if (!band) throw new Error("not cancelled");
      for (const numbers of [band.value, band.limit, band.miss, band.best.leastUsed.figure, band.best.clearest.figure])
        if (!numbers.every(Number.isFinite)) found.push(`seed ${seed}: band`);
    }
    const placement = standPlacement(plan);
    placed++;
    found.push(...unsoundNumbers(placement).map((path) => `seed ${seed}: placement ${path}`));
    found.push(...unsoundNumbers(takenAsItIs(plan)).map((path) => `seed ${seed}: plan ${path}`));
  }
  expect(found).toEqual([]);
  expect(searched).toBeGreaterThan(150);
  expect(placed).toBeGreaterThan(75);
  expect(refused).toBeGreaterThan(3);
});

/** The plan's own stand taken into it: the schema accepts what comes of it. */
function takenAsItIs(plan: Plan): Plan {
  const { device, place, pose } = plan.aerial;
  const taken = withStand(plan, {
    device,
    turntable: [place.turntableX, place.turntableY],
    headingRad: place.headingRad,
    pose,
  });
  const read = readPlan(JSON.parse(JSON.stringify(taken)));
  expect(read.ok).toBe(true);
  return taken;
}
