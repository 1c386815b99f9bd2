import { pointInPolygon } from "@gantline/engine";
import { surfaceBelow } from "../edit/surface-below.ts";
import { declare } from "../judge.ts";
import type { Rule } from "./rule.ts";

/** Hands are held this high above what their owner stands on, m, at most. Planning default, no source. */
const HANDS_ABOVE_M = 2;

/** Does each tagline crew stand on ground or structure, outside gaps, water and keep-out areas? */
export const taglineStanding: Rule = ({ plan }) =>
  plan.rig.taglines.map((line, i) => {
    const [x, y, z] = line.handler;
    const barred = plan.scene.areas.find(
      (a) => pointInPolygon(a.outline, [x, y]) && Math.abs(z - a.zM) <= HANDS_ABOVE_M + 0.5,
    );
    const floorM = surfaceBelow(plan.scene, [x, y]);
    const above = z - floorM;
    const stands = barred === undefined && above >= 0 && above <= HANDS_ABOVE_M;
    return declare(
      {
        id: `tagline-standing/${line.id}`,
        rule: "tagline-standing",
        demand: null,
        limit: null,
        words: () => ({
          subject: `${line.name}, standing place`,
          question: "Does the crew stand on something, where people may stand?",
          reading: barred
            ? [`Stands on "${barred.name}".`]
            : [{ value: above, quantity: "length" }, " from hands down to the ground or roof below."],
          ifOver: [barred ? "Move the crew." : "Put the hands where somebody can stand."],
          ifUnknown: [],
          working: {
            formula: "0 ≤ hands − surface ≤ 2 m, outside gap, water and keep-out",
            terms: [
              { symbol: "hands", meaning: "height of the hands", value: z, quantity: "length" },
              { symbol: "surface", meaning: "ground or roof below them", value: floorM, quantity: "length" },
            ],
            limitSource: "planning default, no source",
          },
          field: `rig.taglines[${i}].handler`,
        }),
      },
      stands ? "within" : "over",
    );
  });
