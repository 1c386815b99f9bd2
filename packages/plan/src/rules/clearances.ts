import type { Clearance } from "../evaluation.ts";
import { amount, amountOr, judgeDistance } from "../judge.ts";
import type { Limit, Policy } from "../schema/policy.ts";
import type { Phrase } from "../units/quantity.ts";
import type { Rule } from "./rule.ts";

type Kind = Exclude<Clearance["kind"], "power">;

const LIMIT: Readonly<Record<Kind, (p: Policy) => Limit>> = {
  ladder: (p) => p.ladderClearanceM,
  load: (p) => p.loadClearanceM,
  loadToLadder: (p) => p.loadToLadderClearanceM,
  loadToVehicle: (p) => p.loadClearanceM,
  rope: (p) => p.ropeClearanceM,
};

const ADVICE: Readonly<Record<Kind, string>> = {
  ladder: "The ladder may not rest on or strike anything: raise, shorten or move it.",
  load: "Hold the load off, or raise it.",
  loadToLadder: "Hold the load off the ladder.",
  loadToVehicle: "Hold the load off the vehicle.",
  rope: "Pad the edge and redirect the rope, or move it: a loaded rope over an edge is cut.",
};

/** How far apart two things are, in a few words. */
export const apart = ({ distanceM, atLeast }: Clearance): Phrase =>
  atLeast
    ? ["At least ", amount(distanceM, "length"), " apart however it hangs."]
    : [amount(distanceM, "length"), " apart."];

/** Do ladder, load and ropes keep off structures, and the load off ladder and vehicle? */
export const clearances: Rule = (s) =>
  s.clearances
    .filter((c): c is Clearance & { kind: Kind } => c.kind !== "power")
    .map((c) => {
      const limit = LIMIT[c.kind](s.plan.policy);
      return judgeDistance(s.plan.policy, c.touching, {
        id: `clearance/${c.id}`,
        rule: "clearances",
        demand: amountOr(c.requiredM, "length"),
        limit: c.unplaced ? null : amount(c.distanceM, "length"),
        words: () => ({
          subject: `${c.what} to ${c.toWhat.charAt(0).toLowerCase()}${c.toWhat.slice(1)}`,
          question: "Distance wanted against distance there is",
          reading: c.touching ? ["Touches."] : apart(c),
          ifOver: [ADVICE[c.kind]],
          ifUnknown: c.unplaced ? [amount(c.distanceM, "length"), c.unplaced] : ["No least distance is set."],
          working: {
            formula: "wanted ÷ distance",
            terms: [
              {
                symbol: "wanted",
                meaning: "least distance",
                value: c.requiredM,
                quantity: "length",
                source: limit.source,
              },
              { symbol: "distance", meaning: "between the nearest points", value: c.distanceM, quantity: "length" },
            ],
            limitSource: limit.source,
          },
          at: c.a,
        }),
      });
    });
