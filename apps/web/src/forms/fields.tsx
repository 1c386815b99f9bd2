import { pathSteps, ruleAt } from "@gantline/plan";
import { useBench } from "../state/desk-context.tsx";
import { AmountField } from "./amount-field.tsx";
import { CheckField } from "./check-field.tsx";
import { ChoiceField } from "./choice-field.tsx";
import { PointField } from "./point-field.tsx";
import { TextField } from "./text-field.tsx";

/** Fields of one part of the plan, in the order given, each of the kind the schema says. */
export function Fields({ at, names }: { readonly at: string; readonly names: readonly string[] }) {
  return names.map((name) => <AnyField key={name} path={at === "" ? name : `${at}.${name}`} />);
}

function AnyField({ path }: { readonly path: string }) {
  const { store } = useBench();
  const rule = ruleAt(store.getState().history.present, pathSteps(path));
  if (rule === null) return null;
  switch (rule.type) {
    case "number":
    case "int":
      return <AmountField path={path} />;
    case "boolean":
      return rule.nullable ? <ChoiceField path={path} /> : <CheckField path={path} />;
    case "enum":
    case "literal":
      return <ChoiceField path={path} />;
    case "tuple":
      return <PointField path={path} />;
    default:
      return <TextField path={path} lines={/notes$/i.test(path) ? 3 : 1} />;
  }
}
