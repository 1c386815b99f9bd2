import { describe, expect, it } from "vitest";
import type { Check } from "../check.ts";
import { evaluate } from "../evaluate.ts";
import { crossingExample } from "../examples/crossing.ts";
import { roofExample } from "../examples/roof.ts";
import { asReal } from "../fuzz/as-real.ts";
import type { Plan } from "../schema/plan.ts";
import { writePhrase } from "../units/write-amount.ts";

const crossing = asReal(crossingExample);
const ID = "tag-west";

/** The crossing with its west tagline made fast at a length, the load perhaps elsewhere. */
const madeFast = (lengthM: number | null, plan: Plan = crossing): Plan => ({
  ...plan,
  rig: {
    ...plan.rig,
    taglines: plan.rig.taglines.map((l) => (l.id === ID ? { ...l, drive: "length", tensionN: null, lengthM } : l)),
  },
});
const lengthCheck = (plan: Plan, id: string = ID): Check | undefined =>
  evaluate(plan).ledger.find((c) => c.id === `made-fast/${id}`);
const lineOf = (plan: Plan, id: string = ID) => {
  const found = evaluate(plan).lines.find((l) => l.id === id);
  if (!found) throw new Error("no such line");
  return found;
};

describe("a tagline made fast while the load is held by position", () => {
  const line = lineOf(crossing);
  const stiffnessN = crossing.gear.find((g) => g.kind === "rope" && g.id === "rope-tag");
  const ea = stiffnessN?.kind === "rope" ? (stiffnessN.staticStiffnessN ?? Number.NaN) : Number.NaN;
  // Hooke's law: what is l long under a tension T is l ÷ (1 + T/EA) without.
  const neededM = line.pathM / (1 + (line.tensionsN.raise[0] ?? 0) / ea);

  it.each([
    [0, "within"],
    [0.13, "within"],
    [-0.13, "within"],
    [0.14, "close"],
    [-0.14, "close"],
    [0.16, "over"],
    [-0.16, "over"],
    [-10, "over"],
  ] as const)("%s m off what its pull makes of it is %s", (offM, status) => {
    expect(line.tensionsN.raise[0]).toBeGreaterThan(0);
    const found = lengthCheck(madeFast(neededM + offM));
    expect(found?.status).toBe(status);
    expect(found?.counts).toBe(true);
    // To 0.15 mm: where a breath of force is left over, a line made fast gives a hair other than hands do.
    expect(Math.abs((found?.ratio ?? Number.NaN) - Math.min(99, Math.abs(offM) / 0.15))).toBeLessThan(1e-3);
  });

  it("says whether it is too short or too long", () => {
    const says = (lengthM: number): string => writePhrase(lengthCheck(madeFast(lengthM))?.says ?? [], "metric");
    expect(says(3)).toContain("Made fast at 3.00\u202fm");
    expect(says(3)).toContain("Too short");
    expect(says(60)).toContain("Too long");
  });

  it("may be longer where it has nothing to pull, and not shorter", () => {
    // The load is held west of the tip: the west line pulls it there, and the east line has nothing to do.
    const fast = (lengthM: number): Plan => ({
      ...crossing,
      rig: {
        ...crossing.rig,
        taglines: crossing.rig.taglines.map((l) =>
          l.id === "tag-east" ? { ...l, drive: "length", tensionN: null, lengthM } : l,
        ),
      },
    });
    const idle = lineOf(fast(30), "tag-east");
    expect(idle.tensionsN.raise[0]).toBeLessThan(5);
    expect(lengthCheck(fast(idle.pathM + 40), "tag-east")?.status).toBe("within");
    expect(lengthCheck(fast(idle.pathM - 0.2), "tag-east")?.status).toBe("over");
  });

  it("is let go aside no further than a plumb line is by its pull: T h ÷ W", () => {
    // Moments about the sheave of a weight on a long line, for small angles; any text on statics.
    const found = lengthCheck(madeFast(60));
    const { load, lines } = evaluate(crossing);
    const sheaveZ = Math.max(...lines.flatMap((l) => (l.role === "main" ? [l.nodes[1]?.at[2] ?? 0] : [])));
    const pullN = lines.find((l) => l.id === ID)?.tensionsN.raise[0] ?? Number.NaN;
    const asideM = (pullN * (sheaveZ - load.yoke[2])) / (load.weightN ?? Number.NaN);
    expect(asideM).toBeGreaterThan(0.15);
    expect(found?.demand?.value).toBeCloseTo(asideM, 3);
  });

  it("is unknown where its length, its stiffness or the balance is", () => {
    expect(lengthCheck(madeFast(null))?.status).toBe("unknown");
    const stretchy = crossing.gear.map((g) => (g.kind === "rope" ? { ...g, staticStiffnessN: null } : g));
    expect(lengthCheck(madeFast(neededM, { ...crossing, gear: stretchy }))?.status).toBe("unknown");
    const parts = crossing.rig.load.parts.map((p) => ({ ...p, massKg: null }));
    const unweighed = { ...crossing, rig: { ...crossing.rig, load: { ...crossing.rig.load, parts } } };
    expect(lengthCheck(madeFast(neededM, unweighed))?.status).toBe("unknown");
    const unmeasured = { ...crossing, scene: { ...crossing.scene, wind: { ...crossing.scene.wind, gustMS: null } } };
    expect(lengthCheck(madeFast(neededM, unmeasured))?.status).toBe("unknown");
  });

  it("is not asked of a line in hands, nor where the load hangs by the length of its ropes", () => {
    expect(lengthCheck(crossing)).toBeUndefined();
    const hung = { ...crossing, rig: { ...crossing.rig, load: { ...crossing.rig.load, drive: "length" as const } } };
    expect(lengthCheck(madeFast(neededM, hung))).toBeUndefined();
  });
});

it("asks the same of a tether whose tackle is made fast", () => {
  const roof = asReal(roofExample);
  const { tether } = roof.rig;
  if (!tether) throw new Error("the example has a tether");
  const at = (lengthM: number | null): Plan => ({
    ...roof,
    rig: { ...roof.rig, tether: { ...tether, drive: "length", tensionN: null, lengthM } },
  });
  const neededM = lineOf(roof, tether.id).unstretchedM ?? Number.NaN;
  expect(lengthCheck(at(neededM), tether.id)?.ratio).toBeLessThan(1e-3);
  expect(lengthCheck(at(neededM + 1), tether.id)?.status).toBe("over");
  expect(lengthCheck(at(null), tether.id)?.status).toBe("unknown");
});
