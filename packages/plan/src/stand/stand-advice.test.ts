import { describe, expect, it } from "vitest";
import { evaluate } from "../evaluate.ts";
import { crossingExample } from "../examples/crossing.ts";
import { EXAMPLE_DEVICES } from "../library/devices.ts";
import type { Plan } from "../schema/plan.ts";
import { writePhrase } from "../units/write-amount.ts";
import { grownOutline } from "./grown-outline.ts";
import { seekStand } from "./seek-stand.ts";
import { standAdvice } from "./stand-advice.ts";
import { standAims } from "./stand-aims.ts";
import { standChanges } from "./stand-changes.ts";
import type { StandAdvice } from "./stand-types.ts";
import { askOf, openGround, rectangle } from "./testing/open-ground.ts";

const ASK = { steps: { cellM: 1 } };
const isFound = (plan: Plan): boolean => seekStand(plan, ASK, { swept: false, cancelled: () => false }) !== null;
const onGround = (plan: Plan, outline: [number, number][]): Plan => ({
  ...plan,
  scene: { ...plan.scene, parking: plan.scene.parking.map((p) => ({ ...p, outline })) },
});
const withLoad = (plan: Plan, massKg: number): Plan => ({
  ...plan,
  rig: { ...plan.rig, load: { ...plan.rig.load, parts: [{ id: "person", name: "Person", kind: "rescuer", massKg }] } },
});
const adviceFor = (plan: Plan): readonly StandAdvice[] => standAdvice(plan, ASK, { vehicles: EXAMPLE_DEVICES }) ?? [];
/** One kind of advice; ends once it is found. */
function adviceOfKind(plan: Plan, kind: StandAdvice["kind"]): StandAdvice & { amount: number; withinAmount: number } {
  let found: StandAdvice | null = null;
  const onFound = (advice: StandAdvice): void => {
    if (advice.kind === kind) found = advice;
  };
  standAdvice(plan, ASK, { vehicles: EXAMPLE_DEVICES, onFound, cancelled: () => found !== null });
  const { amount = null, withinAmount = null, ...rest } = found ?? ({} as Partial<StandAdvice>);
  if (amount === null || withinAmount === null) throw new Error("not found");
  return { ...(rest as StandAdvice), amount, withinAmount };
}

describe("where nothing fits", () => {
  // With its whole outline on this ground the turntable is 27 m off or more: so flat and long the ladder is rated for 1.1 kN,
  // and two ropes put more on its tip.
  const far = onGround(openGround(), rectangle(-8, -51, 8, -24));
  const found = adviceFor(far);

  it("there is no stand as things are", () => {
    expect(isFound(far)).toBe(false);
    expect(found.length).toBeGreaterThan(0);
  });

  it("says by how much closer, and no less does", () => {
    const closer = found.find((a) => a.kind === "closer");
    if (!closer || closer.amount === null || closer.withinAmount === null) throw new Error("not found");
    expect(isFound(closer.plan)).toBe(true);
    const less = grownOutline(far.scene.parking[0]?.outline ?? [], closer.amount - 1.01 * closer.withinAmount);
    expect(less).not.toBeNull();
    // The search alone finds stands a little farther off; their evolution fails.
    expect(seekStand(onGround(far, less ?? []), ASK, { swept: true, cancelled: () => false })).toBeNull();
    expect(closer.fit).not.toBe("fails");
    expect(writePhrase(closer.says, "metric")).toMatch(/^Make the ground beside "Field" fit to stand on, out to \d/);
  });

  it("gives plans in which the stand really stands, judged by the ledger", () => {
    for (const { plan, choice, fit, kind } of found) {
      expect(plan.aerial.place.turntableX).toBe(choice.turntable[0]);
      const standing = evaluate(plan).ledger.filter((c) => /^(parking|reach|elevation|jack-ground|slope)/.test(c.id));
      expect(
        standing.map((c) => c.status),
        kind,
      ).not.toContain("over");
      const over = evaluate(plan).ledger.filter((c) => c.counts && c.status === "over");
      expect(fit === "fails", kind).toBe(over.length > 0);
    }
    expect(found.some((a) => a.fit !== "fails")).toBe(true);
  });

  it("puts the smaller change first", () => {
    const sizes = found.map((a) => a.size);
    expect(sizes).toEqual([...sizes].sort((a, b) => a - b));
  });

  it("does not advise what only the evolution judges: larger pads, longer ropes", () => {
    expect(found.map((a) => a.kind).filter((kind) => kind === "largerPads" || kind === "longerRope")).toEqual([]);
  });

  it("finds that the other side would do", () => {
    const other = found.find((a) => a.kind === "otherSide");
    expect(other?.choice.turntable[1]).toBeGreaterThan(0);
    expect(other?.plan.scene.parking.map((p) => p.id)).toEqual(["other-side"]);
  });
});

