import { STANDARD_GRAVITY_MS2 } from "@gantline/engine";
import { describe, expect, it } from "vitest";
import { evaluate } from "../evaluate.ts";
import { crossingExample } from "../examples/crossing.ts";
import type { Device } from "../schema/aerial.ts";
import type { Plan } from "../schema/plan.ts";

/** 1 lbf/ft² in Pa, from the exact foot and pound-force. */
const PSF_PA = 4.4482216152605 / 0.3048 ** 2;

/** Presumptive vertical bearing of soils, IBC 2012 Table 1806.2 (secondary source), psf. */
const IBC = { sandyGravel: 3000, sand: 2000, clay: 1500 } as const;

/** The crossing on ground of a bearing value, its vehicle changed. */
const onGround = (bearingPa: number | null, change: Partial<Device> = {}): Plan => ({
  ...crossingExample,
  scene: { ...crossingExample.scene, parking: crossingExample.scene.parking.map((p) => ({ ...p, bearingPa })) },
  aerial: { ...crossingExample.aerial, device: { ...crossingExample.aerial.device, ...change } },
});
const pressures = (plan: Plan) => evaluate(plan).ledger.filter((c) => c.rule === "jack-pressure");
const withPads = (padAreaM2: number | null, maxForceN: number | null): Partial<Device> => ({
  massCentre: null,
  jacks: crossingExample.aerial.device.jacks.map((j) => ({ ...j, padAreaM2, maxForceN })),
});

describe("jack pressure", () => {
  it("sizes a pad as the trade does: 300 kN on sandy gravel wants 2.09 m²", () => {
    // area = force ÷ allowable pressure; IBC 2012 Table 1806.2, class 3: 3,000 psf = 143.6 kPa.
    const bearing = IBC.sandyGravel * PSF_PA;
    expect(bearing).toBeCloseTo(143_641, 0);
    for (const check of pressures(onGround(bearing, withPads(2.0, 300e3)))) expect(check.status).toBe("over");
    const enough = pressures(onGround(bearing, withPads(2.09, 300e3)));
    expect(enough).toHaveLength(4);
    for (const check of enough) {
      expect(check.status).toBe("close");
      expect(check.ratio).toBeCloseTo(1, 2);
    }
  });

  it("finds blocks under the jacks of a turntable ladder over every soil of the table", () => {
    // Turntable ladders with blocks: 37, 51, 57 N/cm² (secondary source); more than every soil class of IBC Table 1806.2.
    for (const newtonsPerCm2 of [37, 51, 57]) {
      const load = newtonsPerCm2 * 1e4 * 0.25;
      for (const psf of Object.values(IBC)) {
        for (const check of pressures(onGround(psf * PSF_PA, withPads(0.25, load)))) {
          expect(check.demand?.value).toBeCloseTo(newtonsPerCm2 * 1e4, 6);
          expect(check.status).toBe("over");
        }
      }
    }
  });

  it("carries the vehicle's whole weight and what the ropes add, by statics", () => {
    const plan = onGround(200e3);
    const evaluation = evaluate(plan);
    const checks = evaluation.ledger.filter((c) => c.rule === "jack-pressure");
    const weightN = (plan.aerial.device.massKg ?? 0) * STANDARD_GRAVITY_MS2;
    const loads = checks.reduce((sum, c) => sum + (c.demand?.value ?? 0) * 0.36, 0);
    // All four bear; each is taken at the worse of raising and lowering, so the sum lies between the two cases' and a little over.
    const downs = evaluation.cases.map(
      (t) => -(evaluation.felt[t]?.onVehicle ?? []).reduce((s, f) => s + f.forceN[2], 0),
    );
    expect(loads).toBeGreaterThan(weightN + Math.min(...downs) - 1);
    expect(loads).toBeLessThan(weightN + Math.max(...downs) + 0.05 * (evaluation.load.weightN ?? 0));
  });

  it("is unknown where load, pad or the ground's bearing value is, and where no ground is drawn", () => {
    const nowhere = { ...crossingExample, scene: { ...crossingExample.scene, parking: [] } };
    for (const [plan, says] of [
      [onGround(150e3, withPads(0.36, null)), "the vehicle's mass, its centre"],
      [onGround(150e3, withPads(null, 60e3)), "the area of its pad"],
      [onGround(null), "bearing value"],
      [nowhere, "no ground is drawn"],
    ] as const) {
      const checks = pressures(plan);
      expect(checks.map((c) => c.status)).toEqual(["unknown", "unknown", "unknown", "unknown"]);
      for (const check of checks) expect(check.says.join("")).toContain(says);
    }
  });
});

describe("stability", () => {
  const stability = (plan: Plan) => evaluate(plan).ledger.find((c) => c.rule === "stability");

  it("holds the ropes' moment against the weight's, by hand about the jack line the ladder points over", () => {
    // The ladder points north, the vehicle's rear; its rear jacks are 2.3 m behind the turntable. About that line:
    // the weight at the bedded centre, the ladder's sections at their middles moved from bedded to posed.
    const { device, pose } = crossingExample.aerial;
    const sections = device.sections ?? [];
    const g = STANDARD_GRAVITY_MS2;
    const mass = device.massKg ?? 0;
    const runOut = (length: number): number => (length - device.lengthMinM) / (sections.length - 1);
    const moment = (length: number, northPerM: number, pivotNorth: number): number =>
      sections.reduce((sum, s, i) => {
        const top = (sections[0]?.lengthM ?? 0) + i * runOut(length);
        const end = i === sections.length - 1 ? length : top;
        const from = Math.max(0, end - s.lengthM);
        const inFront = (s.massKg * (end - from)) / s.lengthM;
        const middle = ((from + end) / 2) * northPerM;
        return sum + g * (inFront * (middle + pivotNorth) + (s.massKg - inFront) * pivotNorth);
      }, 0);
    // Northward from the turntable: bedded over the front (south), pivot set back to the north of it.
    const bedded = moment(device.lengthMinM, -1, device.pivotSetbackM);
    const posed = moment(pose.lengthM, Math.cos(pose.elevationRad), -device.pivotSetbackM);
    const firstMoment = -mass * g * (device.massCentre?.forwardM ?? 0) - bedded + posed;
    const holding = mass * g * 2.3 - firstMoment;
    const check = stability(crossingExample);
    expect(check?.status).toBe("within");
    const rear = check?.subject.includes("rear left") && check.subject.includes("rear right");
    expect(rear).toBe(true);
    expect(check?.limit?.value).toBeCloseTo(holding, 0);
  });

  it("is one unknown where the vehicle's centre is not known, and over where its weight lies outside its jacks", () => {
    const change = (massCentre: Device["massCentre"]): Plan => onGround(200e3, { massCentre });
    expect(stability(change(null))?.status).toBe("unknown");
    expect(stability(change({ forwardM: 4, rightM: 0 }))?.status).toBe("over");
    expect(pressures(change({ forwardM: 4, rightM: 0 })).map((c) => c.status)).toContain("unknown");
  });

  it("asks more where the factor is higher, in proportion", () => {
    const withFactor = (value: number | null): Plan => ({
      ...crossingExample,
      policy: { ...crossingExample.policy, stabilityFactor: { value, source: "test" } },
    });
    const [one, two] = [stability(withFactor(1.5)), stability(withFactor(3))];
    expect(one?.ratio).toBeGreaterThan(0);
    expect((two?.ratio ?? 0) / (one?.ratio ?? 1)).toBeCloseTo(2, 9);
    expect(stability(withFactor(null))?.status).toBe("unknown");
  });
});
