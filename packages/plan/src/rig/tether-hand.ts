import { tackleAdvantage } from "@gantline/engine";
import type { TetherRun } from "./rig-state.ts";

/**
 * Pull on the tackle's free end while it draws the load in, N: the tether's pull ÷ (1 + η + η² + …), one term a rope of
 * the tackle (tension method). null: the efficiency of its sheaves is not known (taken as that of the riding pulley).
 */
export function tetherHandN({ laid, tensionN }: TetherRun): number | null {
  return laid.efficiency === null ? null : tensionN / tackleAdvantage(laid.line.parts, laid.efficiency);
}
