import { applyRopes } from "./apply-ropes.ts";
import { unbalanced } from "./balance.ts";
import type { NetworkState } from "./network-state.ts";

/** A tension below this share of the largest force is what rounding leaves of a balance, and no tension. */
const FAINT = 1e-9;

/** In a state in balance: makes those lines slack whose tension is too small to tell from none, and works the ropes out anew if there are any. */
export function slackenFaint(state: NetworkState, largestN: number): void {
  const { tension } = state;
  const faintN = Math.max(FAINT * largestN, unbalanced(state));
  for (let line = 0; line < tension.length; line++) {
    if (!(tension[line]! > 0 && tension[line]! < faintN) || !couldBeSlack(state, line)) continue;
    state.slackBelowN = faintN;
    applyRopes(state, false);
    return;
  }
}

const couldBeSlack = ({ net }: NetworkState, line: number): boolean => net.tensionN[line]! < 0 && net.sags[line] === 0;
