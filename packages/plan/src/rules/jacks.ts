import { type Outline, overlapPoint, type SiteVector, uncoveredPoint } from "@gantline/engine";
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
      demand: amountOr(reach === null || least.value === null ? null : reach >= least.value ? 0 : least.value, "ratio"),
      limit: amountOr(reach, "ratio"),
      words: () => ({
        subject: `Jack ${jack.name.toLowerCase()}, run out`,
        question: "Reach the rating supposes against the reach there is",
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
      }),
    });
  });

/** Does the whole pad of each jack stand on parking ground, off all that bars it? */
const jackGround: Rule = ({ plan: { scene, aerial }, geometry }) =>
  geometry.jacks.map((jack, i) => {
    const areaM2 = aerial.device.jacks[i]?.padAreaM2 ?? null;
    const pad = padAt(jack.at, areaM2 ?? POINT_AREA_M2, aerial.place.headingRad);
    const on = ({ outline }: { readonly outline: Outline }): boolean => overlapPoint(pad, outline) !== null;
    const barred = scene.areas.find(on) ?? scene.structures.find(on);
    const grounds = scene.parking.filter(on);
    const off = uncoveredPoint(
      pad,
      grounds.map((g) => g.outline),
    );
    const name = grounds.map((g) => `"${g.name}"`).join(" and ");
    const isOver = barred !== undefined || (scene.parking.length > 0 && off !== null);
    return declare(
      {
        id: `jack-ground/${jack.id}`,
        rule: "jacks",
        demand: null,
        limit: null,
        words: () => ({
          subject: `Jack ${jack.name.toLowerCase()}, ground`,
          question: "Does its whole pad stand on ground marked to carry a vehicle, clear of structures?",
          reading: barred
            ? [`Stands on "${barred.name}".`]
            : grounds.length === 0
              ? ["Stands on ground that is not marked for it."]
              : [off ? `Its pad stands partly off ${name}.` : `Stands on ${name}.`],
          ifOver: ["Move the vehicle."],
          ifUnknown: [
            scene.parking.length === 0
              ? "No parking ground is drawn: not known whether the ground carries a jack."
              : "Its middle stands on parking ground; not known whether the whole pad does: its area is not entered.",
          ],
          working: {
            formula: "jack pad within parking ground, outside gap, water, keep-out and structures",
            terms: [
              {
                symbol: "A",
                meaning: "area of the pad, taken as a square in line with the vehicle",
                value: areaM2,
                quantity: "area",
                source: aerial.device.source,
              },
            ],
            limitSource: "the scene as drawn",
          },
          at: jack.at,
          field: "aerial.place.turntableX",
        }),
      },
      isOver ? "over" : scene.parking.length === 0 || areaM2 === null ? "unknown" : "within",
    );
  });

/** Where the pad's size is not known its middle is looked at, m². */
const POINT_AREA_M2 = 1e-6;

/** The pad as a square in line with the vehicle, on the plan. */
function padAt(at: SiteVector, areaM2: number, headingRad: number): Outline {
  const half = Math.sqrt(areaM2) / 2;
  const [s, c] = [Math.sin(headingRad) * half, Math.cos(headingRad) * half];
  return (
    [
      [1, 1],
      [1, -1],
      [-1, -1],
      [-1, 1],
    ] as const
  ).map(([f, r]) => [at[0] + f * s + r * c, at[1] + f * c - r * s]);
}
