import { amount, amountOr, judgeDistance } from "../judge.ts";
import { powerLineDistanceM } from "../power-line-distance.ts";
import { apart } from "./clearances.ts";
import type { Rule } from "./rule.ts";

/** Does everything keep its distance from every power line? The larger of two rules; a line of unknown voltage is unknown. */
export const powerLines: Rule = (s) =>
  s.clearances
    .filter((c) => c.kind === "power")
    .map((c) => {
      const rule = powerLineDistanceM(c.voltageKv ?? null);
      return judgeDistance(s.plan.policy, c.touching, {
        id: `power-line/${c.id}`,
        rule: "power-lines",
        demand: amountOr(rule.requiredM, "length"),
        limit: c.unplaced ? null : amount(c.distanceM, "length"),
        words: () => ({
          subject: `${c.what} to power line: ${c.toWhat}`,
          question: "Distance wanted for its voltage against distance there is",
          reading: [
            ...apart(c),
            ...(rule.requiredM === null
              ? [" Distance to keep not known."]
              : [" ", amount(rule.requiredM, "length"), " wanted."]),
          ],
          ifOver: ["Stand elsewhere, or have the line shut off and earthed by its owner before anything is raised."],
          ifUnknown: c.unplaced ? [amount(c.distanceM, "length"), c.unplaced] : [`${rule.source}.`],
          working: {
            formula: "larger of two rules ÷ distance",
            terms: [
              { symbol: "U", meaning: "nominal voltage", value: c.voltageKv ?? null, quantity: "voltage" },
              {
                symbol: "table",
                meaning: "29 CFR 1926.1408 Table A",
                value: rule.tableAM,
                quantity: "length",
                source:
                  "29 CFR 1926.1408 Table A, from a secondary source; a benchmark, as an aerial ladder is no crane in that rule",
              },
              {
                symbol: "fire service",
                meaning: "10 ft to 50 kV, 0.4 in more per kV above",
                value: rule.fireServiceM,
                quantity: "length",
                source: "WAC 296-305-04510(4)(c)",
              },
              { symbol: "distance", meaning: "between the nearest points", value: c.distanceM, quantity: "length" },
            ],
            limitSource: rule.source,
          },
          at: c.a,
          field: "scene.powerLines",
        }),
      });
    });