it("finds how much lighter the load must be, by the maker's table", () => {
  // From ground so far off that the ladder is long and flat; the load is more than it is rated for there.
  const heavy = withLoad(onGround(openGround(), rectangle(-8, -40, 8, -14)), 400);
  expect(isFound(heavy)).toBe(false);
  const lighter = adviceOfKind(heavy, "lighterLoad");
  expect(isFound(withLoad(heavy, 400 - lighter.amount))).toBe(true);
  expect(lighter.plan.rig.load.parts[0]?.massKg).toBeCloseTo(400 - lighter.amount, 6);
  // Two ropes at about a right angle or less: the tip carries between 1.4 and 2 times the load, and a little for friction;
  // the example's highest rating is 5.3 kN.
  expect((400 - lighter.amount) * 9.80665 * 1.4).toBeLessThan(5300);
});

it("has nothing to say where there is a stand, and ends when told to", () => {
  expect(standAdvice(openGround(), ASK)).toEqual([]);
  let asked = 0;
  const far = onGround(openGround(), rectangle(-8, -60, 8, -33));
  expect(standAdvice(far, ASK, { cancelled: () => ++asked > 3 })).toBeNull();
});

it("finds how much wider a yard must be that is hardly wider than the vehicle", () => {
  const plan = openGround();
  const { leftM, rightM } = plan.aerial.device.outline;
  // A pad is a square in line with the vehicle.
  const pads = plan.aerial.device.jacks.map((j) => ({ rightM: j.rightM, halfM: Math.sqrt(j.padAreaM2 ?? 0) / 2 }));
  expect(pads.every((p) => p.halfM > 0)).toBe(true);
  const left = Math.max(leftM, ...pads.map((p) => p.halfM - p.rightM));
  const right = Math.max(rightM, ...pads.map((p) => p.halfM + p.rightM));
  // As wide as vehicle and pads, less 0.3 m: 0.15 m more on either side, whatever lies between the search's places.
  const wide = left + right - 0.3;
  const narrow = onGround(plan, rectangle(-wide / 2, -30, wide / 2, -5));
  const closer = adviceOfKind(narrow, "closer");
  expect(closer.amount).toBeGreaterThanOrEqual(0.15 - 1e-6);
  expect(closer.amount).toBeLessThan(0.15 + closer.withinAmount);
});

it("finds how much longer the ropes must be", () => {
  const plan = openGround();
  const short: Plan = {
    ...plan,
    gear: plan.gear.map((g) => (g.kind === "rope" ? { ...g, lengthsM: [12, 12, 12, 12] } : g)),
  };
  const longer = adviceOfKind(short, "longerRope");
  expect(longer.fit).not.toBe("fails");
  const needed = evaluate(longer.plan).ledger.filter((c) => c.rule === "rope-length" && c.counts);
  expect(needed.length).toBeGreaterThan(0);
  for (const c of needed) expect(c.demand?.value ?? 99).toBeLessThanOrEqual(12 + longer.amount + 1e-9);
});

describe("where the ground bears too little", () => {
  // 40 kPa: soft clay or so, from memory; below the presumptive 72 kPa of IBC 2012 Table 1806.2 for clay.
  const plan = openGround();
  const soft: Plan = {
    ...plan,
    scene: { ...plan.scene, parking: plan.scene.parking.map((p) => ({ ...p, bearingPa: 40_000 })) },
  };
  const padsOf = ({ aerial }: Plan): readonly number[] => aerial.device.jacks.map((j) => Math.sqrt(j.padAreaM2 ?? 0));
  const pressures = (of: Plan) => evaluate(of).ledger.filter((c) => c.rule === "jack-pressure");

  it("finds how much larger the jacks' pads must be, and no less does", () => {
    const larger = adviceOfKind(soft, "largerPads");
    padsOf(larger.plan).forEach((side, i) => {
      expect(side).toBeCloseTo((padsOf(soft)[i] ?? 0) + larger.amount, 9);
    });
    expect(larger.fit).not.toBe("fails");
    expect(pressures(larger.plan).map((c) => c.status)).not.toContain("over");
    // N ÷ A by hand: with pads smaller by more than it is told to within, the same stand presses too hard.
    const pressing = pressures(larger.plan).map((c) => c.demand?.value ?? 0);
    const sides = padsOf(larger.plan);
    const less = 2 * larger.withinAmount;
    const worst = Math.max(...pressing.map((pa, i) => (pa * (sides[i] ?? 0) ** 2) / ((sides[i] ?? 0) - less) ** 2));
    expect(worst).toBeGreaterThan(40_000);
    expect(writePhrase(larger.says, "metric")).toMatch(
      /^Put pads under the jacks that are larger by 0\.\d\d\sm a side, the smallest \d\.\d\d\sm square\.$/,
    );
  });
});

it("lets the tip come down by as much as the bridle is lower, the load where it was, in a plan with stages too", () => {
  for (const plan of [crossingExample, openGround()]) {
    const aim = standAims(plan)[0];
    const change = standChanges(plan, { aim }, aim, []).find((c) => c.kind === "lowerBridle");
    const less = (change?.most ?? 0) / 2;
    const lower = change?.by(less)?.plan ?? plan;
    const [before, after] = [askOf(plan, { aim }), askOf(lower, { aim })].map((a) => a.question.target.minZM);
    expect((before ?? 0) - (after ?? 0)).toBeCloseTo(less, 9);
    const bottom = ({ rig: { load } }: Plan): number => load.positionM[2] - load.bridle.heightM;
    expect(bottom(lower)).toBeCloseTo(bottom(plan), 9);
  }
});
