import { asSite } from "@gantline/engine";
import { EXAMPLES, evaluate, type StandPlacement } from "@gantline/plan";
import { expect, it } from "vitest";
import { notFinite } from "../fuzz/not-finite.ts";
import { drawParkedOff } from "./draw-parked-off.ts";
import { drawPlacement } from "./draw-placement.ts";

const plan = EXAMPLES[0]?.plan;
if (plan === undefined) throw new Error("no example");
const evaluation = evaluate(plan);
const { place, pose } = plan.aerial;
const corner = { id: "a", name: "Wall, corner", at: [place.turntableX + 3, place.turntableY + 4] as const };
const kerb = { id: "b", name: "Kerb", at: [place.turntableX - 6, place.turntableY + 8] as const };
const at = [place.turntableX, place.turntableY] as const;
const [foot] = evaluation.geometry.jacks;
if (foot === undefined) throw new Error("no jack");
const jack = asSite(foot.at);

// By hand: 3, 4, 5 and 6, 8, 10.
const placement: StandPlacement = {
  marks: [
    {
      id: "turntable",
      name: "Turntable",
      at,
      tapes: [
        { from: corner, distanceM: 5 },
        { from: kerb, distanceM: 10 },
      ],
      side: "right",
      crossingRad: 1,
    },
    { id: `jack/${foot.id}`, name: foot.name, at: [jack[0], jack[1]], tapes: [], side: null, crossingRad: null },
  ],
  headingRad: place.headingRad,
  bearingRad: pose.bearingRad,
  turnRad: 1,
  elevationRad: pose.elevationRad,
  lengthM: pose.lengthM,
  extensionM: 3,
  parkedOff: [0, 1, 2, 3].map((k) => ({
    bearingRad: (k * Math.PI) / 2,
    distanceM: 0.2 * (k + 1),
    governs: null,
    loadGoverns: false,
    reading: { bearingRad: 0, turnRad: 0, elevationRad: 1, lengthM: 20, used: 0.5 },
  })),
  area: {
    squareM: 0.05,
    freeM: 0.2,
    strips: [
      { westM: -0.4, eastM: 0.3, southM: -0.05, northM: 0 },
      { westM: -0.2, eastM: 0.25, southM: 0, northM: 0.05 },
    ],
  },
  heldToLoad: true,
  turnFreeRad: 0.03,
  governs: null,
};

it("draws each tape as long as it is, from its point to the mark", () => {
  const drawn = drawPlacement(plan, evaluation, placement, { system: "metric" });
  const tapes = drawn.primitives.flatMap((p) => (p.kind === "dimension" ? [p] : []));
  expect(tapes.map(({ text }) => text.replace("\u202f", " "))).toEqual(["5.00 m", "10.00 m"]);
  for (const { a, b, text } of tapes)
    expect(Math.hypot(a[0] - b[0], a[1] - b[1])).toBeCloseTo(Number.parseFloat(text), 9);
  expect(drawn.primitives.flatMap((p) => (p.kind === "text" ? [p.text] : []))).toEqual(
    expect.arrayContaining(["T", "1", "Wall, corner", "Kerb"]),
  );
  expect(notFinite(drawn, "placement")).toEqual([]);
});

it("draws the area it may stand in strip by strip, and none where none is told", () => {
  const outline = drawParkedOff(placement, { system: "imperial" }).primitives.flatMap((p) =>
    p.kind === "path" ? p.points : [],
  );
  // The corners of the two strips, by hand.
  const wanted = [
    [-0.4, -0.05],
    [0.3, -0.05],
    [0.3, 0],
    [-0.4, 0],
    [-0.2, 0],
    [0.25, 0],
    [0.25, 0.05],
    [-0.2, 0.05],
  ];
  for (const [k, [x, y]] of outline.entries()) {
    expect(x).toBeCloseTo(wanted[k]?.[0] ?? Number.NaN, 9);
    expect(y).toBeCloseTo(wanted[k]?.[1] ?? Number.NaN, 9);
  }
  expect(outline).toHaveLength(8);
  const none = { ...placement, parkedOff: [], area: null, marks: [] };
  expect(drawParkedOff(none, { system: "metric" }).primitives.some((p) => p.kind === "path")).toBe(false);
  expect(notFinite(drawPlacement(plan, evaluation, none, { system: "metric" }), "placement")).toEqual([]);
});
