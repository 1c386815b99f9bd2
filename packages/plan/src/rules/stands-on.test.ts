import { describe, expect, it } from "vitest";
import { evaluate } from "../evaluate.ts";
import { crossingExample } from "../examples/crossing.ts";
import type { Plan } from "../schema/plan.ts";
import type { Scene } from "../schema/scene.ts";
import { writePhrase } from "../units/write-amount.ts";

// The crossing's vehicle looks south with its turntable at (0, 3): its body lies over (0, 0).
const withScene = (change: Partial<Scene>): Plan => ({
  ...crossingExample,
  scene: { ...crossingExample.scene, ...change },
});
type Outline = [number, number][];
const rectangle = (x: number, y: number, width: number, depth: number): Outline => [
  [x, y],
  [x + width, y],
  [x + width, y + depth],
  [x, y + depth],
];
const area = (kind: Scene["areas"][number]["kind"], outline: Outline): Scene["areas"][number] => ({
  id: "area",
  name: "Trench",
  kind,
  outline,
  zM: -3,
});
const grounds = (...outlines: Outline[]): Scene["parking"] =>
  outlines.map((outline, i) => ({
    ...(crossingExample.scene.parking[0] as Scene["parking"][number]),
    id: `ground-${i}`,
    outline,
  }));
function stands(plan: Plan): { status: string | undefined; says: string } {
  const check = evaluate(plan).ledger.find((c) => c.id === "parking");
  return { status: check?.status, says: writePhrase(check?.says ?? [], "metric") };
}

describe("the vehicle on its ground", () => {
  it("stands on parking ground", () => {
    expect(stands(crossingExample)).toEqual({ status: "within", says: "Stands on parking ground." });
  });

  it.each(["gap", "water", "keepOut"] as const)("does not stand over a %s that none of its corners is in", (kind) => {
    const found = stands(withScene({ areas: [area(kind, rectangle(-1, -1, 2, 2))] }));
    expect(found).toEqual({ status: "over", says: 'Stands over "Trench". Move the vehicle.' });
    expect(stands(withScene({ areas: [area(kind, rectangle(-30, -0.2, 60, 0.4))] })).status).toBe("over");
  });

  it("stands beside one", () => {
    expect(stands(withScene({ areas: [area("gap", rectangle(3, -3, 2, 6))] })).status).toBe("within");
  });

  it("does not stand over a notch in its ground that reaches in between its corners", () => {
    const notched: Outline = [
      [-7, -13],
      [7, -13],
      [7, 7],
      [-7, 7],
      [-7, 0],
      [0.9, 0],
      [0.9, -2],
      [-7, -2],
    ];
    const found = stands(withScene({ parking: grounds(notched) }));
    expect(found).toEqual({ status: "over", says: "Part of it stands off the parking ground. Move the vehicle." });
  });

  it("stands on two grounds that meet under it, and not on two with a strip between them", () => {
    const south = rectangle(-7, -14, 14, 14);
    expect(stands(withScene({ parking: grounds(south, rectangle(-7, 0, 14, 7)) })).status).toBe("within");
    expect(stands(withScene({ parking: grounds(south, rectangle(-7, 0.3, 14, 6.7)) })).status).toBe("over");
  });

  it("is unknown where no ground is drawn, but over where it stands over a trench all the same", () => {
    expect(stands(withScene({ parking: [], areas: [] })).status).toBe("unknown");
    expect(stands(withScene({ parking: [], areas: [area("gap", rectangle(-1, -1, 2, 2))] })).status).toBe("over");
  });

  it("does not stand in a structure", () => {
    const house = {
      ...(crossingExample.scene.structures[1] as Scene["structures"][number]),
      outline: rectangle(-1, -1, 2, 2),
    };
    const found = stands(withScene({ structures: [house] }));
    expect(found).toEqual({ status: "over", says: 'Stands in "Pump house". Move the vehicle.' });
  });
});
