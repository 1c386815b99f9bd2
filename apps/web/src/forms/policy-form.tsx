import { usePlan } from "../state/desk-context.tsx";
import { AmountField } from "./amount-field.tsx";
import { Fields } from "./fields.tsx";
import { Group } from "./group.tsx";
import { TextField } from "./text-field.tsx";
import { labelOf } from "./words.ts";

/** The limits this plan is judged by, each with where it comes from. */
export default function PolicyForm() {
  const policy = usePlan((plan) => plan.policy);
  const limits = Object.entries(policy).flatMap(([name, value]) => (typeof value === "object" ? [name] : []));
  return (
    <>
      <Group title="Policy">
        <Fields at="policy" names={["name", "tipBasis"]} />
      </Group>
      <section className="rows" data-path="policy">
        <table className="limits">
          <caption>Limits. An empty one is not set, and what rests on it is unknown.</caption>
          <thead>
            <tr>
              <th scope="col">What</th>
              <th scope="col">Limit</th>
              <th scope="col">Where it comes from</th>
            </tr>
          </thead>
          <tbody>
            {limits.map((name) => (
              <tr key={name}>
                <th scope="row">{labelOf(`policy.${name}`)}</th>
                <td>
                  <AmountField bare path={`policy.${name}.value`} label={labelOf(`policy.${name}`)} />
                </td>
                <td>
                  <TextField bare path={`policy.${name}.source`} label={`${labelOf(`policy.${name}`)}, source`} />
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </section>
    </>
  );
}
