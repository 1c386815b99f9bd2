import { pointInPolygon } from "@gantline/engine";
import { amountOr, judge, limitTerm } from "../judge.ts";
import type { ParkingGround } from "../schema/scene.ts";
import type { Rule } from "./rule.ts";

/**
 * Does the ground under turntable and jacks fall less than the policy lets it, whichever way the vehicle faces?
 *
 * The steepest fall of the parking grounds that they stand on, of the slope entered for each: facing across it at 45° a
 * vehicle feels only 0.7 of it along and across, a jack's pad all of it. Where grounds overlap the turntable's counts for
 * what stands on it, else the first. Nothing is judged where the policy sets no limit, as in the search for stands.
 */
export const groundSlope: Rule = ({ plan, geometry }) => {
  const { scene, aerial, policy } = plan;
  const limit = policy.slopeMaxRad;
  if (limit.value === null) return [];
  const { turntableX, turntableY } = aerial.place;
  const groundAt = (x: number, y: number) => scene.parking.find((g) => pointInPolygon(g.outline, [x, y]));
  const under = groundAt(turntableX, turntableY);
  const feet = geometry.jacks.map(({ at: [x, y] }) =>
    under && pointInPolygon(under.outline, [x, y]) ? under : groundAt(x, y),
  );
  const grounds = [under, ...feet].flatMap((g) => g ?? []);
  const steepest = grounds.reduce<ParkingGround | null>((a, b) => (a && a.slopeRad >= b.slopeRad ? a : b), null);
  const fallRad = under && steepest ? steepest.slopeRad : null;
  return [
    judge(policy, {
      id: "ground-slope",
      rule: "ground-slope",
      demand: amountOr(fallRad, "angle"),
      limit: amountOr(limit.value, "angle"),
      words: () => ({
        subject: "Slope of the ground",
        question: "Steepest fall of the ground under turntable and jacks against the policy's limit",
        reading: fallRad === null ? [] : [{ value: fallRad, quantity: "angle" }, ` on "${steepest?.name ?? ""}".`],
        ifOver: ["Stand on flatter ground: turning the vehicle does not help its jacks."],
        ifUnknown: ["No parking ground is drawn under the turntable: not known how steep it is."],
        working: {
          formula: "fall of the ground ÷ limit",
          terms: [
            { symbol: "fall", meaning: "steepest under turntable and jacks", value: fallRad, quantity: "angle" },
            limitTerm("limit", "policy's", limit, "angle"),
          ],
          limitSource: limit.source,
        },
        at: geometry.vehicle[0],
        field: "scene.parking",
      }),
    }),
  ];
};
