import { amount, amountOr, declare } from "../judge.ts";
import type { Rule } from "./rule.ts";
import { notSolved, worstCase } from "./worst-case.ts";

/**
 * How hard do the ropes twist the ladder and bend it sideways, at its pivot?
 *
 * No maker's table tells what a ladder bears of either, and a 1975 ladder is on record as having bounced, twisted and
 * collapsed (NIOSH F2012-04). So it is shown beside the ledger, never judged as good.
 */
export const twist: Rule = (s) => {
  const worst = worstCase(s, ({ root }) => Math.hypot(root.torsionNm, root.lateralMomentNm));
  const root = worst?.felt.root;
  const torsionNm = root ? Math.abs(root.torsionNm) : null;
  const sidewaysNm = root ? Math.abs(root.lateralMomentNm) : null;
  return [
    declare(
      {
        id: "twist",
        rule: "twist",
        demand: amountOr(worst?.value ?? null, "moment"),
        limit: null,
        counts: false,
        words: () => ({
          subject: "Ladder twisted and bent sideways",
          question: "Torsion and sideways bending at the pivot; makers publish no limit for either",
          reading: [],
          ifOver: [],
          ifUnknown:
            torsionNm === null || sidewaysNm === null
              ? notSolved(s)
              : [
                  amount(torsionNm, "moment"),
                  " of twist and ",
                  amount(sidewaysNm, "moment"),
                  " of sideways bending at the pivot. What the ladder bears of either is not published: load both eyes alike, keep ropes in its plane, and ask the maker.",
                ],
          working: {
            formula: "sums of force × lever about the ladder's axis, and about the axis square to it in its plane",
            terms: [
              { symbol: "twist", meaning: "about the ladder's axis", value: torsionNm, quantity: "moment" },
              { symbol: "sideways", meaning: "bends the tip to one side", value: sidewaysNm, quantity: "moment" },
            ],
            limitSource: "none published",
          },
          at: s.geometry.posed.pivot,
          field: "rig.mainLines",
        }),
      },
      "unknown",
    ),
  ];
};
