import { holdsWithoutLoad } from "../evolve/holds-without-load.ts";
import { asUnknown } from "../judge.ts";
import type { Rule } from "./rule.ts";

/**
 * A rule that rests on the forces, or on where they leave the load. Where the wind's push is not known it is left out of
 * them: what is over without it stays over, and what is not over is not known. What it finds of vehicle and ladder
 * alone stands.
 */
export const needsWind =
  (rule: Rule): Rule =>
  (s) =>
    s.sum.windN !== null
      ? rule(s)
      : rule(s).map((c) =>
          (c.status === "within" || c.status === "close") && !holdsWithoutLoad(c) ? asUnknown(c, NO_WIND) : c,
        );

const NO_WIND = ["Not known: the push of the wind is left out, as the gust or the load's drag area is not entered."];
