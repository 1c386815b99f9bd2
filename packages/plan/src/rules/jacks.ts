import { pointInPolygon } from "@gantline/engine";
import { amountOr, declare, judge, limitTerm } from "../judge.ts";
import type { Rule } from "./rule.ts";

/** Is every jack run out as far as its rating supposes, and does it stand on ground allowed to carry it? */
export const jacks: Rule = (s) => [...jackReach(s), ...jackGround(s)];

const jackReach: Rule = ({ plan, geometry }) =>
  geometry.jacks.map((jack) => {
    const reach = plan.aerial.jackReach[jack.id] ?? null;
    const least = plan.policy.jackReachMin;
    return judge(plan.policy, {
      id: `jack-reach/${jack.id}`,
      rule: "jacks",
      subject: `Jack ${jack.name.toLowerCase()}, run out`,
      question: "Reach the rating supposes against the reach there is",
      demand: amountOr(reach === null || least.value === null ? null : reach >= least.value ? 0 : least.value, "ratio"),
      limit: amountOr(reach, "ratio"),
      reading: reach === null ? [] : ["Run out to ", { value: reach, quantity: "ratio" }, " of its reach."],
      ifOver: ["Short-set: the tip rating may not hold. Run it out, or use the maker's table for short-set jacks."],
      ifUnknown: [reach === null ? "Not known how far this jack is run out." : "No least reach is set."],
      working: {
        formula: "least reach ÷ reach; nothing is asked once it is reached",
        terms: [
          { symbol: "reach", meaning: "of full jack reach", value: reach, quantity: "ratio" },
          limitTerm("least reach", "the rating supposes", least, "ratio"),
        ],
        limitSource: least.source,
      },
      at: jack.at,
      field: `aerial.jackReach.${jack.id}`,
    });
  });

const jackGround: Rule = ({ plan, geometry }) =>
  geometry.jacks.map((jack) => {
    const at = [jack.at[0], jack.at[1]] as const;
    const barred = plan.scene.areas.find((a) => pointInPolygon(a.outline, at));
    const ground = plan.scene.parking.find((p) => pointInPolygon(p.outline, at));
    const status = barred ? "over" : ground ? "within" : plan.scene.parking.length === 0 ? "unknown" : "over";
    return declare(
      {
        id: `jack-ground/${jack.id}`,
        rule: "jacks",
        subject: `Jack ${jack.name.toLowerCase()}, ground`,
        question: "Does it stand on ground marked to carry a vehicle?",
        demand: null,
        limit: null,
        reading: barred
          ? [`Stands on "${barred.name}".`]
          : ground
            ? [`Stands on "${ground.name}".`]
            : ["Stands on ground that is not marked for it."],
        ifOver: ["Move the vehicle."],
        ifUnknown: ["No parking ground is drawn: not known whether the ground carries a jack."],
        working: {
          formula: "jack pad within parking ground, outside gap, water and keep-out",
          terms: [],
          limitSource: "the scene as drawn",
        },
        at: jack.at,
        field: "aerial.place.turntableX",
      },
      status,
    );
  });
