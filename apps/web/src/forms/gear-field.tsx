import type { GearKind } from "@gantline/plan";
import { usePlan } from "../state/desk-context.tsx";
import { ChoiceField } from "./choice-field.tsx";

interface Props {
  readonly path: string;
  readonly kind: GearKind;
  readonly label?: string;
  readonly none?: string;
}

/** A piece of gear of one kind, from the plan's cache. */
export function GearField({ path, kind, ...rest }: Props) {
  const gear = usePlan((plan) => plan.gear);
  const options = gear.filter((one) => one.kind === kind).map((one) => ({ value: one.id, word: one.name }));
  return <ChoiceField path={path} options={options} {...rest} />;
}
