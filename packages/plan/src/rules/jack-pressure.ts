import { jackLoads, pointInPolygon } from "@gantline/engine";
import { amount, amountOr, type Finding, judge } from "../judge.ts";
import type { Situation } from "../situation.ts";
import type { Phrase } from "../units/quantity.ts";
import type { Rule } from "./rule.ts";
import { vehicleForces } from "./vehicle-forces.ts";

/**
 * Does each jack's pad press no harder on the ground than the ground may be taken to bear?
 *
 * The load is worked out from the vehicle's weight and the ropes where both are known, with all weight on the jacks; else it
 * is the most the jack may bear, where the maker says so. On ground whose bearing value the plan does not give, or where no
 * ground is drawn, it is unknown.
 */
export const jackPressure: Rule = (s): readonly Finding[] => {
  const { device } = s.plan.aerial;
  const loads = loadsOf(s);
  return s.geometry.jacks.flatMap((jack, i) => {
    const ground = s.plan.scene.parking.find((p) => pointInPolygon(p.outline, [jack.at[0], jack.at[1]]));
    const bearingPa = ground?.bearingPa ?? null;
    const made = device.jacks[i];
    if (!made) return [];
    const loadN = loads.known ? (loads.newtons[i] ?? null) : made.maxForceN;
    const areaM2 = made.padAreaM2;
    const pressurePa = loadN === null || areaM2 === null ? null : loadN / areaM2;
    return [
      judge(s.plan.policy, {
        id: `jack-pressure/${jack.id}`,
        rule: "jack-pressure",
        demand: amountOr(pressurePa, "pressure"),
        limit: amountOr(bearingPa, "pressure"),
        words: () => ({
          subject: `Jack ${jack.name.toLowerCase()}, pressure on the ground`,
          question: "Load on the jack over the area of its pad against the ground's presumptive bearing value",
          reading:
            pressurePa === null || bearingPa === null || !ground
              ? []
              : [
                  amount(pressurePa, "pressure"),
                  ` on "${ground.name}", which may bear `,
                  amount(bearingPa, "pressure"),
                  ".",
                ],
          ifOver: ["Put larger pads or mats under it, stand on firmer ground, or steepen the ladder."],
          ifUnknown:
            loadN === null
              ? loads.known
                ? ["Nothing holds the vehicle up on these jacks."]
                : loads.says
              : areaM2 === null
                ? ["Not known: the area of its pad is not entered."]
                : ground
                  ? [`Not known what "${ground.name}" may bear: enter its bearing value.`]
                  : ["Not known: no ground is drawn under this jack."],
          working: {
            formula: "N ÷ A ÷ bearing value",
            terms: [
              {
                symbol: "N",
                meaning: loads.known
                  ? "load on the jack: vehicle, ladder as posed and ropes, all on the jacks, shared evenly over the plan"
                  : "the most the jack may bear",
                value: loadN,
                quantity: "force",
                source: device.source,
              },
              { symbol: "A", meaning: "area of the pad", value: areaM2, quantity: "area", source: device.source },
              {
                symbol: "bearing value",
                meaning: ground ? `presumptive, of "${ground.name}"` : "presumptive",
                value: bearingPa,
                quantity: "pressure",
                source: "the scene as entered",
              },
            ],
            limitSource: "bearing value entered for the parking ground",
          },
          at: jack.at,
          field:
            loadN === null && !loads.known
              ? "aerial.device.massCentre"
              : areaM2 !== null && bearingPa === null
                ? "scene.parking"
                : `aerial.device.jacks[${i}].padAreaM2`,
        }),
      }),
    ];
  });
};

/** Load on each jack, the worst of the travel cases, N. */
function loadsOf(
  s: Situation,
): { readonly known: true; readonly newtons: readonly number[] } | { readonly known: false; readonly says: Phrase } {
  const { feet } = s.stand;
  const forces = vehicleForces(s);
  if (!forces.known) return forces;
  const cases = forces.ropes.map((ropes) => jackLoads(feet, [...forces.weights, ...ropes]));
  return {
    known: true,
    newtons: cases.includes(null) ? [] : feet.map((_, i) => Math.max(...cases.map((loads) => loads?.[i] ?? 0))),
  };
}
