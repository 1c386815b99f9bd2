import { holdsWithoutLoad } from "../evolve/holds-without-load.ts";
import { asUnknown } from "../judge.ts";
import type { Rule } from "./rule.ts";

/**
 * A rule that rests on the forces. Rope whose weight is not known is left out of them: what is over without it stays over,
 * and what is not over is not known. What it finds of vehicle and ladder alone stands.
 */
export const needsRopeWeight =
  (rule: Rule): Rule =>
  (s) => {
    const { unweighed } = s.laid;
    if (s.state === null || unweighed.length === 0) return rule(s);
    const why = [
      `Not known: what a metre of the rope of ${unweighed.join(" and ")} weighs is not entered, and left out.`,
    ];
    return rule(s).map((c) =>
      (c.status === "within" || c.status === "close") && !holdsWithoutLoad(c) ? asUnknown(c, why) : c,
    );
  };
