import type { Evaluation, Plan } from "@gantline/plan";
import type { Primitive, WorldPoint } from "../primitives.ts";
import { boxRound } from "../shared/bounds.ts";
import type { DrawnSection } from "./section-frame.ts";

const DECK_M = 1.35;
const UNDER_M = 0.5;
const CAB_M = 2.2;
const WHEEL_M = 0.5;
const TYRE_M = 0.38;

/** The vehicle in elevation, turned as it stands: body, cab, wheels as a suggestion, jacks on their pads, and the turntable up to the pivot. */
export function drawVehicle(plan: Plan, evaluation: Evaluation, frame: DrawnSection): readonly Primitive[] {
  const { device, place, pose } = plan.aerial;
  const { frontM, rearM, leftM, rightM, heightM } = device.outline;
  const turn = place.headingRad - pose.bearingRad;
  const ground = place.groundZM;
  const across = (forward: number, right: number): number => forward * Math.cos(turn) - right * Math.sin(turn);
  const block = (from: number, to: number, low: number, high: number): readonly WorldPoint[] =>
    boxRound(
      [from, to].flatMap((f) =>
        [-leftM, rightM].flatMap((r): WorldPoint[] => [
          [across(f, r), ground + low],
          [across(f, r), ground + high],
        ]),
      ),
    );
  const cab = Math.min(CAB_M, (frontM + rearM) / 3);
  const deck = Math.min(DECK_M, 0.6 * device.pivotHeightM, 0.9 * heightM);
  const style = { stroke: "vehicle", fill: "paper", widthPx: 1.3 } as const;
  const nearSide = Math.sin(turn) >= 0 ? -leftM : rightM;
  const flat = Math.abs(Math.cos(turn));
  const wheels =
    flat > 0.3
      ? [frontM - 1.5, -0.45 * rearM].map((f) => wheel(across(f, nearSide), ground, flat))
      : [-leftM + TYRE_M, rightM].map((r) => tyre(across(0, r), across(0, r - TYRE_M), ground));
  const body = block(-rearM, frontM, UNDER_M, deck).map((p) => p[0]);
  const edges = [Math.min(...body), Math.max(...body)] as const;
  const pivot = frame.toSection(evaluation.geometry.posed.pivot);
  return [
    ...evaluation.geometry.jacks.flatMap((jack) =>
      drawJack(frame.toSection(jack.at), ground + 0.6 * deck, edges, `Jack, ${jack.name}`),
    ),
    { kind: "path", points: block(-rearM, frontM - cab, UNDER_M, deck), closed: true, style, title: "Vehicle" },
    { kind: "path", points: block(frontM - cab, frontM, UNDER_M, heightM), closed: true, style, title: "Vehicle, cab" },
    ...wheels,
    {
      kind: "path",
      points: [
        [-0.95, ground + deck],
        [0.95, ground + deck],
        [pivot[0] + 0.55, pivot[1]],
        [pivot[0] - 0.55, pivot[1]],
      ],
      closed: true,
      style: { stroke: "vehicle", fill: "paper", widthPx: 1.3 },
      title: "Turntable",
    },
    {
      kind: "path",
      points: [
        [0, ground - 0.25],
        [0, pivot[1] + 0.5],
      ],
      closed: false,
      style: { stroke: "faint", widthPx: 0.7, dash: "chain" },
      title: "Middle of the turntable",
    },
  ];
}

function wheel(x: number, ground: number, flat: number): Primitive {
  const points = Array.from({ length: 20 }, (_, k): WorldPoint => {
    const a = (k / 20) * 2 * Math.PI;
    return [x + WHEEL_M * flat * Math.cos(a), ground + WHEEL_M + WHEEL_M * Math.sin(a)];
  });
  return { kind: "path", points, closed: true, style: { stroke: "vehicle", fill: "paper", widthPx: 1.1 } };
}

/** A wheel seen from the end. */
const tyre = (x0: number, x1: number, ground: number): Primitive => ({
  kind: "path",
  points: boxRound([
    [x0, ground],
    [x1, ground + 2 * WHEEL_M],
  ]),
  closed: true,
  style: { stroke: "vehicle", fill: "vehicle", fillOpacity: 0.25, widthPx: 1.1 },
});

/** A jack: its beam out from the body where it reaches beyond it, its leg, and its pad as a firm bar on the ground. */
function drawJack(
  [x, z]: WorldPoint,
  beamZM: number,
  [left, right]: readonly [number, number],
  title: string,
): readonly Primitive[] {
  const root = Math.min(right, Math.max(left, x));
  return [
    ...(root === x
      ? []
      : [
          {
            kind: "path",
            points: boxRound([
              [root, beamZM - 0.1],
              [x, beamZM + 0.1],
            ]),
            closed: true,
            style: { stroke: "vehicle", fill: "paper", widthPx: 1 },
          } as const,
        ]),
    {
      kind: "path",
      points: boxRound([
        [x - 0.09, z],
        [x + 0.09, beamZM + 0.1],
      ]),
      closed: true,
      style: { stroke: "vehicle", fill: "paper", widthPx: 1 },
    },
    {
      kind: "path",
      points: [
        [x - 0.35, z],
        [x + 0.35, z],
      ],
      closed: false,
      style: { stroke: "vehicle", widthPx: 4.5 },
      title,
    },
  ];
}
