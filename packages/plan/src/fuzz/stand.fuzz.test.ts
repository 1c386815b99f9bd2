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

const SEEDS = 80;
/** Every so many of them for every aim; the others for the first alone. */
const ALL_AIMS_EVERY = 5;
/** Wider grids are asked for but not searched here: they take long and show nothing new. */
const MOST_CELLS = 200;

it("asks, searches, takes and paints stands of damaged plans without throwing, and gives nothing but numbers", () => {
  const plans = EXAMPLES.map((e) => e.plan);
  let searched = 0;
  let placed = 0;
  const found: string[] = [];
  for (let seed = 0; seed < SEEDS; seed++) {
    const read = readPlan(mutatePlan(plans[seed % plans.length] ?? {}, 700_000 + seed).value);
    if (!read.ok) continue;
    const { plan } = read;
    for (const aim of seed % ALL_AIMS_EVERY === 0 ? standAims(plan) : [undefined]) {
      const asked = standQuestion(plan, { ...(aim && { aim }), steps: { cellM: 3, headings: 4, tipHeights: 3 } });
      if (!asked.ok) {
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
  expect(searched).toBeGreaterThan(SEEDS / 4);
  expect(placed).toBeGreaterThan(SEEDS / 5);
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

it("refuses what cannot be searched, and names the field", () => {
  const [example] = EXAMPLES;
  if (!example) throw new Error("no example");
  const { plan } = example;
  const { scene, aerial, rig } = plan;
  const lacking: readonly (readonly [Plan, string])[] = [
    [{ ...plan, scene: { ...scene, parking: [] } }, "scene.parking"],
    [
      { ...plan, aerial: { ...aerial, device: { ...aerial.device, riggingPoints: [] } } },
      "rig.mainLines[0].tip.pointId",
    ],
    [{ ...plan, rig: { ...rig, mainLines: [] } }, "rig.mainLines[0].tip.pointId"],
  ];
  for (const [damaged, path] of lacking) {
    const asked = standQuestion(damaged);
    expect(asked.ok ? [] : asked.problems.map((p) => p.path)).toContain(path);
  }
});
