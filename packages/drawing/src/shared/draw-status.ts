import type { SiteVector } from "@gantline/engine";
import { type Check, type Evaluation, holdsWithoutLoad } from "@gantline/plan";
import type { Primitive, WorldPoint } from "../primitives.ts";
import { STATUS_SIGN, STATUS_TONE, statusWords } from "./status-sign.ts";
import { shortened } from "./write.ts";

/** Findings nearer to each other than this are one place. */
const ONE_PLACE_M = 1.2;
const MOST_PLACES = 7;
/** Clearances have their own witness lines; whether the load is held is said at the load. */
const DRAWN_ELSEWHERE: ReadonlySet<string> = new Set(["clearances", "power-lines", "holding"]);

/** What the tip bears is said whether or not it is at fault. */
const ALWAYS_SHOWN: ReadonlySet<string> = new Set(["tip-rating"]);

/**
 * Beside each thing the ledger finds fault with: a sign and words for the worst finding there, and how many more there are.
 * @param marked the check that has its own words already
 */
export function drawStatus(
  evaluation: Evaluation,
  project: (p: SiteVector) => WorldPoint,
  bare: boolean,
  marked: Check | null,
): readonly Primitive[] {
  const places: { at: WorldPoint; checks: Check[] }[] = [];
  for (const check of evaluation.ledger) {
    if (!check.at || !check.counts || DRAWN_ELSEWHERE.has(check.rule) || check.id === marked?.id) continue;
    if (bare && !holdsWithoutLoad(check)) continue;
    if (check.status === "within" && !ALWAYS_SHOWN.has(check.rule)) continue;
    const at = project(check.at);
    const home = places.find((p) => Math.hypot(p.at[0] - at[0], p.at[1] - at[1]) < ONE_PLACE_M);
    if (home) home.checks.push(check);
    else places.push({ at, checks: [check] });
  }
  return places.slice(0, MOST_PLACES).map(({ at, checks }, k): Primitive => {
    const worst = checks[0] as Check;
    const others = checks.slice(1).filter((c) => c.status !== "within").length;
    const more = others > 0 ? ` (and ${others} more)` : "";
    return {
      kind: "text",
      at,
      text: `${shortened(worst.subject, 60)}: ${statusWords(worst)}${more}`,
      align: "start",
      offsetPx: [14, -12],
      sizePx: 12,
      weight: "strong",
      tone: STATUS_TONE[worst.status],
      sign: STATUS_SIGN[worst.status],
      halo: true,
      label: { priority: 72 - k, keep: worst.status === "over" },
    };
  });
}
