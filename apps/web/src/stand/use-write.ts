import { type Quantity, writeAmount } from "@gantline/plan";
import { useCallback } from "react";
import { useSystem } from "../state/desk-context.tsx";

/** Writes numbers in the reader's units. */
export function useWrite(): (value: number | null, quantity: Quantity) => string {
  const system = useSystem();
  return useCallback((value, quantity) => writeAmount(value === null ? null : { value, quantity }, system), [system]);
}
