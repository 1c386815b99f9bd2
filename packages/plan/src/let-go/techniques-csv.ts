import { writePhrase } from "../units/write-amount.ts";
import type { LetGoCase, LetGoFigures, LineForce, TechniqueRow } from "./let-go-plan-types.ts";
import { LET_GO_LIMITS_TEXT } from "./model-limits.ts";

const HEAD = [
  "technique",
  "attendant",
  "tip_compression [N]",
  "tip_normal [N]",
  "tip_lateral [N]",
  "tip_resultant [N]",
  "tip_of_rating",
  "tip_status",
  "ladder_moment [N·m]",
  "tipping_moment [N·m]",
  "rope [m]",
  "people",
  "people_raising_by_hand",
  "tip",
  "worst_cut",
  "outcome",
  "peak_tip_low [N]",
  "peak_tip_entered [N]",
  "peak_tip_high [N]",
  "highest_tension [N]",
  "highest_tension_in",
  "person_force [N]",
  "drop [m]",
  "swing [m]",
  "hit_speed [m/s]",
  "hits",
  "slip [m]",
  "status",
  "status_if_brakes_hold",
  "worst_check",
  "worst_check_ratio",
  "what_happens",
  "needs",
] as const;

/** The techniques compared, one row each, for a spreadsheet: SI units named at the head, empty where not known; the model's limits last. */
export function techniquesCsv(rows: readonly TechniqueRow[]): string {
  const lines = rows.map(({ name, attendant, tip, figures, tipAtRest, worst, gone, verdict, says, needs }) => {
    const peak = worst?.figures ?? null;
    const pulled = peak && hardestPulled(peak);
    const [hit] = peak?.hits ?? [];
    return [
      name,
      attendant ? "yes" : "no",
      figures?.tipInBeam.compressionN,
      figures?.tipInBeam.normalN,
      figures?.tipInBeam.lateralN,
      figures?.tipInBeam.resultantN,
      tipAtRest?.ratio,
      tipAtRest?.status,
      figures?.ladderMomentNm,
      figures?.tippingNm,
      figures?.ropeM,
      figures?.people,
      figures?.peopleRaising,
      tip,
      gone,
      worst && outcomeOf(worst),
      peak?.tipN.low,
      peak?.tipN.entered,
      peak?.tipN.high,
      pulled?.peakN.high,
      pulled?.name,
      peak?.person?.peakN.high,
      peak ? peak.dropM.high : worst?.fall?.heightM,
      peak?.swingM.high,
      peak ? (hit?.speedMS ?? 0) : worst?.fall?.speedMS,
      hit?.what ?? worst?.fall?.onto,
      peak ? Math.max(0, ...peak.lines.map((l) => l.slippedM)) : worst?.fall?.slippedM,
      verdict?.status,
      verdict?.ifHeld.status,
      verdict?.ifHeld.subject,
      verdict?.ifHeld.ratio,
      writePhrase(says, "metric"),
      needs.join("; "),
    ];
  });
  return `${[HEAD, ...lines, [LET_GO_LIMITS_TEXT]].map((row) => row.map(cell).join(",")).join("\r\n")}\r\n`;
}

/** The line that is pulled hardest; null: none is left. */
export const hardestPulled = ({ lines }: LetGoFigures): LineForce | null =>
  lines.reduce<LineForce | null>((a, b) => (a === null || b.peakN.high > a.peakN.high ? b : a), null);

/** Held only if a brake does not slip whose slip force is not known: said so. */
const outcomeOf = ({ outcome, figures, slipUnknown }: LetGoCase): string =>
  outcome === "held" && figures !== null && slipUnknown.length > 0 ? "held if its brake does not slip" : outcome;

/** RFC 4180; a text that a spreadsheet would take for a formula is made plain. */
function cell(value: string | number | null | undefined): string {
  if (value === null || value === undefined) return "";
  if (typeof value === "number") return String(value);
  const plain = /^[=+\-@\t\r]/.test(value) ? `'${value}` : value;
  return /[",\r\n]/.test(plain) ? `"${plain.replaceAll('"', '""')}"` : plain;
}
