import { amount, amountOr, judgeDistance } from "../judge.ts";
import { powerLineDistanceM } from "../power-line-distance.ts";
import type { Rule } from "./rule.ts";

/** Does everything keep its distance from every power line? The larger of two rules; a line of unknown voltage is unknown. */
export const powerLines: Rule = (s) =>
  s.clearances
    .filter((c) => c.kind === "power")
    .map((c) => {
      const rule = powerLineDistanceM(c.voltageKv ?? null);
      // Where the load really hangs is known only once the forces are.
      const placeKnown = s.state !== null || !c.id.startsWith("power/load/");
      return judgeDistance(s.plan.policy, c.touching, {
        id: `power-line/${c.id}`,
        rule: "power-lines",
        subject: `${c.what} to power line: ${c.toWhat}`,
        question: "Distance wanted for its voltage against distance there is",
        demand: amountOr(rule.requiredM, "length"),
        limit: placeKnown ? amount(c.distanceM, "length") : null,
        reading: [
          amount(c.distanceM, "length"),
          " apart, ",
          rule.requiredM === null ? "distance to keep not known." : amount(rule.requiredM, "length"),
          rule.requiredM === null ? "" : " wanted.",
        ],
        ifOver: ["Stand elsewhere, or have the line shut off and earthed by its owner before anything is raised."],
        ifUnknown: placeKnown
          ? [`${rule.source}.`]
          : [amount(c.distanceM, "length"), " from where it is wanted; not known where it would hang."],
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
      });
    });
