import { pointInPolygon, slopesUnderVehicle } from "@gantline/engine";
import { amount, amountOr, judge } from "../judge.ts";
import type { Plan } from "../schema/plan.ts";
import type { Limit } from "../schema/policy.ts";
import type { ParkingGround } from "../schema/scene.ts";
import { parkingPlane, parkingZAt } from "../site-ground.ts";
import { lowestLimit } from "./lowest-limit.ts";
import type { Rule } from "./rule.ts";
import { standsOn } from "./stands-on.ts";

/** Does the vehicle stand on ground meant for it, clear of structures, and level enough? */
export const parking: Rule = (s) => {
  const { turntableX, turntableY } = s.plan.aerial.place;
  const under = s.plan.scene.parking.find((g) => pointInPolygon(g.outline, [turntableX, turntableY]));
  return under ? [standsOn(s), slope(s, under), level(s, under)] : [standsOn(s)];
};

/** The lowest limit of slope, the maker's or the policy's, rad, with its source; a value of `null`: not known. */
export const slopeLimit = ({ aerial: { device }, policy }: Plan, slopeRad: number | null = null): Limit =>
  lowestLimit({ value: device.maxSlopeRad, source: device.source }, policy.slopeMaxRad, slopeRad);

function slope(s: Parameters<Rule>[0], under: ParkingGround) {
  const { plan } = s;
  const { place } = plan.aerial;
  const fall = slopesUnderVehicle(parkingPlane(under), place.headingRad);
  const steepest = Math.max(Math.abs(fall.alongRad), Math.abs(fall.acrossRad));
  const lowest = slopeLimit(plan, steepest);
  return judge(plan.policy, {
    id: "slope",
    rule: "parking",
    demand: amount(steepest, "angle"),
    limit: amountOr(lowest.value, "angle"),
    words: () => ({
      subject: "Slope under the vehicle",
      question: "Slope along or across the vehicle against the lowest limit",
      reading: [amount(steepest, "angle"), " under the vehicle."],
      ifOver: ["Stand on flatter ground."],
      ifUnknown: ["Not known how steep the maker lets it stand: take it from the manual."],
      working: {
        formula: "slope ÷ lowest limit",
        terms: [
          { symbol: "along", meaning: "the vehicle, uphill to its front", value: fall.alongRad, quantity: "angle" },
          { symbol: "across", meaning: "the vehicle, uphill to its right", value: fall.acrossRad, quantity: "angle" },
          {
            symbol: "limit",
            meaning: "lowest of maker's and policy's",
            value: lowest.value,
            quantity: "angle",
            source: lowest.source,
          },
        ],
        limitSource: lowest.source,
      },
      at: s.geometry.vehicle[0],
      field: "scene.parking",
    }),
  });
}

/** How far the vehicle's ground level may differ from the ground drawn under it, m. */
const LEVEL_WITHIN_M = 0.1;

function level(s: Parameters<Rule>[0], under: ParkingGround) {
  const { turntableX, turntableY, groundZM } = s.plan.aerial.place;
  const drawn = parkingZAt(under, turntableX, turntableY);
  return judge(s.plan.policy, {
    id: "ground-level",
    rule: "parking",
    demand: amount(Math.abs(drawn - groundZM), "length"),
    limit: amount(LEVEL_WITHIN_M, "length"),
    words: () => ({
      subject: "Ground level at the turntable",
      question: "Difference between the level entered and the ground drawn there",
      reading: ["Entered ", amount(groundZM, "length"), ", drawn ", amount(drawn, "length"), "."],
      ifOver: ["One of the two is wrong, and every height with it."],
      ifUnknown: [],
      working: {
        formula: "|entered − drawn| ÷ allowance",
        terms: [
          { symbol: "entered", meaning: "ground level at the turntable", value: groundZM, quantity: "length" },
          { symbol: "drawn", meaning: `level of "${under.name}" there`, value: drawn, quantity: "length" },
          {
            symbol: "allowance",
            meaning: "difference let pass",
            value: LEVEL_WITHIN_M,
            quantity: "length",
            source: "planning default, no source",
          },
        ],
        limitSource: "planning default, no source",
      },
      at: s.geometry.posed.pivot,
      field: "aerial.place.groundZM",
    }),
  });
}
