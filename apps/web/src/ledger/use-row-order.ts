import { type Check, worstFirst } from "@gantline/plan";
import { useRef } from "react";

/**
 * The rows in the order they are read in: worst first; but while something is in hand, rows of one status stay where they
 * were when it was taken, so that the eye finds the row it watches.
 */
export function useRowOrder<C extends Check>(ledger: readonly C[], moving: boolean): readonly C[] {
  const held = useRef<ReadonlyMap<string, number>>(new Map());
  if (!moving) {
    held.current = new Map(ledger.map((check, i) => [check.id, i]));
    return ledger;
  }
  const place = ({ id }: Check): number => held.current.get(id) ?? ledger.length;
  return [...ledger].sort((a, b) =>
    a.counts === b.counts && a.status === b.status ? place(a) - place(b) : worstFirst(a, b),
  );
}
