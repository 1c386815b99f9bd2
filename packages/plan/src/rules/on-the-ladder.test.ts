import { describe, expect, it } from "vitest";
import type { Check } from "../check.ts";
import { evaluate } from "../evaluate.ts";
import { crossingExample } from "../examples/crossing.ts";
import { deviceById } from "../library/device-by-id.ts";
import type { Plan } from "../schema/plan.ts";

const row = (plan: Plan, id: string): Check => {
  const found = evaluate(plan).ledger.find((c) => c.id === id);
  if (!found) throw new Error(`No check ${id}.`);
  return found;
};

/** The crossing's ropes hung from the far rail of the 30 m platform, whose lever bends the ladder. */
const onPlatform = (massKg: number): Plan => {
  const device = deviceById("example-platform-30");
  const points = device.riggingPoints.filter((p) => p.on === "platform").sort((a, b) => b.alongM - a.alongM);
  const [a, b] = points;
  if (!a || !b) throw new Error("The platform has two points.");
  const { rig } = crossingExample;
  const [first, second] = rig.mainLines;
  if (!first || !second) throw new Error("The crossing has two main lines.");
  return {
    ...crossingExample,
    aerial: {
      ...crossingExample.aerial,
      device,
      pose: { bearingRad: 0, elevationRad: (74 * Math.PI) / 180, lengthM: 24 },
    },
    rig: {
      ...rig,
      load: {
        ...rig.load,
        positionM: [0, 3 + 24 * Math.cos((74 * Math.PI) / 180) + 1.4, 12],
        parts: rig.load.parts.map((p) => (p.id === "casualty" ? { ...p, massKg } : p)),
      },
      mainLines: [
        { ...first, tip: { ...first.tip, pointId: a.id } },
        { ...second, tip: { ...second.tip, pointId: b.id } },
      ],
    },
  };
};

describe("bending of the ladder", () => {
  it("decides: over its rated moment the ledger is over, though the policy says nothing of compression", () => {
    const plan = onPlatform(400);
    expect(plan.policy.tipBasis).toBe("resultant");
    const bending = row(plan, "tip-rating/bending");
    expect(bending.status).toBe("over");
    expect(bending.counts).toBe(true);
    expect(row(plan, "tip-rating/compression").counts).toBe(false);
    expect(evaluate(plan).worst.status).toBe("over");
  });
});

describe("ropes led off to either side", () => {
  // Statics: equal and opposite side pulls have no sum. Each rope's angle by trigonometry from its tip sheave to its redirect.
  const SIDE_M = 8;
  const plan: Plan = {
    ...crossingExample,
    rig: {
      ...crossingExample.rig,
      taglines: [],
      load: { ...crossingExample.rig.load, positionM: [0, 10.66, 10] },
      mainLines: crossingExample.rig.mainLines.map((line, i) => ({
        ...line,
        redirects: line.redirects.map((r, k) =>
          k === 0
            ? {
                ...r,
                anchorage: {
                  on: "ground" as const,
                  position: [i === 0 ? -SIDE_M : SIDE_M, 3, 0.3] as [number, number, number],
                  ratingN: null,
                  ratingBasis: null,
                  ratingSource: "",
                },
              }
            : r,
        ),
      })),
    },
  };

  it("cancel in the sum and are over one by one", () => {
    const { felt } = evaluate(plan);
    expect(Math.abs(felt.raise?.inBeam.offPlaneRad ?? 1)).toBeLessThan(0.01);
    for (const id of ["main-a", "main-b"]) {
      const check = row(plan, `off-plane/return/${id}`);
      const sheave = evaluate(plan).lines.find((l) => l.id === id)?.nodes[1]?.at ?? [0, 0, 0];
      const aside = SIDE_M - Math.abs(sheave[0]);
      const angle = Math.asin(aside / Math.hypot(aside, 3 - sheave[1], 0.3 - sheave[2]));
      expect(check.demand?.value).toBeCloseTo(angle, 6);
      expect(check.status).toBe("over");
    }
  });

  it("are unknown where nothing is solved or no limit is set", () => {
    const unweighed = {
      ...plan,
      rig: {
        ...plan.rig,
        load: { ...plan.rig.load, parts: plan.rig.load.parts.map((p) => ({ ...p, massKg: null })) },
      },
    };
    expect(row(unweighed, "off-plane/return/main-a").status).toBe("unknown");
    const unset = { ...plan, policy: { ...plan.policy, offPlaneMaxRad: { value: null, source: "" } } };
    expect(row(unset, "off-plane/return/main-a").status).toBe("unknown");
  });
});

