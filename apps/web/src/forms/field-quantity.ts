import { type Quantity, quantityOfField } from "@gantline/plan";

const COUNTS = /^(people|legs|personsMax)$/;

/** What the number at a path measures: by its unit ending, by the limit it belongs to, or a plain ratio. */
export function fieldQuantity(path: string): Quantity {
  if (path.includes("jackReach")) return "ratio";
  const steps = path.split(".");
  const own = (steps.at(-1) ?? path).replace(/\[\d+\]$/, "");
  const name = own === "value" ? (steps.at(-2) ?? own) : own;
  if (COUNTS.test(name)) return "count";
  return quantityOfField(name) ?? "ratio";
}