describe("twist of the ladder", () => {
  it("is shown by its size and never judged as good", () => {
    const [first] = crossingExample.rig.mainLines;
    if (!first) throw new Error("The crossing has main lines.");
    const one = {
      ...crossingExample,
      rig: { ...crossingExample.rig, mainLines: [{ ...first, share: 1 }], taglines: [] },
    };
    const check = row(one, "twist");
    expect(check.status).toBe("unknown");
    expect(check.counts).toBe(false);
    const { felt, geometry } = evaluate(one);
    // Moment of the force at its eye about the pivot, by cross products in the site frame (Hibbeler, Statics, vector moment).
    const hypots = (["raise", "lower"] as const).map((travel) => {
      const point = felt[travel]?.points[0];
      if (!point) throw new Error("The eye feels a force.");
      const r = [0, 1, 2].map((k) => (point.at[k] ?? 0) - (geometry.posed.pivot[k] ?? 0)) as [number, number, number];
      const [fx, fy, fz] = point.forceN;
      const m = [r[1] * fz - r[2] * fy, r[2] * fx - r[0] * fz, r[0] * fy - r[1] * fx] as const;
      const along = (axis: readonly number[]): number => m.reduce((sum, v, k) => sum + v * (axis[k] ?? 0), 0);
      return Math.hypot(along(geometry.posed.axes.axial), along(geometry.posed.axes.normal));
    });
    expect(check.demand?.value).toBeCloseTo(Math.max(...hypots), 3);
  });
});

describe("the pad of a jack", () => {
  const grounds = (south: number): Plan => ({
    ...crossingExample,
    scene: {
      ...crossingExample.scene,
      parking: crossingExample.scene.parking.map((g) => ({
        ...g,
        outline: [
          [-7, -14],
          [7, -14],
          [7, south],
          [-7, south],
        ] as [number, number][],
      })),
    },
  });
  const jackAt = evaluate(crossingExample).geometry.jacks.find((j) => j.id === "rear-left")?.at ?? [0, 0, 0];

  it("stands whole on its ground, half off it, or on ground drawn in two", () => {
    expect(row(grounds(7), "jack-ground/rear-left").status).toBe("within");
    // Its middle is 0.1 m inside the edge, its side 0.6 m (0.36 m²).
    expect(row(grounds(jackAt[1] + 0.1), "jack-ground/rear-left").status).toBe("over");
    const split = grounds(jackAt[1] + 0.1);
    const [ground] = split.scene.parking;
    if (!ground) throw new Error("There is ground.");
    const rest = { ...ground, id: "rest", name: "Rest" };
    rest.outline = [
      [-7, jackAt[1] + 0.1],
      [7, jackAt[1] + 0.1],
      [7, 7],
      [-7, 7],
    ];
    const joined = { ...split, scene: { ...split.scene, parking: [ground, rest] } };
    expect(row(joined, "jack-ground/rear-left").status).toBe("within");
  });

  it("stands in no structure", () => {
    const [x, y] = jackAt;
    const post = {
      id: "post",
      name: "Post",
      kind: "obstruction" as const,
      outline: [
        [x - 0.05, y - 0.05],
        [x + 0.05, y - 0.05],
        [x + 0.05, y + 0.05],
        [x - 0.05, y + 0.05],
      ] as [number, number][],
      baseZM: 0,
      topZM: 1,
      parapetHeightM: 0,
      parapetThicknessM: 0.1,
    };
    const { scene } = crossingExample;
    const plan = { ...crossingExample, scene: { ...scene, structures: [...scene.structures, post] } };
    expect(row(plan, "jack-ground/rear-left").status).toBe("over");
  });

  it("is unknown in what it covers where its size is not entered", () => {
    const { aerial } = crossingExample;
    const device = { ...aerial.device, jacks: aerial.device.jacks.map((j) => ({ ...j, padAreaM2: null })) };
    expect(row({ ...crossingExample, aerial: { ...aerial, device } }, "jack-ground/rear-left").status).toBe("unknown");
  });
});
